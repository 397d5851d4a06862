// Values and places in words.
#include "engine/words/words.h"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace words_test {

using namespace acre;
using namespace acre::engine;

TEST_CASE("a choice is called by its option, and what is none of them by nothing") {
    lang::Sheet sheet;
    sheet.choices.emplace_back().options = {"one_way", "cross", "dropped"};
    sheet.choices[0].options.pop_back();
    lang::Type type;
    type.kind = lang::Type::Kind::Choice;
    type.choice = 0;
    CHECK(choice_text(sheet, type, 0) == "one_way");
    CHECK(choice_text(sheet, type, 1) == "cross");
    for (const double none : {-1.0, 2.0, 1e6, static_cast<double>(NAN)})
        CHECK(choice_text(sheet, type, none) == "");
    type.kind = lang::Type::Kind::Number;
    CHECK(choice_text(sheet, type, 1) == "");
}

TEST_CASE("values of every kind in words") {
    const auto job = tests::priced_ok(
        "model \"m\"\nchoice pattern = along | both_ways\ngiven way : pattern = along\n"
        "given a = 80 ac\nrequire a > 40 ac \"small\"\n"
        "cost work : $/ac = $412.80/ac over a\nprice \"P\" lump\n");
    const auto said = [&](const char* line, double value) {
        return value_text(job.sheet(), job.line(line), value);
    };
    CHECK(said("way", 1) == "both_ways");
    CHECK(said("way", NAN) == "no answer");
    CHECK(said("a", 80) == "80 ac");
    CHECK(said("work", 412.80) == "$412.80/ac");
    CHECK(said("work.amount", 33'024) == "$33,024"); // a line whose unit nobody wrote
    const lang::NodeId condition = job.sheet().requires_[0].condition;
    const auto of_condition = [&](double value) {
        return value_of_node(job.sheet(), condition, value);
    };
    CHECK(of_condition(1) == "yes");
    CHECK(of_condition(0) == "no");
    CHECK(of_condition(NAN) == "no answer");
    CHECK(unit_of_node(job.sheet(), condition) == "");
    CHECK(value_of_node(job.sheet(), job.sheet().nodes[condition].a, 50) == "50 ac");
}

} // namespace words_test
