#include <doctest/doctest.h>

#include <cmath>

#include "engine/questions/what_if/sensitivity.h"
#include "tests/support/priced.h"

namespace sensitivity_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

SensitivityAnswer ask(const Priced& job, const std::string& line) {
    const auto answer = acre::engine::ask(job.job(), SensitivityQuestion{line});
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}
Effect effect_of(const SensitivityAnswer& s, std::string_view name) {
    for (const Effect& effect : s.effects)
        if (effect.given.name == name)
            return effect;
    FAIL("no effect of " << name);
    return s.effects[0];
}

const std::string model =
    "model \"m\"\n"
    "part \"All\"\n"
    "  given area = 40 ac  \"acres\"  within 1 ac .. 500 ac  swing 30 ac .. 60 ac\n"
    "  given pace = 2 ac/h  swing 1.6 ac/h .. 2.5 ac/h\n"
    "  given fuel = $4/gal  swing $3/gal .. $6/gal\n"
    "  given burn = 20 gal/h\n"
    "  given spare = $7\n"
    "  given shift = 8 h/day  swing 10 h/day .. 9 h/day\n"
    "  given method = strip | full\n"
    "  given half_pace : ac/h = pace / 2\n"
    "  hours : h = area / pace * (when method is full then 2 otherwise 1)\n"
    "  days : day = ceil(hours / shift, 1 day)\n"
    "  cost diesel : $/h = burn * fuel over hours\n"
    "  cost camp : $/day = $150/day over days\n"
    "  cost slow : $/h = $1 * max(0, 1 - half_pace / 9 ac/h) / 1 h over hours\n"
    "price \"Work\" per ac of area\n";

} // namespace

TEST_CASE("a price that is charged otherwise than its line says is told too") {
    const std::string text =
        "model \"m\"\npart \"All\"\n  given area = 3.3333 ac  within 1 ac .. 9 ac  swing 2 ac .. 4 "
        "ac\n"
        "  cost labor : $/ac = $90/ac over area\nprice \"Work\" per ac of area\n";
    const SensitivityAnswer s = ask(priced_ok(text), "");
    CHECK(s.value == doctest::Approx(90));
    REQUIRE(s.charged); // 3.33 ac at $90 are $299.70, over 3.3333 ac
    CHECK(*s.charged == doctest::Approx(299.70 / 3.3333));
    CHECK_FALSE(ask(priced_ok(text), "cost.total").charged);
    CHECK_FALSE(ask(priced_ok(model), "").charged); // 40 ac are charged as they are
}

TEST_CASE("slopes are in the units of both lines and agree with the closed form") {
    const Priced job = priced_ok(model);
    const SensitivityAnswer s = ask(job, "");
    CHECK(s.line.name == "price.per_unit");
    CHECK(s.line.unit == "$/ac");
    const Effect& fuel = effect_of(s, "fuel");
    CHECK(fuel.slope_unit == "$/ac per $/gal");
    CHECK(fuel.slope == doctest::Approx(20.0 / 2)); // burn / pace
    CHECK(fuel.elasticity == doctest::Approx(10 * 4 / s.value));
    CHECK(*fuel.at_low == doctest::Approx(s.value - 10));
    CHECK(*fuel.at_high == doctest::Approx(s.value + 20));
    CHECK(fuel.width(s.value) == doctest::Approx(30));
    const Effect& pace = effect_of(s, "pace");
    CHECK(pace.slope == doctest::Approx(-20.0 * 4 / 4 - 1.0 / 4)
                            .epsilon(1e-12)); // and of the slow cost: (1 - p / 18) / p
}

TEST_CASE("what the line does not rest on has no effect, and computed givens are told apart") {
    const Priced job = priced_ok(model);
    const SensitivityAnswer s = ask(job, "");
    const Effect& spare = effect_of(s, "spare");
    CHECK_FALSE(spare.reached);
    CHECK(spare.slope == 0);
    CHECK(s.effects.back().width(s.value) == 0);
    REQUIRE(s.computed.size() == 1);
    CHECK(s.computed[0] == "half_pace");
}

TEST_CASE("givens are ranked by what their swing does") {
    const Priced job = priced_ok(model);
    const SensitivityAnswer s = ask(job, "");
    for (std::size_t k = 1; k < s.effects.size(); ++k)
        CHECK(s.effects[k - 1].width(s.value) >= s.effects[k].width(s.value));
    CHECK(s.effects[0].given.name == "method"); // twice the hours
}

TEST_CASE("a choice has the line at every option instead of a slope") {
    const Priced job = priced_ok(model);
    const Effect method = effect_of(ask(job, ""), "method");
    REQUIRE(method.at_option.size() == 2);
    CHECK(method.at_option[0] == doctest::Approx(job.value("price.per_unit")));
    CHECK(method.at_option[1] > method.at_option[0] + 40);
    CHECK(method.slope == 0);
}

TEST_CASE("what is chosen is walked as a swing is") {
    std::string chosen = model;
    chosen.replace(chosen.find("swing 30 ac"), 5, "choose");
    const Effect one = effect_of(ask(priced_ok(model), ""), "area");
    const Effect two = effect_of(ask(priced_ok(chosen), ""), "area");
    CHECK_FALSE(one.chosen);
    CHECK(two.chosen);
    CHECK(one.at_low == two.at_low);
    CHECK(one.at_high == two.at_high);
    CHECK(one.nearby.size() == two.nearby.size());
}

TEST_CASE("shares of a computed given are walked in its own unit") {
    // y = 3 b, b = a / 2: at a = 8 b is 4 ft, and 3 ft of y for each foot of b.
    const Priced job = priced_ok("model \"m\"\ngiven a = 8 ft  \"a\"\ngiven b : ft = a / 2  \"b\"  "
                                 "within 1 ft .. 6 ft  swing 75 % .. 125 % of it\n"
                                 "y : ft = 3 * min(b, 4.5 ft)  \"y\"\n");
    const SensitivityAnswer s = ask(job, "y");
    const Effect b = effect_of(s, "b");
    CHECK(b.value == doctest::Approx(4));
    REQUIRE(b.swing.has_value());
    CHECK(b.swing->low == doctest::Approx(3));
    CHECK(b.swing->high == doctest::Approx(5));
    CHECK(*b.at_low == doctest::Approx(9));
    CHECK(*b.at_high == doctest::Approx(13.5));
    CHECK(b.slope == doctest::Approx(3));
    CHECK(b.slope_unit == "ft per ft");
    CHECK(b.elasticity == doctest::Approx(1));
    REQUIRE(b.nearby.size() == 1);
    CHECK(b.nearby[0].at == doctest::Approx(4.5));
    CHECK(b.nearby[0].distance == doctest::Approx(0.5));
    CHECK(b.nearby[0].before == doctest::Approx(3));
    CHECK(s.computed == std::vector<std::string>{"b"});
    // Its own allowed range holds for what is walked.
    const Priced wide =
        priced_ok("model \"m\"\ngiven a = 8 ft  \"a\"\ngiven b : ft = a / 2  \"b\"  "
                  "within 1 ft .. 4.5 ft  swing 75 % .. 125 % of it\n"
                  "y : ft = 3 * b  \"y\"\n");
    CHECK(std::isnan(*effect_of(ask(wide, "y"), "b").at_high));
}

TEST_CASE("an empty swing is told and not used") {
    const Priced job = priced_ok(model);
    const Effect shift = effect_of(ask(job, ""), "shift");
    CHECK(shift.swing_trouble == "the swing of `shift` is empty: 10 h/day .. 9 h/day");
    CHECK_FALSE(shift.at_low.has_value());
}

TEST_CASE("shares end at the whole of it or enclose it") {
    const auto trouble_of = [](const std::string& shares) {
        const Priced job = priced_ok("model \"m\"\ngiven a = 8 ft\ngiven b : ft = a / 2  swing " +
                                     shares + " of it\ny : ft = 3 * b\n");
        return effect_of(ask(job, "y"), "b").swing_trouble;
    };
    for (const char* shares : {"80 % .. 120 %", "80 % .. 100 %", "100 % .. 120 %"})
        CHECK(trouble_of(shares).empty());
    for (const char* shares : {"80 % .. 99 %", "101 % .. 120 %"})
        CHECK(trouble_of(shares) == "the swing of `b` does not enclose 100 % of it");
}

TEST_CASE("the next step on either side is told with its place and its size") {
    // 40 ac at 2 ac/h is 20 h, in days of 8 h: 3 days. The fourth begins past 48 ac, the second
    // ends at 32 ac.
    const Priced job = priced_ok(model);
    const Effect area = effect_of(ask(job, "cost.total"), "area");
    REQUIRE(area.nearby.size() == 2);
    for (const Nearby& place : area.nearby) {
        CHECK(place.step);
        CHECK(place.line == "days");
        CHECK(std::fabs(place.after - place.before) == doctest::Approx(150).epsilon(1e-6));
        CHECK(place.distance == doctest::Approx(place.at > 40 ? 8 : -8).epsilon(1e-6));
    }
}

TEST_CASE("a kink is told with the slopes on its two sides") {
    const Priced job =
        priced_ok("model \"m\"\ngiven x = 4  \"x\"  swing 1 .. 9\ny : 1 = max(5 * x, 30)  \"y\"\n");
    const Effect x = effect_of(ask(job, "y"), "x");
    REQUIRE(x.nearby.size() == 1);
    CHECK_FALSE(x.nearby[0].step);
    CHECK(x.nearby[0].at == doctest::Approx(6));
    CHECK(x.nearby[0].before == 0);
    CHECK(x.nearby[0].after == 5);
}

TEST_CASE("decisions that do not matter are no kinks") {
    const Priced job = priced_ok("model \"m\"\ngiven x = 4  \"x\"  swing 1 .. 9\ny : 1 = when x > "
                                 "6 then 3 * x otherwise x + 2 * x  \"y\"\n");
    CHECK(effect_of(ask(job, "y"), "x").nearby.empty());
}

TEST_CASE("pairs that do not act alone are named with what their corner adds") {
    const Priced job = priced_ok(
        "model \"m\"\ngiven a = 2  \"a\"  swing 1 .. 4\ngiven b = 10  \"b\"  swing 8 .. 15\n"
        "given c = 7  \"c\"  swing 5 .. 8\ny : 1 = a * b + c  \"y\"\n");
    const SensitivityAnswer s = ask(job, "y");
    REQUIRE(s.interactions.size() == 1);
    const Interaction& pair = s.interactions[0];
    CHECK(pair.amount == doctest::Approx(2 * 5)); // (4 - 2) (15 - 10)
    CHECK(pair.first_high);
    CHECK(pair.second_high);
}

TEST_CASE("a line without an answer and a name that does not exist are refused") {
    const Priced job = priced_ok("model \"m\"\ngiven a = 0  \"a\"\ny : 1 = 1 / a  \"y\"\n");
    const auto none = acre::engine::ask(job.job(), SensitivityQuestion{"y"});
    CHECK_FALSE(none);
    REQUIRE(none.said.diagnostics.has_errors());
    CHECK(none.said.diagnostics.all().front().code ==
          acre::lang::Code::E501); // where it comes from
    const auto unknown = acre::engine::ask(job.job(), SensitivityQuestion{"yy"});
    CHECK_FALSE(unknown);
    CHECK(unknown.said.diagnostics.all().front().code == acre::lang::Code::Q001);
    CHECK(acre::tests::title_of(unknown.said) == "no line named `yy`");
}

TEST_CASE("a rounded price has the slopes of the cost behind it") {
    const Priced job = priced_ok(
        "model \"m\"\npart \"All\"\n  given area = 40 ac  \"acres\"  swing 30 ac .. 60 ac\n"
        "  given fuel = $4/gal  swing $3/gal .. $6/gal\n"
        "  given spare = $1/gal  swing $1/gal .. $2/gal\n"
        "  burn : gal = 7 gal/ac * area\n"
        "  cost diesel : $/gal = fuel + spare over burn\n"
        "price \"Work\" per ac of area\n  round up to $10\n");
    const SensitivityAnswer s = ask(job, "");
    CHECK(s.rounded);
    CHECK(s.line.name == "price.per_unit");
    CHECK(s.slopes_of.name == "cost.total");
    CHECK(s.slopes_of.called == "the direct cost");
    CHECK(effect_of(s, "fuel").slope == doctest::Approx(280));
    CHECK(effect_of(s, "fuel").slope_unit == "$ per $/gal");
    CHECK(effect_of(s, "area").given.called == "acres");
    for (const std::size_t i : s.by_slope)
        CHECK(s.effects[i].reached);
}

TEST_CASE("without steps, kinks and pairs slopes and swings are the same") {
    // Rounded: then the slopes are of the cost, and of two studies.
    for (const std::string& text : {model, model + "  round up to $10\n"}) {
        const Priced job = priced_ok(text);
        const SensitivityAnswer deep = ask(job, "");
        const auto shallow = acre::engine::ask(job.job(), SensitivityQuestion{"", false, 0, false});
        REQUIRE(shallow.value.has_value());
        CHECK(shallow->looked_near == 0);
        CHECK(deep.looked_near > 0);
        CHECK(shallow->interactions.empty());
        CHECK(shallow->by_swing == deep.by_swing);
        CHECK(shallow->by_slope == deep.by_slope);
        REQUIRE(shallow->effects.size() == deep.effects.size());
        for (std::size_t i = 0; i < deep.effects.size(); ++i) {
            const Effect& a = shallow->effects[i];
            const Effect& b = deep.effects[i];
            CHECK(a.given.name == b.given.name);
            CHECK((a.slope == b.slope || (std::isnan(a.slope) && std::isnan(b.slope))));
            CHECK(a.at_low == b.at_low);
            CHECK(a.at_high == b.at_high);
            CHECK(a.at_option == b.at_option);
            CHECK(a.nearby.empty());
        }
    }
}

TEST_CASE("givens with one label are called by their names") {
    const Priced job = priced_ok("model \"m\"\ngiven a = 2  \"pace\"  swing 1 .. 4\n"
                                 "given b = 10  \"pace\"  swing 8 .. 15\ngiven c = 7  \"c label\"\n"
                                 "y : 1 = a * b + c  \"y\"\n");
    const SensitivityAnswer s = ask(job, "y");
    CHECK(effect_of(s, "a").given.called == "a");
    CHECK(effect_of(s, "b").given.called == "b");
    CHECK(effect_of(s, "c").given.called == "c label");
    const auto named = acre::engine::ask(job.job(), SensitivityQuestion{"y", true});
    REQUIRE(named.value.has_value());
    CHECK(effect_of(*named, "c").given.called == "c");
}

TEST_CASE("of givens of a block that do the same the first is told to do most") {
    const SensitivityAnswer s =
        ask(priced_ok("job \"j\"\nmodel \"m\"\nblock west\nblock east\n  set b = 9\n",
                      {{{"m.rate", "model \"m\"\nlist block\npart \"All\" each block\n"
                                   "  given area = 2 ac  \"acres\"\n"
                                   "  given a = 2  \"a\"  swing 1 .. 3\n"
                                   "  given b = 2  \"b\"  swing 1 .. 10\n"
                                   "  given c = 2  \"c\"  swing 1 .. 3\n"
                                   "  one : 1 = a + (when b > 8 then b otherwise 0) + c\n"
                                   "y : 1 = sum(one)  \"y\"\n"}}}),
            "y");
    REQUIRE(s.blocks.size() == 2);
    CHECK(s.blocks[0].name == "west");
    CHECK(s.blocks[0].givens == 3); // b swings up to 10 in both
    CHECK(s.blocks[1].givens == 3);
    CHECK(s.blocks[0].widths == doctest::Approx(2 + 10 + 2));
    CHECK(s.effects[s.blocks[0].most].given.name == "west.b");
    CHECK(s.blocks[1].widths == doctest::Approx(2 + 10 + 2)); // 0 to 10
    const SensitivityAnswer same =
        ask(priced_ok("job \"j\"\nmodel \"m\"\nblock west\n",
                      {{{"m.rate", "model \"m\"\nlist block\npart \"All\" each block\n"
                                   "  given area = 2 ac  \"acres\"\n"
                                   "  given a = 2  \"a\"  swing 1 .. 3\n"
                                   "  given c = 2  \"c\"  swing 1 .. 3\n"
                                   "  one : 1 = a + c\ny : 1 = sum(one)  \"y\"\n"}}}),
            "y");
    REQUIRE(same.blocks.size() == 1);
    CHECK(same.effects[same.blocks[0].most].given.name == "west.a");
}

} // namespace sensitivity_test
