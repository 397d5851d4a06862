// What a record keeps of a job's blocks and days, and that it is worked out again.
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/book/again.h"
#include "engine/book/make_record.h"
#include "engine/book/record.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "tests/support/memory_loader.h"

namespace book_blocks_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Hours are acres by pace; a driver by the hour and seed by the acre, a quarter on top of the cost.
const std::string mowing = "model \"Mowing\"\n"
                           "list block \"a meadow\"\n"
                           "part \"Meadow\" each block\n"
                           "  given area = 40 ac \"acres\"\n"
                           "  given pace = 5 ac/h \"pace\"\n"
                           "  block_hours : h = area / pace\n"
                           "part \"All\"\n"
                           "  acres : ac = sum(area)\n"
                           "  hours : h = sum(block_hours)\n"
                           "  days : day = ceil(hours / 8 h/day, 1 day)\n"
                           "part \"Work\"\n"
                           "  cost driver : $/h = $30/h over hours\n"
                           "  cost seed : $/ac = $7/ac over acres\n"
                           "price \"Mowing\" per ac of acres covers \"Work\"\n"
                           "  margin 20 %\n";
const std::string two = "job \"Two\"\nmodel \"mowing\"\ndate 2027-03-01\n"
                        "block creek \"Creek\"\n  set area = 30 ac\n"
                        "block bank \"Bank\"\n  set area = 10 ac\n  set pace = 1 ac/h\n";

Record made() {
    lang::Request request;
    request.name = "two.job";
    request.text = two;
    tests::MemoryLoader files({{"mowing.rate", mowing}});
    const lang::Outcome<Job> job = make_job(request, files);
    REQUIRE(job.value.has_value());
    const lang::Outcome<Estimate> priced = estimate(**job);
    REQUIRE(priced.value.has_value());
    QuoteRecord quote = quote_of(**job, *priced);
    quote.number = "2027-001";
    quote.issued = "2027-02-01";
    quote.valid_until = "2027-03-03";
    quote.blocks = record_blocks(**job, *priced);
    quote.risk = risk_of(**job);
    Record record;
    record.body = std::move(quote);
    record.program = "0";
    record.written = "2027-02-01T12:00:00Z";
    record.counter = {{"2027", 1}};
    return record;
}
QuoteRecord& quote_in(Record& record) {
    return std::get<QuoteRecord>(record.body);
}

} // namespace

TEST_CASE("blocks and days stand in the file of a record as in the record") {
    Record record = made();
    const QuoteRecord& quote = quote_in(record);
    // Creek 6 h and 30 ac: 180 + 210 = $390. Bank 10 h and 10 ac: 300 + 70 = $370. A margin of 20 %
    // makes $950 of the $760, to the cent by the acre: $23.75 on 40 acres.
    REQUIRE(quote.blocks.size() == 2);
    CHECK(quote.blocks[0].label == "Creek");
    CHECK(quote.blocks[0].acres == "30 ac");
    CHECK(quote.blocks[0].depth.empty());
    CHECK(quote.blocks[0].cents == 48750);
    CHECK(quote.blocks[1].cents == 46250);
    // 16 h are two days: Monday and Tuesday.
    CHECK(quote.start == "2027-03-01");
    CHECK(quote.finish == "2027-03-02");

    const std::string bytes = seal_record(record, 1, "", "");
    CHECK(bytes.find(R"("blocks":[{"acres":"30 ac","cents":48750,"label":"Creek"},)") !=
          bytes.npos);
    ReadRecord back = read_record(bytes);
    CHECK(back.fault.empty());
    CHECK(back.record.other.empty());
    CHECK(quote_in(back.record).finish == "2027-03-02");
    CHECK(seal_record(back.record, 1, "", "") == bytes);
}

TEST_CASE("blocks and days are worked out again") {
    Record record = made();
    QuoteRecord& quote = quote_in(record);
    CHECK(price_again(record).differences.empty());
    const std::vector<RecordBlock> blocks = quote.blocks;
    quote.blocks.clear(); // not asked for
    CHECK(price_again(record).differences.empty());

    quote.blocks = blocks;
    quote.blocks[0].cents -= 1;
    quote.blocks[1].acres = "9 ac";
    quote.finish = "2027-03-03";
    CHECK(price_again(record).differences ==
          std::vector<std::string>{"job.finish: 2027-03-03 in the record, 2027-03-02 now",
                                   "blocks.1.cents: 48749 in the record, 48750 now",
                                   "blocks.2.acres: 9 ac in the record, 10 ac now"});
    record = made();
    quote_in(record).blocks.push_back(blocks[0]);
    CHECK(price_again(record).differences ==
          std::vector<std::string>{"blocks.3: in the record, but has no answer now"});
}

TEST_CASE("a rate times its quantity is the cents of an item since the second notation") {
    QuoteRecord quote;
    quote.request.notation = 1;
    CHECK_FALSE(is_billed_exactly(quote));
    quote.request.notation = 2;
    CHECK(is_billed_exactly(quote));
}

} // namespace book_blocks_test
