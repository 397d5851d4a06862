// Jobs side by side, with prices that can be worked out by hand.
#include "engine/questions/compare/compare.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>

#include "engine/driver.h"
#include "tests/support/memory_loader.h"

namespace compare_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string model = "model \"m\"\n"
                          "given area = 10 ac  \"acres ripped\"  within 1 ac .. 1,000 ac\n"
                          "given rate = $300/h  \"rate of the crawler\"\n"
                          "given move = $0  \"the move\"\n"
                          "given pace = 2 ac/h\n"
                          "given method = one_way | both  \"how it is ripped\"\n"
                          "cost machine : $/h = rate over area / pace\n"
                          "cost moving : $ = move over 1\n"
                          "require pace < 50 ac/h \"too fast to be true\"\n"
                          "price \"Ripping\" per ac of area\n";

CompareSide side(const std::string& name, const std::string& sets) {
    tests::MemoryLoader loader({{"m.rate", model}});
    lang::Request request;
    request.name = name + ".job";
    request.text = "job \"Job of " + name + "\"\nmodel \"m\"\n" + sets;
    return {"", request.name, make_job(request, loader)};
}
std::vector<CompareSide> sides(std::vector<std::pair<std::string, std::string>> all) {
    std::vector<CompareSide> out;
    for (const auto& [name, sets] : all)
        out.push_back(side(name, sets));
    return out;
}
const CompareRow* row(const std::vector<CompareRow>& rows, const std::string& name) {
    for (const CompareRow& one : rows)
        if (one.name == name)
            return &one;
    return nullptr;
}
// 10 ac at 2 ac/h and $300/h: $1,500, $150/ac. B pays $1,000 to be moved and works twice as fast.
const std::string fast = "set pace = 4 ac/h\nset move = $1,000\n";

} // namespace

TEST_CASE("a value that one side does not use stands with the change that makes it used") {
    // One way 10 ac cost $1,000 whatever the pulls; in rows three pulls cost what one way does. By
    // themselves the changes would add +$500 and -$500.
    const std::string rows = "model \"m\"\ngiven area = 10 ac  \"acres\"\n"
                             "given method = one_way | tree_rows  \"pattern\"\n"
                             "given pulls = 1  \"pulls per row\"\ngiven fuel = $4/gal  \"fuel\"\n"
                             "cost work : $ = (when method is tree_rows then $1,000 * pulls / 3 "
                             "otherwise $1,000) + fuel * 100 gal over 1\n"
                             "price \"Ripping\" per ac of area\n";
    const auto priced = [&](const std::string& name, const std::string& sets) {
        tests::MemoryLoader loader({{"m.rate", rows}});
        lang::Request request;
        request.name = name + ".job";
        request.text = "job \"Job of " + name + "\"\nmodel \"m\"\n" + sets;
        return CompareSide{"", request.name, make_job(request, loader)};
    };
    std::vector<CompareSide> two;
    two.push_back(priced("a", ""));
    two.push_back(priced("b", "set method = tree_rows\nset pulls = 3\nset fuel = $5/gal\n"));
    const auto answer = ask(std::move(two), {});
    REQUIRE(answer);
    REQUIRE(answer->why.at(0).bridge);
    const std::vector<BridgeRow>& why = answer->why[0].bridge->rows;
    REQUIRE(why.size() == 2);
    CHECK(why[0].changes.size() == 1); // $100 more for fuel, $10 an acre
    CHECK(why[0].changes[0].name == "fuel");
    CHECK(why[0].share == doctest::Approx(10));
    CHECK(why[1].changes.size() == 2);
    CHECK(why[1].share == doctest::Approx(0));
}

TEST_CASE("prices, costs, what differs and why, by hand") {
    const auto answer = ask(sides({{"a", ""}, {"b", fast + "set method = both\n"}}), {});
    REQUIRE(answer);
    REQUIRE(answer->columns.size() == 2);
    CHECK(answer->title == "Job of a");
    CHECK(answer->columns[1].name == "Job of b");
    CHECK(answer->columns[0].price_cents == 150'000);
    CHECK(answer->columns[1].price_cents == 175'000);
    CHECK(answer->cheapest == 0);
    REQUIRE(row(answer->prices, "price.per_unit") != nullptr);
    CHECK(row(answer->prices, "price.per_unit")->value[1] == doctest::Approx(175));
    CHECK(row(answer->costs, "moving")->value[0] == 0);
    CHECK(row(answer->costs, "moving")->value[1] == 1000);
    CHECK(row(answer->costs, "cost.total")->value[1] == 1750);
    // The same on both sides is not told; a choice keeps its identifier and says that it is one.
    CHECK(row(answer->differences, "rate") == nullptr);
    REQUIRE(row(answer->differences, "method") != nullptr);
    CHECK(row(answer->differences, "method")->is_choice);
    CHECK(row(answer->differences, "method")->choice ==
          std::vector<std::string>{"one_way", "both"});
    CHECK(row(answer->differences, "move")->choice[1] == "$1,000");
    REQUIRE(answer->why.size() == 1);
    REQUIRE(answer->why[0].bridge);
    CHECK(answer->why[0].bridge->after.label == "Job of b");
    std::int64_t cents = 0;
    for (const BridgeRow& one : answer->why[0].bridge->rows)
        cents += one.cents;
    CHECK(cents == 2'500);
    CHECK(answer->told.empty());
    CHECK_FALSE(answer->flips);
    CHECK_FALSE(answer->over);
}

TEST_CASE("nothing is cheapest where all cost the same, and both are where two do") {
    const auto alike = ask(sides({{"a", ""}, {"b", ""}}), {});
    REQUIRE(alike);
    CHECK_FALSE(alike->cheapest);
    CHECK_FALSE(alike->columns[0].cheapest);
    const auto three = ask(sides({{"a", fast + "set method = both\n"}, {"b", ""}, {"c", ""}}), {});
    REQUIRE(three);
    CHECK(three->cheapest == 1);
    CHECK_FALSE(three->columns[0].cheapest);
    CHECK(three->columns[1].cheapest);
    CHECK(three->columns[2].cheapest);
}

TEST_CASE("where two cost the same: 150 = 75 + 1,000 / area at 13.33 acres") {
    CompareQuestion question;
    question.flip = "area";
    const auto answer = ask(sides({{"a", ""}, {"b", fast}}), question);
    REQUIRE(answer);
    REQUIRE(answer->flips);
    CHECK(answer->flips->label == "acres ripped");
    CHECK(answer->flips->unit == "ac");
    REQUIRE(answer->flips->columns.size() == 1);
    const CompareFlip& flip = answer->flips->columns[0];
    REQUIRE(flip.meetings.size() == 1);
    CHECK(flip.meetings[0].kind == CompareMeeting::Kind::Same);
    CHECK(flip.meetings[0].at == doctest::Approx(1000.0 / 75));
    CHECK(flip.meetings[0].cheaper_above);

    question.flip = "rate"; // the move is never made up for below $1,000 an hour and more
    const auto one = ask(sides({{"a", ""}}), question);
    REQUIRE_FALSE(one);
    CHECK(one.said.diagnostics.all().front().code == lang::Code::Q009);
    question.flip = "nosuch";
    const auto none = ask(sides({{"a", ""}, {"b", fast}}), question);
    REQUIRE_FALSE(none);
    CHECK(none.said.diagnostics.all().front().title.find("nosuch") != std::string::npos);
}

TEST_CASE("the price of each over a given") {
    CompareQuestion question;
    question.over = {"area", {10, 20}, 3};
    const auto answer = ask(sides({{"a", ""}, {"b", fast}}), question);
    REQUIRE(answer);
    REQUIRE(answer->over);
    CHECK(answer->over->at == std::vector<double>{10, 15, 20});
    CHECK(answer->over->price_unit == "$/ac");
    REQUIRE(answer->over->price.size() == 2);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(answer->over->price[0][i] == doctest::Approx(150));
        CHECK(answer->over->price[1][i] == doctest::Approx(75 + 1000 / answer->over->at[i]));
    }
}

TEST_CASE("a side without a price is told, and the others are compared all the same") {
    const auto answer = ask(sides({{"a", ""}, {"bad", "set pace = 60 ac/h\n"}, {"b", fast}}), {});
    REQUIRE(answer);
    CHECK(answer->columns.size() == 2);
    CHECK(answer->unanswered == std::vector<std::string>{"Job of bad"});
    REQUIRE(answer->told.size() == 1);
    CHECK(answer->told[0].diagnostics.all().front().code == lang::Code::E504);
    CHECK(answer->told[0].sources != nullptr);
    const auto none = ask(sides({{"wrong", "set nosuch = 1\n"}}), {});
    REQUIRE(none);
    CHECK(none->columns.empty());
    CHECK(none->unanswered == std::vector<std::string>{"wrong.job"});
    CHECK(none->told.size() == 1);
}

TEST_CASE("a given's unit, a job's options, and too many jobs") {
    const CompareSide one = side("a", "option \"Fast\"\n  set pace = 3 ac/h\n");
    REQUIRE(one.job);
    CHECK(options_of(**one.job) == std::vector<std::string>{"Fast"});
    CHECK(*unit_of_given(**one.job, "rate") == "$/h");
    CHECK_FALSE(unit_of_given(**one.job, "machine"));
    std::vector<CompareSide> many;
    for (std::size_t i = 0; i <= max_columns; ++i)
        many.push_back(side("a", ""));
    CHECK_FALSE(ask(std::move(many), {}));
}

} // namespace compare_test
