// Sobol' indices against functions whose indices are known exactly.
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "engine/questions/risk/risk.h"
#include "tests/support/priced.h"

namespace spread_shares_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

RiskAnswer risk_of(const Priced& job, std::string_view line) {
    RiskQuestion question;
    question.lines = {std::string(line)};
    question.trials = 1 << 18;
    question.share_trials = 1 << 17;
    const auto result = ask(job.job(), question);
    REQUIRE_MESSAGE(result.value.has_value(), acre::tests::title_of(result.said));
    return *result;
}

const SpreadShare& share_of(const RiskAnswer& r, std::string_view name) {
    for (const SpreadShare& share : r.shares->shares)
        if (r.factors[share.factor].given.name == name)
            return share;
    FAIL("no share of " << name);
    return r.shares->shares[0];
}

// Within four standard errors, and the error itself small.
void check_share(double got, double error, double expected, double largest_error) {
    CHECK(error < largest_error);
    CHECK(std::fabs(got - expected) <= 4 * error + 1e-4);
}

} // namespace

TEST_CASE(
    "the function of Ishigami and Homma has the mean, spread and indices of its closed forms") {
    // y = sin x1 + a sin^2 x2 + b x3^4 sin x1, each x even over -pi .. pi, a = 7, b = 0.1. T.
    // Ishigami and T. Homma, "An importance quantification technique in uncertainty analysis for
    // computer models", ISUMA 1990; closed forms as documented with OpenTURNS (use case "Ishigami")
    // and UQTestFuns.
    const Priced job =
        priced_ok("model \"Ishigami\"\n"
                  "given x1 = 10 deg  \"first\"  swing even -180 deg .. 180 deg\n"
                  "given x2 = 20 deg  \"second\"  swing even -180 deg .. 180 deg\n"
                  "given x3 = 0.5  \"third\"  swing even -3.141592653589793 .. 3.141592653589793\n"
                  "y : 1 = sin(x1) + 7 * sin(x2) ^ 2 + 0.1 * x3 ^ 4 * sin(x1)  \"answer\"\n");
    const RiskAnswer r = risk_of(job, "y");
    const double pi = std::numbers::pi, a = 7, b = 0.1;
    const double v1 = std::pow(1 + b * std::pow(pi, 4) / 5, 2) / 2, v2 = a * a / 8,
                 v13 = 8 * b * b * std::pow(pi, 8) / 225;
    const double v = v1 + v2 + v13;
    CHECK(v == doctest::Approx(13.844587940719).epsilon(1e-12));
    const Measured& y = r.measured[0];
    CHECK(y.mean == doctest::Approx(a / 2).epsilon(1e-4));
    CHECK(y.mean_error < 1e-3);
    CHECK(y.spread * y.spread == doctest::Approx(v).epsilon(1e-3));
    CHECK(r.without_answer == 0);
    const double first[] = {v1 / v, v2 / v, 0}, total[] = {(v1 + v13) / v, v2 / v, v13 / v};
    for (int k = 0; k < 3; ++k) {
        CAPTURE(k);
        const SpreadShare& share = share_of(r, "x" + std::to_string(k + 1));
        check_share(share.first, share.first_error, first[k], 2e-3);
        check_share(share.total, share.total_error, total[k], 2e-3);
    }
}

TEST_CASE("the g-function of Sobol' has the indices of its closed forms") {
    // g = product of (|4 x - 2| + a) / (1 + a), each x even over 0 .. 1, a = 0, 1, 4.5, 9, 99, 99,
    // 99, 99: A. Saltelli and others, Computer Physics Communications 181 (2010), 259-270. V_i = 1
    // / (3 (1 + a_i)^2); V = product of (1 + V_i) - 1.
    const double a[] = {0, 1, 4.5, 9, 99, 99, 99, 99};
    std::string text = "model \"g\"\n", product;
    for (int k = 0; k < 8; ++k) {
        const std::string n = std::to_string(k + 1),
                          ak = k == 2 ? "4.5" : std::to_string(static_cast<int>(a[k]));
        text += "given x" + n + " = 0.3  \"x\"  swing even 0 .. 1\n";
        product += (k == 0 ? "" : " * ") +
                   ("(abs(4 * x" + n + " - 2) + " + ak + ") / " +
                    std::to_string(1 + static_cast<int>(a[k]))) +
                   (k == 2 ? ".5" : "");
    }
    text += "g : 1 = " + product + "  \"answer\"\n";
    const Priced job = priced_ok(text);
    const RiskAnswer r = risk_of(job, "g");
    double all = 1, v[8];
    for (int k = 0; k < 8; ++k) {
        v[k] = 1.0 / 3 / (1 + a[k]) / (1 + a[k]);
        all *= 1 + v[k];
    }
    CHECK(all - 1 == doctest::Approx(0.465424431902).epsilon(1e-11));
    CHECK(r.measured[0].mean == doctest::Approx(1).epsilon(1e-3));
    CHECK(r.measured[0].spread * r.measured[0].spread == doctest::Approx(all - 1).epsilon(2e-3));
    for (int k = 0; k < 8; ++k) {
        CAPTURE(k);
        const SpreadShare& share = share_of(r, "x" + std::to_string(k + 1));
        check_share(share.first, share.first_error, v[k] / (all - 1), 3e-3);
        check_share(share.total, share.total_error, v[k] * all / (1 + v[k]) / (all - 1), 3e-3);
    }
    CHECK(r.factors[r.shares->shares[0].factor].given.name == "x1");
    CHECK(r.factors[r.shares->shares[1].factor].given.name == "x2");
}

// Of 200 seeds: how often an index lies within two of its stated errors of the closed form.
double covered(const Priced& job, const std::vector<std::pair<std::string, double>>& first,
               const std::vector<std::pair<std::string, double>>& total) {
    int inside = 0, all = 0;
    const auto count = [&](double got, double error, double expected) {
        inside += std::fabs(got - expected) <= 2 * error ? 1 : 0;
        ++all;
    };
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        RiskQuestion question;
        question.lines = {"y"};
        question.trials = 256;
        question.share_trials = 1 << 12;
        question.seed = seed;
        const auto risk = ask(job.job(), question);
        REQUIRE(risk.value.has_value());
        for (const auto& [name, expected] : first)
            count(share_of(*risk, name).first, share_of(*risk, name).first_error, expected);
        for (const auto& [name, expected] : total)
            count(share_of(*risk, name).total, share_of(*risk, name).total_error, expected);
    }
    return static_cast<double>(inside) / all;
}

TEST_CASE("two stated errors hold the index in nine to ten of ten seeds") {
    // With 16 scrambles two standard errors hold 93.6 % (Student's t with 15 degrees of freedom).
    const double pi = std::numbers::pi, b = 0.1;
    const double v1 = std::pow(1 + b * std::pow(pi, 4) / 5, 2) / 2, v2 = 49 / 8.0,
                 v13 = 8 * b * b * std::pow(pi, 8) / 225, v = v1 + v2 + v13;
    const double ishigami = covered(
        priced_ok("model \"Ishigami\"\n"
                  "given x1 = 10 deg  \"first\"  swing even -180 deg .. 180 deg\n"
                  "given x2 = 20 deg  \"second\"  swing even -180 deg .. 180 deg\n"
                  "given x3 = 0.5  \"third\"  swing even -3.141592653589793 .. 3.141592653589793\n"
                  "y : 1 = sin(x1) + 7 * sin(x2) ^ 2 + 0.1 * x3 ^ 4 * sin(x1)  \"answer\"\n"),
        {{"x1", v1 / v}, {"x2", v2 / v}},
        {{"x1", (v1 + v13) / v}, {"x2", v2 / v}, {"x3", v13 / v}});
    CHECK(ishigami >= 0.90);
    CHECK(ishigami <= 0.98);
    // The first three factors of the g-function: V_i = 1 / (3 (1 + a_i)^2), a = 0, 1, 4.5.
    const double g1 = 1 / 3.0, g2 = 1 / 12.0, g3 = 1 / 90.75;
    const double g = (1 + g1) * (1 + g2) * (1 + g3) - 1;
    const double sobol = covered(
        priced_ok(
            "model \"g\"\ngiven x1 = 0.3  \"x\"  swing even 0 .. 1\n"
            "given x2 = 0.3  \"x\"  swing even 0 .. 1\ngiven x3 = 0.3  \"x\"  swing even 0 .. 1\n"
            "y : 1 = abs(4 * x1 - 2) * (abs(4 * x2 - 2) + 1) / 2 * (abs(4 * x3 - 2) + 4.5) / "
            "5.5  \"answer\"\n"),
        {{"x1", g1 / g}, {"x2", g2 / g}, {"x3", g3 / g}},
        {{"x1", g1 * (1 + g2) * (1 + g3) / g},
         {"x2", g2 * (1 + g1) * (1 + g3) / g},
         {"x3", g3 * (1 + g1) * (1 + g2) / g}});
    CHECK(sobol >= 0.90);
    CHECK(sobol <= 0.98);
    // y = a + 2 b + a b, a and b even over 0 .. 1: a has (1 + E b)^2 / 12, b (2 + E a)^2 / 12, both
    // together 1 / 144.
    const double va = 1.5 * 1.5 / 12, vb = 2.5 * 2.5 / 12, vab = 1 / 144.0, w = va + vb + vab;
    const double product = covered(
        priced_ok("model \"p\"\ngiven a = 0.3  \"a\"  swing even 0 .. 1\n"
                  "given b = 0.3  \"b\"  swing even 0 .. 1\ny : 1 = a + 2 * b + a * b  \"y\"\n"),
        {{"a", va / w}, {"b", vb / w}}, {{"a", (va + vab) / w}, {"b", (vb + vab) / w}});
    CHECK(product >= 0.90);
    CHECK(product <= 0.98);
}

} // namespace spread_shares_test
