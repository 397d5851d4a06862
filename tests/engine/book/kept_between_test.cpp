// Records priced again one after the other with what is kept between them: each comes to what it
// comes to by itself.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>
#include <thread>

#include "engine/book/again.h"
#include "engine/book/make_record.h"
#include "engine/book/seal.h"
#include "engine/book/texts.h"
#include "tests/support/memory_loader.h"

namespace kept_between_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string model =
    "model \"m\"\nuse \"prices\"\ngiven area = 80 ac \"net acres\" swing 70 ac .. 95 ac\n"
    "given rate = $300/h swing $250/h .. $350/h\nhours : h = area / 5 ac/h\n"
    "cost machine : $/h = rate over hours\ncost fuel : $/gal = prices.diesel over 35 gal/h * "
    "hours\n"
    "price \"Ripping\" per ac of area\n  margin 12 %\n";

Record made(const std::string& sets, const std::string& of = model,
            const std::string& diesel = "$4.35/gal") {
    lang::Request request;
    request.name = "j.job";
    request.text = "job \"j\"\nmodel \"m\"\nseason \"2027\"\n" + sets;
    tests::MemoryLoader files(
        {{"m.rate", of},
         {"prices.rate", "model \"p\"\ngiven diesel : $/gal swing $3/gal .. $7/gal\n"},
         {"2027.season", "season \"2027\"\nset prices.diesel = " + diesel + "\n"}});
    const lang::Outcome<Job> job = make_job(request, files);
    REQUIRE(job);
    const lang::Outcome<Estimate> priced = estimate(**job);
    REQUIRE(priced);
    Record record;
    QuoteRecord quote = quote_of(**job, *priced);
    quote.risk = risk_of(**job);
    record.body = std::move(quote);
    return record;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
}

// Alike in structure, and alike in nothing else.
std::vector<Record> records() {
    return {made(""),
            made("set area = 90 ac\n"),
            made("set area = 75 ac\nset rate = $310/h\n"),
            made("set rate = $310/h\n", model, "$5.10/gal"),
            made("", replaced(model, "$300/h", "$301/h")),
            made("", replaced(model, "35 gal/h", "36 gal/h")),
            made("set area = 90 ac\n", replaced(model, "12 %", "13 %"))};
}

void check_alike(const PricedAgain& shared, const PricedAgain& alone) {
    CHECK(shared.differences == alone.differences);
    CHECK(shared.because == alone.because);
    REQUIRE(shared.job);
    CHECK((*shared.job)->values().slot == (*alone.job)->values().slot);
    CHECK(shared.estimate->price_cents == alone.estimate->price_cents);
}

} // namespace

TEST_CASE("no value of one record is in another that shares its models") {
    KeptBetween kept;
    const std::vector<Record> all = records();
    std::set<std::int64_t> prices;
    for (int round = 0; round < 2; ++round)
        for (const Record& record : all) {
            const PricedAgain shared = price_again(record, &kept);
            CHECK(shared.differences.empty());
            check_alike(shared, price_again(record));
            prices.insert(record.quote()->price_cents);
        }
    CHECK(prices.size() == all.size());
    CHECK(kept.trees.size() > 3);
}

TEST_CASE("what a record says falsely is found with anything kept before it") {
    KeptBetween kept;
    const std::vector<Record> all = records();
    for (const Record& record : all)
        price_again(record, &kept);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Record& other = all[(i + 1) % all.size()];
        Record lie = all[i];
        auto& quote = std::get<QuoteRecord>(lie.body);
        quote.lines = other.quote()->lines; // the values of another record of the same structure
        check_alike(price_again(lie, &kept), price_again(lie));
        CHECK(!price_again(lie, &kept).differences.empty());
        lie = all[i];
        std::get<QuoteRecord>(lie.body).risk = other.quote()->risk;
        check_alike(price_again(lie, &kept), price_again(lie));
        CHECK(!price_again(lie, &kept).differences.empty());
        lie = all[i];
        std::get<QuoteRecord>(lie.body).price_cents += 1;
        CHECK(price_again(lie, &kept).differences.size() == 1);
    }
}

TEST_CASE("threads that share say the same") {
    KeptBetween kept;
    const std::vector<Record> all = records();
    std::vector<std::vector<std::string>> said(8 * all.size(), {"not asked"});
    std::vector<std::thread> threads;
    for (std::size_t t = 0; t < 8; ++t)
        threads.emplace_back([&, t] {
            for (std::size_t i = 0; i < all.size(); ++i)
                said[t * all.size() + i] =
                    price_again(all[(i + t) % all.size()], &kept).differences;
        });
    for (std::thread& thread : threads)
        thread.join();
    for (const std::vector<std::string>& differences : said)
        CHECK(differences.empty());
}

TEST_CASE("more dimensions than are kept, or another seed, draw what they draw alone") {
    KeptPoints kept;
    for (const std::size_t dimensions : {std::size_t{3}, kept_dimensions, kept_dimensions + 3})
        for (const std::uint64_t seed : {1U, 2U, 1U}) {
            const PointSet alone = make_points(seed, dimensions);
            const auto shared = kept.of(seed, dimensions);
            std::vector<std::uint64_t> one(dimensions), other(dimensions);
            for (std::size_t k = 0; k < alone.size(); ++k) {
                alone[k].offsets(5, one);
                (*shared)[k].offsets(5, other);
                CHECK(one == other);
                CHECK(std::equal(alone[k].base(dimensions - 1),
                                 alone[k].base(dimensions - 1) + points_in_batch,
                                 (*shared)[k].base(dimensions - 1)));
            }
        }
}

TEST_CASE("a text is read from the book once, and one that is at fault each time") {
    int read = 0;
    KeptTexts texts([&](const std::string& seal) {
        ++read;
        return seal == "bad" ? FoundText{{}, "was changed"} : FoundText{"text of " + seal, {}};
    });
    CHECK(texts.find("a").text == "text of a");
    CHECK(texts.find("b").text == "text of b");
    CHECK(texts.find("a").text == "text of a");
    CHECK(read == 2);
    CHECK(texts.find("bad").fault == "was changed");
    CHECK(texts.find("bad").fault == "was changed");
    CHECK(read == 4);
    const std::string big(kept_text_bytes / 2 + 1, 'x');
    KeptTexts large([&](const std::string&) {
        ++read;
        return FoundText{big, {}};
    });
    for (const char* seal : {"a", "b", "a"}) // each lets go of the one before
        CHECK(large.find(seal).text == big);
    CHECK(read == 7);
}

} // namespace kept_between_test
