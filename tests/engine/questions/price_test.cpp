#include "engine/questions/price.h"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace price_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

const std::string mowing = "model \"Mowing\"\n"
                           "choice ground = flat_meadow | rough_bank\n"
                           "given area = 40 ac \"acres mowed\" within 1 ac .. 900 ac\n"
                           "given meets : ground = flat_meadow\n"
                           "given fuel : $/gal \"diesel\" because \"fuel dock\"\n"
                           "hours : h = area / 5 ac/h\n"
                           "require area > 2 ac \"too small\"\n"
                           "require area > 2 ac \"too small\"\n"
                           "part \"Work\"\n"
                           "  cost mower : $/h = $50/h over hours\n"
                           "  cost driver : $/h = $30/h over hours\n"
                           "  cost burned : $/gal = fuel over 6 gal/h * hours\n"
                           "  cost walk : $/h = $20/h over 2 h\n"
                           "price \"Mowing\" per ac of area\n"
                           "  margin 20 %\n";

const std::string job = "job \"Creek meadow\"\nmodel \"mowing\"\nfor \"Sable Creek\"\n"
                        "date 2027-06-04\nset fuel = $4/gal because \"bid\"\n"
                        "option \"Bank\"\n  set meets = rough_bank\noption \"Half\"\n"
                        "  set area = 20 ac\n";

lang::Outcome<PriceAnswer> ask_for(PriceQuestion question, const std::string& text = job,
                                   const std::string& option = "Bank") {
    Choices choices;
    choices.option = option;
    choices.files = {{"mowing.rate", mowing}};
    return ask(priced_ok(text, choices), question);
}

const LineEntry& line(const PriceAnswer& answer, const std::string& name) {
    for (const LineEntry& entry : answer.lines)
        if (entry.name == name)
            return entry;
    FAIL("no line " << name);
    return answer.lines.front();
}

} // namespace

TEST_CASE("the answer tells of the job what a page shows before its figures") {
    const lang::Outcome<PriceAnswer> answer = ask_for({});
    REQUIRE(answer.value.has_value());
    CHECK(answer->job.title == "Creek meadow");
    CHECK(answer->job.who == "Sable Creek");
    CHECK(answer->job.date == "2027-06-04");
    CHECK(answer->job.option == "Bank");
    CHECK(answer->job.options == std::vector<std::string>{"Bank", "Half"});
    CHECK(answer->job.model == "Mowing");
    CHECK(answer->job.season.empty());
    CHECK(answer->conditions == std::vector<std::string>{"area > 2 ac"}); // each once
    CHECK(answer->lines.empty());                                         // not asked for
}

TEST_CASE("hourly costs are those over hours, and diesel that goes with the machine's hours") {
    const lang::Outcome<PriceAnswer> answer = ask_for({});
    REQUIRE(answer.value.has_value());
    // Mower and driver run 8 h, the walk 2 h; 48 gal of diesel are 6 gal an hour.
    CHECK(answer->by_hour.hours == doctest::Approx(8));
    CHECK(answer->by_hour.costs == std::vector<std::size_t>{0, 1, 2, 3});
    CHECK(answer->by_hour.per_hour == doctest::Approx((8 * 80 + 48 * 4 + 2 * 20) / 8.0));
    // 8 h * $80/h + 48 gal * $4/gal + 2 h * $20/h, over 1 - 20 %.
    CHECK(answer->estimate.price_cents == 109'000);
}

TEST_CASE("every line, with what people read and who set it") {
    const lang::Outcome<PriceAnswer> answer = ask_for({true});
    REQUIRE(answer.value.has_value());
    const LineEntry& meets = line(*answer, "meets");
    CHECK(meets.is_choice);
    CHECK(meets.choice == "rough_bank");
    CHECK(meets.text == "rough bank");
    CHECK(meets.set_by == "option");
    const LineEntry& fuel = line(*answer, "fuel");
    CHECK(fuel.text == "$4.00/gal");
    CHECK(fuel.unit == "$/gal");
    CHECK(fuel.set_by == "job");
    CHECK(fuel.because == "bid");
    CHECK(fuel.place == "test.job:5");
    const LineEntry& hours = line(*answer, "hours");
    CHECK(hours.value == doctest::Approx(8));
    CHECK(hours.set_by.empty());
    CHECK(line(*answer, "mower").part == "Work");
}

TEST_CASE("a fault stops the price, and is said") {
    const lang::Outcome<PriceAnswer> answer =
        ask_for({}, "job \"Small\"\nmodel \"mowing\"\nset fuel = $4/gal\nset area = 1 ac\n", "");
    CHECK(!answer.value.has_value());
    CHECK(answer.said.diagnostics.has_errors());
    CHECK(answer.said.sources != nullptr);
}

} // namespace price_test
