#include <doctest/doctest.h>

#include <cmath>

#include "engine/questions/what_if/break_even.h"
#include "tests/support/priced.h"

namespace break_even_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

BreakEvenAnswer ask(const Priced& job, const BreakEvenQuestion& question) {
    const auto answer = acre::engine::ask(job.job(), question);
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}
BreakEvenAnswer ask(const std::string& text, double wanted) {
    return ask(priced_ok(text), {"x", "y", wanted, {}});
}

std::string refused(const std::string& text, BreakEvenQuestion question) {
    const Priced job = priced_ok(text);
    const auto answer = acre::engine::ask(job.job(), question);
    CHECK_FALSE(answer);
    return acre::tests::title_of(answer.said);
}

const std::string head = "model \"m\"\n";
const std::string x_one_to_ten = "given x = 2  \"x\"  within 1 .. 10\n";

} // namespace

TEST_CASE("this job's price is told as it is charged, where that is another figure") {
    const std::string text =
        "model \"m\"\npart \"All\"\n  given area = 3.3333 ac\n"
        "  given wage = $90/ac  \"wage\"  within $1/ac .. $200/ac\n"
        "  cost labor : $/ac = wage over area\nprice \"Work\" per ac of area\n";
    const BreakEvenAnswer found = ask(priced_ok(text), {"wage", "", 100, {}});
    CHECK(found.now == doctest::Approx(90));
    REQUIRE(found.charged); // 3.33 ac at $90 are $299.70, over 3.3333 ac
    CHECK(*found.charged == doctest::Approx(299.70 / 3.3333));
    CHECK_FALSE(ask(head + x_one_to_ten + "y : 1 = x * 2  \"y\"\n", 6).charged);
}

TEST_CASE("a line that touches midway between two points of the search is found") {
    // Points lie at whole numbers: the lowest place is as far from 100 as from 101.
    const BreakEvenAnswer found = ask(head + "given x = 2  \"x\"  within 0 .. 4096\n"
                                             "y : 1 = (x - 100.5) ^ 2  \"y\"\n",
                                      0);
    REQUIRE(found.crossings.size() == 1);
    CHECK(found.crossings[0].kind == CrossingKind::Touch);
    CHECK(found.crossings[0].x == doctest::Approx(100.5));
}

TEST_CASE("what the other job lacks is told of the other job") {
    const Priced job = priced_ok(head + x_one_to_ten + "y : 1 = x * 2  \"y\"\n");
    const Priced other = priced_ok(head + "given z = 2  \"z\"\ny : 1 = z * 2  \"y\"\n");
    const auto answer = acre::engine::ask(job.job(), other.job(), {"x", "y", 0, {}});
    CHECK_FALSE(answer);
    CHECK(acre::tests::title_of(answer.said) == "in the other job no given named `x`");
}

TEST_CASE("roots are those of the closed forms") {
    struct Row {
        const char *range, *formula;
        double wanted;
        std::vector<double> roots;
    };
    const Row rows[] = {
        {"1 .. 10", "x ^ 2", 16, {4}},
        {"-10 .. 10", "x ^ 2", 16, {-4, 4}},
        {"-10 .. 10", "(x - 1) * (x - 2) * (x + 7)", 0, {-7, 1, 2}},
        {"0.5 .. 200", "log(x)", 2, {std::exp(2.0)}},
        {"1 .. 10000",
         "exp(-x / 100) * x",
         20,
         {25.917110181907377, 254.264135777353}}, // branches of Lambert's W, by Newton's rule
        {"-5 .. 5", "1 / (1 + x ^ 2)", 0.5, {-1, 1}},
        {"1 .. 10", "max(x, 7) - min(x, 3)", 6, {1, 9}},
        {"0 .. 4",
         "(x - 1.2345) * (x - 1.2346)",
         0,
         {1.2345, 1.2346}}, // closer than the points looked at
    };
    for (const Row& row : rows) {
        CAPTURE(row.formula);
        const BreakEvenAnswer found = ask(head + "given x = 2  \"x\"  within " + row.range +
                                              "\ny : 1 = " + row.formula + "  \"y\"\n",
                                          row.wanted);
        REQUIRE(found.crossings.size() == row.roots.size());
        for (std::size_t k = 0; k < row.roots.size(); ++k) {
            CHECK(found.crossings[k].kind == CrossingKind::Root);
            CHECK(found.crossings[k].x == doctest::Approx(row.roots[k]).epsilon(1e-9));
        }
        CHECK_FALSE(found.cut);
    }
}

TEST_CASE("every root of a wave is found, each with its direction") {
    const BreakEvenAnswer found = ask(
        head + "given x = 2 deg  \"x\"  within 0 deg .. 3600 deg\ny : 1 = sin(x)  \"y\"\n", 0.5);
    REQUIRE(found.crossings.size() == 20);
    for (std::size_t k = 0; k < 20; ++k) {
        CHECK(found.crossings[k].x ==
              doctest::Approx(static_cast<double>(k / 2) * 360 + (k % 2 == 0 ? 30 : 150))
                  .epsilon(1e-10));
        CHECK(found.crossings[k].rising == (k % 2 == 0));
    }
    CHECK(found.least == doctest::Approx(-1).epsilon(1e-6));
    CHECK(found.greatest == doctest::Approx(1).epsilon(1e-6));
}

TEST_CASE("a step over the value is a jump between two neighboring numbers, not a root") {
    const BreakEvenAnswer found = ask(head + x_one_to_ten + "y : 1 = 10 * ceil(x)  \"y\"\n", 35);
    REQUIRE(found.crossings.size() == 1);
    const Crossing& jump = found.crossings[0];
    CHECK(jump.kind == CrossingKind::Jump);
    CHECK(jump.before == 30);
    CHECK(jump.after == 40);
    CHECK(jump.rising);
    CHECK(jump.x ==
          doctest::Approx(3).epsilon(1e-8)); // a hair over 3 still is 3: dust is not a fraction
    CHECK(std::nextafter(jump.x, 4) == jump.x_after);
    CHECK(found.nearest == 30);
}

TEST_CASE("a saw crosses on its slopes and over its teeth") {
    // y = x / whole days of 3: falls back at every new day. 0.8 of a day's worth, days of 1..4.
    const BreakEvenAnswer found =
        ask(head + "given x = 2  \"x\"  within 0.5 .. 11.9\ny : 1 = x / ceil(x / 3)  \"y\"\n", 2.4);
    std::size_t roots = 0, jumps = 0;
    for (const Crossing& crossing : found.crossings)
        (crossing.kind == CrossingKind::Root ? roots : jumps) += 1;
    // Rises through 2.4 at 2.4, 4.8, 7.2, 9.6; falls over it when the second day begins (3 to 1.5)
    // and the third (3 to 2); the fourth begins at 2.25.
    CHECK(roots == 4);
    CHECK(jumps == 3);
    CHECK(found.crossings.front().x == doctest::Approx(2.4));
    CHECK(found.crossings.back().x == doctest::Approx(9.6));
}

TEST_CASE("a level stretch at the value is told from end to end") {
    const BreakEvenAnswer found =
        ask(head + x_one_to_ten + "y : $ = max($6,500, x * $1,000)  \"y\"\n", 6500);
    REQUIRE(found.crossings.size() == 1);
    CHECK(found.crossings[0].kind == CrossingKind::Level);
    CHECK(found.crossings[0].x == 1);
    CHECK(found.crossings[0].x_after == doctest::Approx(6.5).epsilon(1e-9));
}

TEST_CASE("a line that only touches the value says so") {
    const BreakEvenAnswer found =
        ask(head + "given x = 2  \"x\"  within -3.1 .. 5\ny : 1 = (x - 1.37) ^ 2 + 4  \"y\"\n", 4);
    REQUIRE(found.crossings.size() == 1);
    CHECK(found.crossings[0].kind == CrossingKind::Touch);
    CHECK(found.crossings[0].x == doctest::Approx(1.37).epsilon(1e-6));
}

TEST_CASE("a bend that only touches the value is found between the points looked at") {
    const BreakEvenAnswer found =
        ask(head + "given x = 2  \"x\"  within -3.1 .. 5\ny : 1 = max(x, 1.37) - min(x, 1.37)  "
                   "\"y\"\n",
            0);
    REQUIRE(found.crossings.size() == 1);
    CHECK(found.crossings[0].kind == CrossingKind::Touch);
    CHECK(found.crossings[0].x == doctest::Approx(1.37));
    // The same bend upside down, and one that goes on the way it came.
    const BreakEvenAnswer top =
        ask(head + "given x = 2  \"x\"  within -3.1 .. 5\ny : 1 = min(x, 1.37) - max(x, 1.37)  "
                   "\"y\"\n",
            0);
    REQUIRE(top.crossings.size() == 1);
    CHECK(top.crossings[0].kind == CrossingKind::Touch);
    const BreakEvenAnswer through =
        ask(head + "given x = 2  \"x\"  within -3.1 .. 5\ny : 1 = max(x, 1.37) + x  \"y\"\n", 2.74);
    REQUIRE(through.crossings.size() == 1);
    CHECK(through.crossings[0].kind == CrossingKind::Root);
    CHECK(through.crossings[0].rising);
}

TEST_CASE("a value that a point looked at hits says whether the line goes through") {
    // 1 .. 9 has 5 among the points.
    const auto kind_of = [](const std::string& formula) {
        const BreakEvenAnswer found =
            ask(head + "given x = 2  \"x\"  within 1 .. 9\ny : 1 = " + formula + "  \"y\"\n", 0);
        REQUIRE(found.crossings.size() == 1);
        CHECK(found.crossings[0].x == doctest::Approx(5).epsilon(1e-4));
        return std::pair(found.crossings[0].kind, found.crossings[0].rising);
    };
    CHECK(kind_of("(x - 5) ^ 2") == std::pair(CrossingKind::Touch, false));
    CHECK(kind_of("5 - x") == std::pair(CrossingKind::Root, false));
    CHECK(kind_of("(x - 5) ^ 3") == std::pair(CrossingKind::Root, true));
    CHECK(kind_of("max(x, 5) - min(x, 5)") == std::pair(CrossingKind::Touch, false));
}

TEST_CASE("of a stair the step at the value is told once") {
    for (const std::string formula : {"ceil(x / 3)", "ceil(x / 0.3) / 10", "ceil(x * 1.1 / 3.3)"}) {
        CAPTURE(formula);
        const BreakEvenAnswer found =
            ask(head + "given x = 2  \"x\"  within 0.5 .. 30\ny : 1 = " + formula + "  \"y\"\n", 3);
        REQUIRE(found.crossings.size() == 1);
        CHECK(found.crossings[0].kind == CrossingKind::Level);
        CHECK(found.crossings[0].x == doctest::Approx(formula[9] == '0' ? 8.7 : 6));
        CHECK(found.crossings[0].x_after == doctest::Approx(9));
    }
}

TEST_CASE("where there is no crossing the range of the line is told instead") {
    const BreakEvenAnswer found = ask(head + x_one_to_ten + "y : 1 = x ^ 2 + 3  \"y\"\n", 200);
    CHECK(found.crossings.empty());
    CHECK(found.least == 4);
    CHECK(found.least_at == 1);
    CHECK(found.greatest == 103);
    CHECK(found.greatest_at == 10);
    CHECK(found.nearest == 103);
    CHECK(found.now == 7);
}

TEST_CASE("stretches without an answer are told and do not count as crossings") {
    const BreakEvenAnswer found =
        ask(head + "given x = 5  \"x\"  within 0 .. 10\nrequire x >= 4  \"too "
                   "little\"\ny : 1 = 1 / (x - 8)  \"y\"\n",
            1);
    REQUIRE(found.crossings.size() == 1);
    CHECK(found.crossings[0].x == doctest::Approx(9));
    REQUIRE(found.unanswered.size() ==
            2); // and the pole at 8, over which the line is not said to cross
    CHECK(found.unanswered[1].low == doctest::Approx(8));
    CHECK(found.unanswered[0].low == 0);
    CHECK(found.unanswered[0].high == doctest::Approx(4).epsilon(1e-3));
}

TEST_CASE("against another job the answer is where their lines meet") {
    const std::string model =
        "given x = 2  \"x\"  within 1 .. 10\ngiven a = 3\ny : 1 = a * x + 6 / a  \"y\"\n";
    const Priced one = priced_ok(head + model),
                 two = priced_ok(head + model, {{}, {}, {{"a", "1"}}, {}});
    const auto found = acre::engine::ask(one.job(), two.job(), BreakEvenQuestion{"x", "y", 0, {}});
    REQUIRE(found.value.has_value());
    REQUIRE(found->crossings.size() == 1);
    CHECK(found->crossings[0].x == doctest::Approx(2)); // 3 x + 2 = x + 6
    CHECK(found->crossings[0].rising);
}

TEST_CASE("questions without sense are refused in words") {
    const std::string text = head + x_one_to_ten +
                             "given m = a | b\ngiven z = 4\ngiven w : 1 = z * 2\n"
                             "y : 1 = x + z + (when m is a then w otherwise 2)\nflat : 1 = z * 2\n";
    CHECK(refused(text, {"xx", "y", 5, {}}) == "no given named `xx`");
    CHECK(refused(text, {"m", "y", 5, {}}) == "`m` is a choice, not a number");
    CHECK(refused(text, {"y", "y", 5, {}}) == "`y` is computed and cannot be varied");
    CHECK(refused(text, {"w", "y", 5, {}}) == "`w` is computed from other lines in this job");
    CHECK(refused(text, {"x", "yy", 5, {}}) == "no line named `yy`");
    CHECK(refused(text, {"x", "m", 5, {}}) == "`m` is a choice, not a number");
    CHECK(refused(text, {"x", "flat", 5, {}}) == "`flat` does not depend on `x`: it stays 8");
    CHECK(refused(text, {"x", "y", std::nan(""), {}}) ==
          "the value to reach for `y` is not a number");
    CHECK(refused(text, {"x", "y", 5, Range{0, 5}}) ==
          "0 .. 5 goes outside the allowed range of `x`: 1 .. 10");
    CHECK(refused(text, {"x", "y", 5, Range{5, 5}}) == "there is nothing between 5 and 5 of `x`");
    CHECK(refused(text, {"z", "y", 5, {}}) ==
          "`z` has neither an allowed range nor a swing or range of choice");
    CHECK(refused(text, {"x", "", 5, {}}) == "the model has no price");
}

TEST_CASE("at a stated price overhead stays at the money quoted") {
    // 1,000 gal at $4 and 10 % of $4,000 for the office. A price of $5,000 leaves $4,600 for fuel:
    // $4.60/gal. Were overhead taken from the new cost, it would be $5,000 / 1,100 gal.
    const Priced job = priced_ok(head + "part \"All\"\n  given area = 100 ac  \"acres\"\n"
                                        "  given fuel = $4/gal  \"fuel\"  within $1/gal .. $9/gal\n"
                                        "  cost diesel : $ = fuel * 1000 gal over 1\n"
                                        "price \"Work\" per ac of area\n  overhead 10 %\n"
                                        "  markup 25 %\n");
    BreakEvenQuestion question;
    question.given = "fuel";
    question.price = 5000;
    const BreakEvenAnswer found = ask(job, question);
    CHECK(found.overhead == doctest::Approx(400));
    CHECK(found.wanted == doctest::Approx(4600));
    REQUIRE(found.crossings.size() == 1);
    CHECK(found.crossings[0].x == doctest::Approx(4.60));
}

} // namespace break_even_test
