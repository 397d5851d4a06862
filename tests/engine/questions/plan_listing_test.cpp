#include "engine/questions/plan_listing.h"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace plan_listing_test {

using namespace acre;
using engine::PlanListing;
using engine::PlanStep;

namespace {

PlanListing listing(const std::string& text) {
    const tests::Priced priced = tests::priced_ok(text);
    lang::Outcome<PlanListing> plan = engine::ask(priced.job(), engine::PlanQuestion{});
    REQUIRE(plan);
    REQUIRE(plan->steps.size() == priced.plan().size());
    for (std::size_t slot = 0; slot < plan->steps.size(); ++slot) {
        const double value = priced.values().slot[slot];
        REQUIRE((plan->steps[slot].value == value || std::isnan(value)));
    }
    return *plan;
}

// The last step that the line asked for: what it comes to.
const PlanStep& of_line(const PlanListing& plan, const std::string& line) {
    const PlanStep* found = nullptr;
    for (const PlanStep& step : plan.steps)
        if (step.line == line)
            found = &step;
    REQUIRE(found != nullptr);
    return *found;
}

} // namespace

TEST_CASE("every step says what it does, with what, what comes out and who asked for it") {
    const PlanListing plan = listing("model \"m\"\n"
                                     "table loss (slope : %) : %\n"
                                     "  0 5\n"
                                     "  10 15\n"
                                     "given area = 6 ac\n"
                                     "given width = 10 ft\n"
                                     "given slope = 4 %\n"
                                     "way : mi = area / width\n"
                                     "lost : % = loss(slope)\n"
                                     "wide : 1 = when width > 9 ft then 1 otherwise 0\n");
    const PlanStep& area = of_line(plan, "area");
    CHECK(area.operation == "Input");
    CHECK(area.of == "area");
    CHECK(area.value == 6);
    CHECK(area.unit == "ac");
    CHECK(area.place == "test.rate:5");
    const PlanStep& way = of_line(plan, "way");
    CHECK(way.value ==
          doctest::Approx(6 * 43560 / 10.0 / 5280)); // square feet of an acre, by definition
    CHECK(way.unit == "mi");
    REQUIRE(way.operands.size() == 2);
    CHECK(plan.steps[way.operands[0]].unit == "ac/ft");
    const PlanStep& lost = of_line(plan, "lost");
    CHECK(lost.operation == "Table");
    CHECK(lost.of == "loss");
    CHECK(lost.operands.size() == 1);
    CHECK(lost.value == doctest::Approx(9)); // 5 + 4 / 10 * (15 - 5)
    const PlanStep& wide = of_line(plan, "wide");
    CHECK(wide.operation == "Select");
    CHECK(plan.steps[wide.operands[0]].operation == "Greater");
    CHECK(plan.steps[wide.operands[0]].unit.empty());
}

TEST_CASE("what has no answer is listed too") {
    const PlanListing plan = listing("model \"m\"\ngiven a = 0\nb : 1 = 1 / a\n");
    CHECK(std::isnan(of_line(plan, "b").value));
}

} // namespace plan_listing_test
