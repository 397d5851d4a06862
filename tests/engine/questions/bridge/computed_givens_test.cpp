// Givens that one side of a bridge types and the other computes, by its model or by a formula of
// its own.
#include "engine/questions/bridge/bridge.h"

#include <doctest/doctest.h>

#include <map>
#include <string>

#include "engine/driver.h"
#include "tests/support/memory_loader.h"

namespace computed_givens_test {

using namespace acre;

namespace {

// $1 for each unit of y, whose default is twice x.
std::string model(const std::string& factor) {
    return "model \"m\"\ngiven x = 5\ngiven y : 1 = 2 * x\ncost c : $ = $1 over y * " + factor +
           "\nprice \"P\" lump\n";
}

lang::Outcome<engine::Job> made(const std::string& model_text, const std::string& sets) {
    tests::MemoryLoader loader(
        {{"m.rate", model_text}, {"part.rate", "model \"part\"\ngiven a = 3\ngiven b = 1\n"}});
    lang::Request request;
    request.name = "j.job";
    request.text = "job \"j\"\nmodel \"m\"\n" + sets;
    return engine::make_job(request, loader);
}

// Cents by the names in a row, joined by commas; "model" and "rounding" stand for themselves.
std::map<std::string, std::int64_t> rows(const lang::Outcome<engine::Job>& before,
                                         const lang::Outcome<engine::Job>& after) {
    REQUIRE(before);
    REQUIRE(after);
    const auto bridge = engine::ask(**before, **after, {"", "", "", "", true});
    REQUIRE(bridge);
    std::map<std::string, std::int64_t> told;
    for (const engine::BridgeRow& row : bridge->rows) {
        std::string names = row.kind == engine::BridgeKind::Model      ? "model"
                            : row.kind == engine::BridgeKind::Rounding ? "rounding"
                                                                       : "";
        for (const engine::BridgeChange& change : row.changes)
            names += (names.empty() ? "" : ",") + change.name;
        told[names] = row.cents;
    }
    return told;
}

using Rows = std::map<std::string, std::int64_t>;

} // namespace

TEST_CASE("a given that the model computes on one side is typed on the other") {
    const auto computed = made(model("1"), "set x = 10\n");
    const auto typed = made(model("1"), "set x = 7\nset y = 50\n");
    // From 20 to 50. Before y is typed, x is worth -6; after, nothing.
    CHECK(rows(computed, typed) == Rows{{"x", -300}, {"y", 3'300}});
    CHECK(rows(typed, computed) == Rows{{"x", 300}, {"y", -3'300}});
}

TEST_CASE("so it is where the model changes too") {
    const auto computed = made(model("1"), "set x = 10\n");
    const auto typed = made(model("3"), "set x = 10\nset y = 50\n");
    // 20, 60 of the new model, 50 of the new value, 150 of both.
    CHECK(rows(computed, typed) == Rows{{"model", 7'000}, {"y", 6'000}});
    CHECK(rows(typed, computed) == Rows{{"model", -7'000}, {"y", -6'000}});
}

TEST_CASE("formulas that the jobs set are values like others") {
    const auto two = made(model("1"), "set y = 3 * x\n");
    const auto other = made(model("1"), "set y = 4 * x\n");
    const auto plain = made(model("1"), "");
    CHECK(rows(two, other) == Rows{{"y", 500}});
    CHECK(rows(plain, other) == Rows{{"y", 1'000}});
    CHECK(rows(other, plain) == Rows{{"y", -1'000}});
}

TEST_CASE("what follows the shared instance follows it still") {
    const std::string text = "model \"m\"\nuse \"part\"\nuse \"part\" as other with b = 2\n"
                             "cost c : $ = $1 over part.a + other.a\nprice \"P\" lump\n";
    const auto follows = made(text, "set part.a = 4\n");
    const auto apart = made(text, "set part.a = 6\nset other.a = 9\n");
    // From 8 to 15: 12 with part.a alone, 13 with other.a alone.
    CHECK(rows(follows, apart) == Rows{{"part.a", 300}, {"other.a", 400}});
    CHECK(rows(apart, follows) == Rows{{"part.a", -300}, {"other.a", -400}});
}

} // namespace computed_givens_test
