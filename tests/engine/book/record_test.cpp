#include "engine/book/record.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include <nlohmann/json.hpp>

#include "engine/book/again.h"
#include "engine/book/canonical.h"
#include "engine/book/quote_record.h"
#include "engine/book/shape.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "engine/words/money.h"
#include "tests/support/memory_loader.h"

namespace record_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string model =
    "model \"m\"\nuse \"prices\"\nuse \"library/field-work\"\ngiven area = 80 ac \"net "
    "acres\"\ngiven rate = $300/h\n"
    "given share = 12 %\nhours : h = area / field_capacity(1.5 mi/h, 7 ft, 83 %)\ncost machine : "
    "$/h = rate over hours\n"
    "cost fuel : $/gal = prices.diesel over 35 gal/h * hours\nprice \"Ripping\" per ac of area\n  "
    "overhead 9 %\n  margin share\n"
    "  at least $4,000\n";
const std::string prices = "model \"p\"\ngiven diesel : $/gal\n";
const std::string season = "season \"2027\"\nset prices.diesel = $4.35/gal because \"dock\"\n";
const std::string job =
    "job \"j\"\nmodel \"m\"\nseason \"2027\"\nset area = 152 ac because \"walked\"\n";

struct Made {
    nlohmann::json record;
    std::int64_t cents = 0;
};
Made made(const std::string& text = job, const std::string& of = model) {
    lang::Request request;
    request.name = "j.job";
    request.text = text;
    request.sets = {{"share", "15 %"}};
    tests::MemoryLoader files({{"m.rate", of}, {"prices.rate", prices}, {"2027.season", season}});
    const lang::Outcome<Job> made_job = make_job(request, files);
    REQUIRE(made_job.value.has_value());
    const lang::Outcome<Estimate> priced = estimate(**made_job);
    REQUIRE(priced.value.has_value());
    return {record_of(**made_job, *priced, "0"), priced->price_cents};
}

double line_of(const nlohmann::json& record, const std::string& name) {
    for (const nlohmann::json& line : record["lines"])
        if (line["name"] == name)
            return line["value"].get<double>();
    FAIL("no line " << name);
    return 0;
}

// As a record was before its third notation: no line for overhead and contribution, and the profit
// is before overhead.
void take_earnings_out(nlohmann::json& record) {
    const double contribution = line_of(record, "contribution.total");
    const double share = line_of(record, "contribution.share");
    nlohmann::json lines = nlohmann::json::array();
    for (nlohmann::json line : record["lines"]) {
        const std::string name = line["name"];
        if (name == "overhead.total" || name.starts_with("contribution."))
            continue;
        if (name == "profit.total")
            line["value"] = contribution;
        if (name == "profit.share")
            line["value"] = share;
        lines.push_back(std::move(line));
    }
    record["lines"] = std::move(lines);
}

} // namespace

TEST_CASE("a record prices again to the same cents from its own texts alone") {
    const Made one = made();
    CHECK(differences(one.record).empty());
    CHECK(one.record["price"]["cents"] == one.cents);
    // and after a trip through its file
    const auto back = read_canonical(canonical(one.record) + "\n");
    REQUIRE(back);
    CHECK(differences(*back).empty());
}

TEST_CASE("a record keeps its firm, and prices are rounded to the step of its money") {
    lang::Request request;
    request.name = "j.job";
    request.text = "job \"j\"\nmodel \"n\"\nfirm \"kestrel\"\n";
    tests::MemoryLoader files(
        {{"n.rate", "model \"n\"\nmoney CHF\ngiven rate = 31.27 CHF/h\nhours : h = 7 h\n"
                    "cost labor : CHF/h = rate over hours\nprice \"Work\" lump\n  margin 10 %\n"},
         {"kestrel.firm", "firm \"Kestrel <b>\"\nmoney CHF \"CHF\" to 0.05\n"
                          ": address = \"18 Bench Road\"\n"}});
    const lang::Outcome<Job> job = make_job(request, files);
    REQUIRE(job.value.has_value());
    const lang::Outcome<Estimate> priced = estimate(**job);
    REQUIRE(priced.value.has_value());
    CHECK(priced->price_cents == 24320); // 7 h at 31.27 over 0.9: 243.2111, to 0.05
    nlohmann::json record = record_of(**job, *priced, "0");
    CHECK(differences(record).empty());
    const QuoteRecord quote = quote_record(record);
    CHECK(quote.firm == "Kestrel <b>");
    CHECK(quote.firm_words.front().second == "18 Bench Road");
    CHECK(quote.money == lang::Currency{"CHF", "CHF", 5});
    CHECK(shape_fault(record).empty());
    for (const auto& [name, value] :
         {std::pair<const char*, nlohmann::json>{"sign", "<b>"}, {"code", "XXX"}, {"step", 0}}) {
        nlohmann::json bad = record;
        bad["money"][name] = value;
        CHECK(!shape_fault(bad).empty());
    }
    record["texts"].erase("kestrel.firm");
    CHECK(!differences(record).empty());
    lang::show_money({});
}

TEST_CASE("overhead is read from a record that has no line for it") {
    nlohmann::json record = made().record;
    const double overhead = line_of(record, "overhead.total");
    // 9 % of the cost, by the model's text.
    CHECK(overhead == doctest::Approx(0.09 * line_of(record, "ripping.cost")));
    CHECK(quote_record(record).overhead == overhead);
    take_earnings_out(record);
    record["request"]["notation"] = 2;
    CHECK(quote_record(record).overhead == doctest::Approx(overhead).epsilon(1e-12));
    CHECK(differences(record).empty());
}

TEST_CASE("a record's texts keep the rules of the version that it states") {
    nlohmann::json record = made().record;
    CHECK(record["request"]["notation"] == lang::current_notation);
    std::string& text = record["texts"]["m.rate"].get_ref<std::string&>();
    const std::size_t at = text.find("overhead 9 %");
    REQUIRE(at != std::string::npos);
    text.replace(at, 12, "overhead 0.09");
    CHECK_FALSE(differences(record).empty()); // S124
    record["request"].erase("notation");      // as the first records have it
    take_earnings_out(record);
    CHECK(differences(record).empty());
}

TEST_CASE("a quote sealed before quantities were rounded keeps its cents") {
    nlohmann::json record = made("job \"j\"\nmodel \"m\"\nseason \"2027\"\nset area = 152.004 ac\n",
                                 model + "  round up to $1/ac\n")
                                .record;
    CHECK(record["items"][0]["quantity"] == 152);
    CHECK(differences(record).empty());
    const auto rate = static_cast<std::int64_t>(record["items"][0]["rate"].get<double>());
    CHECK(record["price"]["cents"] == rate * 15200);
    record["request"].erase("notation"); // as it was written then
    CHECK_FALSE(differences(record).empty());
    const std::int64_t unrounded = to_cents(static_cast<double>(rate) * 152.004);
    record["price"]["cents"] = unrounded;
    record["items"][0]["cents"] = unrounded;
    take_earnings_out(record);
    CHECK(differences(record).empty());
}

TEST_CASE("one input gives one record, byte for byte") {
    CHECK(canonical(made().record) == canonical(made().record));
}

TEST_CASE("a record keeps who set what, where and because of what") {
    const nlohmann::json record = made().record;
    const auto given = [&](const std::string& name) {
        for (const auto& entry : record["givens"])
            if (entry["name"] == name)
                return entry;
        return nlohmann::json();
    };
    CHECK(given("area")["set_by"] == "job");
    CHECK(given("area")["because"] == "walked");
    CHECK(given("prices.diesel")["set_by"] == "season");
    CHECK(given("prices.diesel")["place"] == "2027.season:2");
    CHECK(given("share")["set_by"] == "command line");
    CHECK(record["texts"].contains("m.rate"));
    CHECK(record["texts"].size() == 5);
}

TEST_CASE("costs, steps and what makes them are marked as inner; acres and the price are not") {
    const nlohmann::json record = made().record;
    const auto inner = record["inner"].get<std::vector<std::string>>();
    const auto is_inner = [&](const char* name) {
        return std::find(inner.begin(), inner.end(), name) != inner.end();
    };
    for (const char* name :
         {"machine", "machine.amount", "fuel", "cost.total", "overhead.total", "contribution.total",
          "contribution.share", "profit.total", "profit.share", "ripping.cost", "ripping.overhead",
          "ripping.margin", "share"})
        CHECK_MESSAGE(is_inner(name), name);
    for (const char* name :
         {"area", "hours", "ripping.amount", "ripping.rate", "price.total", "prices.diesel"})
        CHECK_MESSAGE(!is_inner(name), name);
}

TEST_CASE("a record that was tampered with tells what differs") {
    nlohmann::json record = made().record;
    record["price"]["cents"] = record["price"]["cents"].get<std::int64_t>() + 1;
    auto found = differences(record);
    REQUIRE(found.size() == 1);
    CHECK(found[0].find("cents") != std::string::npos);
    record = made().record;
    record["texts"]["m.rate"] = model + "extra : h = hours\n";
    found = differences(record);
    REQUIRE(found.size() == 1);
    CHECK(found[0] == "extra: not in the record");
    record["texts"].erase("prices.rate");
    found = differences(record);
    REQUIRE(found.size() == 1);
    CHECK(found[0].find("F701") != std::string::npos);
}

TEST_CASE("a malformed record is refused") {
    CHECK(!request_of(nlohmann::json()));
    CHECK(!request_of(nlohmann::json{{"request", 1}, {"texts", 2}}));
    nlohmann::json record = made().record;
    record["request"]["sets"] = {{1, 2}};
    CHECK(!request_of(record));
}

} // namespace record_test
