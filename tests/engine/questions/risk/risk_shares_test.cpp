// Swings that move together, and what drives the spread.
#include <string>

#include <fmt/format.h>

#include "tests/engine/questions/risk/risk_jobs.h"

namespace risk_test {

TEST_CASE("swings that move together have the rank correlation asked for, and their own spreads") {
    const std::string text = "model \"m\"\ngiven a = 5  \"a\"  swing even 0 .. 10\ngiven b = 5  "
                             "\"b\"  swing even 0 .. 10\n"
                             "given c = 2  \"c\"  swing even 1 .. 3\ncorrelate a, b 60 %\nboth : 1 "
                             "= a + b  \"s\"\nalone : 1 = a  \"a\"\n";
    const RiskAnswer r = ask(priced_ok(text), question({"both", "alone"}, 1 << 17));
    CHECK(r.dependent);
    // Even marginals: the rank correlation is the plain one. Var(a + b) = 2 * 100 / 12 * (1 + 0.6).
    CHECK(r.measured[0].spread * r.measured[0].spread ==
          doctest::Approx(2 * 100.0 / 12 * 1.6).epsilon(2e-3));
    CHECK(r.measured[1].spread * r.measured[1].spread == doctest::Approx(100.0 / 12).epsilon(1e-3));
    CHECK(refused(text + "correlate a, c 90 %\ncorrelate b, c -90 %\n", question({"both"})) ==
          "the correlations contradict each other: no givens can move together like this");
}

TEST_CASE("shares of the spread name what matters and add up where nothing acts together") {
    const Priced job =
        priced_ok("model \"m\"\ngiven a = 5  \"a\"  swing even 0 .. 10\ngiven b = 5  \"b\"  swing "
                  "even 0 .. 20\n"
                  "given c = 2  \"c\"  swing even 1 .. 3\ny : 1 = a + b + 0 * c  \"y\"\n");
    const RiskAnswer r = ask(job, question({"y"}, 1 << 12, 1 << 15));
    REQUIRE(r.shares);
    CHECK(r.factors[r.shares->shares[0].factor].given.name == "b");
    CHECK(r.shares->shares[0].first == doctest::Approx(0.8).epsilon(2e-3));
    CHECK(r.shares->shares[0].total == doctest::Approx(0.8).epsilon(2e-3));
    CHECK(r.shares->shares[1].total == doctest::Approx(0.2).epsilon(2e-3));
    CHECK(r.shares->shares[2].total == 0);
    CHECK(r.shares->spread * r.shares->spread == doctest::Approx(500.0 / 12).epsilon(1e-3));
}

TEST_CASE("what no draw moves is not shared out, however its arithmetic rounds") {
    const Priced job = priced_ok("model \"m\"\ngiven a = 5  \"a\"  swing even 0 .. 10\ngiven b = "
                                 "5  \"b\"  swing even 0 .. 20\n"
                                 "y : 1 = (a + b) * 0.1 + 7 - a * 0.1 - b * 0.1  \"y\"\n");
    const RiskAnswer r = ask(job, question({"y"}, 1 << 12, 1 << 12));
    CHECK(r.measured[0].greatest > r.measured[0].least); // by rounding
    REQUIRE(r.shares);
    CHECK(r.shares->shares.empty());
    CHECK(r.shares->spread == 0);
    CHECK(r.matters_most.by_share.empty());
}

TEST_CASE("shares of the spread with swings that move together and events still rank") {
    const Priced job = priced_ok(
        "model \"m\"\npart \"All\"\n  given area = 100 ac  \"acres\"\n"
        "  given fuel = $4/gal  \"fuel\"  swing even $2/gal .. $6/gal\n"
        "  given oil = $4/gal  \"oil\"  swing even $2/gal .. $6/gal\n  correlate fuel, oil 50 %\n"
        "  event broken = 0.02 1/ac over area costs $100 \"a broken shank\"\n"
        "  cost diesel : $ = fuel * 1000 gal + oil * 10 gal over 1\nprice \"Work\" per ac of "
        "area\n  markup 25 %\n");
    RiskQuestion q = question({}, 1 << 12, 1 << 14);
    q.shares_of = "profit";
    const RiskAnswer r = ask(job, q);
    CHECK(r.shares->measured == 3);
    CHECK(r.factors[r.shares->shares[0].factor].given.name == "fuel");
    const auto broken =
        std::find_if(r.shares->shares.begin(), r.shares->shares.end(), [&](const SpreadShare& s) {
            return r.factors[s.factor].given.name == "broken";
        });
    const double variance = r.shares->spread * r.shares->spread;
    CHECK(broken->total == doctest::Approx(2 * 100.0 * 100 / variance).epsilon(0.02));
}

TEST_CASE("of very many swings those that matter are found, and the rest told together") {
    constexpr int all = 300;
    std::string text = "model \"m\"\n", sum = "y : 1 = 0";
    for (int k = 0; k < all; ++k) {
        text += fmt::format("given g{0} = 5  \"g{0}\"  swing even 0 .. 10\n", k);
        sum += fmt::format(" + {} * g{}", k % 60 == 7 ? 10 : 0.1, k);
    }
    const Priced job = priced_ok(text + sum + "  \"y\"\n");
    const RiskAnswer r = ask(job, question({"y"}, 1 << 12, 1 << 15));
    REQUIRE(r.shares);
    const std::size_t told = r.shares->shares.size();
    CHECK(told <= max_shared);
    CHECK(r.shares->aside.factors == all - told);
    // Five of a hundred parts each, 295 of a hundredth of one.
    const double whole = 5 * 100 + (all - 5) * 0.01;
    for (std::size_t i = 0; i < 5; ++i) {
        const std::string& name = r.factors[r.shares->shares[i].factor].given.name;
        CHECK(std::stoi(name.substr(1)) % 60 == 7);
        CHECK(r.shares->shares[i].total == doctest::Approx(100 / whole).epsilon(5e-3));
    }
    CHECK(r.shares->shares[5].total < 1e-3);
    CHECK(r.shares->aside.total ==
          doctest::Approx(0.01 * static_cast<double>(all - told) / whole).epsilon(0.05));
    // One by one it would be all of them at every point; three times groups are cut in two.
    CHECK(r.shares->readings <
          (1 << 15) * (max_shared + 3) + 3 * scrambles * 512 * (max_shared + 2));
}

} // namespace risk_test
