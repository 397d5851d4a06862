#include "tests/engine/questions/risk/risk_jobs.h"

#include <fmt/format.h>

namespace risk_test {

TEST_CASE("what is chosen is held as the job has it, and named") {
    // Without `a` of the sum: E y = a + 2 * E b * E c, with a as it is.
    std::string text = sum;
    text.replace(text.find("swing even"), 10, "choose");
    const Priced job = priced_ok(text);
    const RiskAnswer risk = ask(job, question({"y"}, 1 << 16, 1 << 12));
    CHECK(risk.factors.size() == 2);
    REQUIRE(risk.held.size() == 1);
    CHECK(risk.held[0].name == "a");
    CHECK(risk.held[0].reason == HeldReason::Chosen);
    CHECK(risk.measured[0].mean == doctest::Approx(3 + 2 * (14.0 / 3) * (14.0 / 6)).epsilon(1e-3));
    const RiskAnswer drawn = ask(priced_ok(sum), question({"y"}));
    // Variances of independent terms add up; that of an even 0 .. 10 is 100 / 12.
    CHECK(std::pow(drawn.measured[0].spread, 2) - std::pow(risk.measured[0].spread, 2) ==
          doctest::Approx(100.0 / 12).epsilon(0.02));
}

TEST_CASE("a question may draw what is chosen and hold what swings") {
    // y = a + 10 b over even ranges: each variance is width^2 / 12 by itself.
    const std::string text = "model \"m\"\ngiven a = 3  \"a\"  choose 0 .. 6\n"
                             "given b = 2  \"b\"  swing even 1 .. 3\n"
                             "given c = 1  \"c\"\ny : 1 = a + 10 * b + c  \"y\"\n";
    const Priced job = priced_ok(text);
    RiskQuestion q = question({"y"});
    CHECK(std::pow(ask(job, q).measured[0].spread, 2) ==
          doctest::Approx(100 * 4 / 12.0).epsilon(1e-3));
    q.hold = {"b"};
    CHECK(refused(text, q) == "nothing in this job swings");
    q.free = {"a"}; // a triangle with its peak in the middle: width^2 / 24
    const RiskAnswer freed = ask(job, q);
    REQUIRE(freed.factors.size() == 1);
    CHECK(freed.factors[0].given.name == "a");
    CHECK(std::pow(freed.measured[0].spread, 2) == doctest::Approx(36 / 24.0).epsilon(2e-3));
    REQUIRE(freed.held.size() == 1);
    CHECK(freed.held[0].name == "b");
    CHECK(freed.held[0].reason == HeldReason::Asked);
    q.free = {"c"};
    CHECK(refused(text, q) == "`c` has neither a swing nor a range of choice to be drawn from");
    q.free = {"b"};
    CHECK(refused(text, q) == "`b` cannot be both held and drawn");
    q.free = {"bb"};
    CHECK(refused(text, q) == "no given named `bb`");
}

TEST_CASE("a computed given is drawn by shares of it, over what it is computed from") {
    // y = k a with k and a independent: E y = E k E a, E y^2 = E k^2 E a^2.
    const Priced job = priced_ok("model \"m\"\ngiven a = 4 ft  \"a\"  swing even 2 ft .. 6 ft\n"
                                 "given b : ft = a  \"b\"  swing even 50 % .. 150 % of it\n"
                                 "y : ft = b  \"y\"\n");
    const RiskAnswer risk = ask(job, question({"y"}, 1 << 16, 1 << 12));
    REQUIRE(risk.factors.size() == 2);
    CHECK(risk.factors[1].given.name == "b");
    CHECK(risk.factors[1].of_it);
    CHECK(risk.factors[1].given.unit == "%");
    CHECK(risk.factors[1].swing->low == doctest::Approx(50));
    CHECK(risk.held.empty());
    CHECK(risk.measured[0].mean == doctest::Approx(4).epsilon(1e-3));
    const double square = (1 + 1.0 / 12) * (16 + 16.0 / 12); // an even range: width^2 / 12
    CHECK(risk.measured[0].spread == doctest::Approx(std::sqrt(square - 16)).epsilon(2e-3));
}

TEST_CASE("a swing of shares that leaves out the value is not drawn from") {
    CHECK(refused("model \"m\"\ngiven c = 20 % \"c\"\ngiven a = 3  \"a\"\ngiven b : 1 = a  \"b\"  "
                  "swing c .. 90 % of it\ny : 1 = b  \"y\"\n",
                  question({"y"})) == "the swing of `b` does not enclose 100 % of it");
}

TEST_CASE("a job in which everything is chosen has nothing to draw") {
    CHECK(refused("model \"m\"\ngiven a = 3  \"a\"  choose 0 .. 10\ny : 1 = a  \"y\"\n",
                  question({"y"})) == "nothing in this job swings");
}

TEST_CASE("one seed gives one answer, whatever the number of threads") {
    const Priced job = priced_ok(sum);
    RiskQuestion q = question({"y"}, 100'003, 1 << 14);
    const RiskAnswer one = ask(job, q);
    for (const unsigned threads : {2U, 3U, 7U, 100U}) {
        q.threads = threads;
        CHECK(same(one, ask(job, q)));
    }
    q.seed = 2;
    CHECK_FALSE(same(one, ask(job, q)));
}

TEST_CASE("the answer lies within its own error of the exact one, for many seeds") {
    // E y = 5 + 2 * E b * E c: b triangular 0, 4, 10: 14 / 3; c PERT 1, 2, 5: (1 + 8 + 5) / 6.
    const Priced job = priced_ok(sum);
    const double exact = 5 + 2 * (14.0 / 3) * (14.0 / 6);
    int outside = 0;
    double largest = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        RiskQuestion q = question({"y"}, 1 << 13);
        q.seed = seed;
        const Measured y = ask(job, q).measured[0];
        outside += std::fabs(y.mean - exact) >
                   2.131 * y.mean_error; // Student's t, 15 degrees of freedom, 95 %
        largest = std::max(largest, std::fabs(y.mean - exact));
    }
    CHECK(outside <=
          7); // 2 expected; more than 7 of 40 at 5 % each has a chance below one in a thousand
    CHECK(largest < 0.02); // plain random numbers would be off by 0.15 and more
}

TEST_CASE("percentiles are those of the distribution") {
    const Priced job =
        priced_ok("model \"m\"\ngiven a = 3  \"a\"  swing even 0 .. 10\ny : 1 = a ^ 2  \"y\"\n");
    const Measured y = ask(job, question({"y"})).measured[0];
    for (const Percentile& p : y.percentiles) {
        CAPTURE(p.share);
        CHECK(p.value == doctest::Approx(100 * p.share * p.share).epsilon(2e-3));
        CHECK(p.error < 0.1);
    }
    CHECK(y.least >= 0);
    CHECK(y.greatest <= 100);
    CHECK(std::accumulate(y.bars.begin(), y.bars.end(), std::uint64_t{0}) == 1 << 16);
    CHECK(y.at_job == 9);
}

TEST_CASE("a step swing takes whole steps, each alike") {
    // A fair die: mean 3.5, variance 35 / 12.
    const Priced job = priced_ok(
        "model \"m\"\ngiven eyes = 3  \"eyes\"  swing step 1 .. 6\ny : 1 = eyes  \"y\"\n");
    const Measured y = ask(job, question({"y"}, 60'000)).measured[0];
    CHECK(y.mean == doctest::Approx(3.5).epsilon(1e-3));
    CHECK(y.spread * y.spread == doctest::Approx(35.0 / 12).epsilon(1e-3));
    CHECK(y.least == 1);
    CHECK(y.greatest == 6);
}

TEST_CASE(
    "trials without an answer are counted, kept with what was drawn, and left out of the figures") {
    const Priced job = priced_ok("model \"m\"\ngiven a = 5  \"a\"  swing even 0 .. 10\ngiven b = 1 "
                                 " \"b\"  swing even 0 .. 1\n"
                                 "require b <= 0.75  \"too much\"\ny : 1 = sqrt(a - 2)  \"y\"\n");
    const RiskAnswer r = ask(job, question({"y"}));
    const double share = static_cast<double>(r.without_answer) / static_cast<double>(r.trials);
    CHECK(share == doctest::Approx(1 - 0.8 * 0.75).epsilon(1e-2));
    REQUIRE(r.first_without.size() == 5);
    for (const WithoutAnswer& trial : r.first_without) {
        const double a = trial.drawn[0], b = trial.drawn[1];
        CHECK((trial.because == "a requirement is not met" ? b > 0.75 : a < 2));
    }
    CHECK(r.measured[0].mean ==
          doctest::Approx(2.0 / 3 * std::sqrt(8)).epsilon(1e-3)); // of sqrt over 0 .. 8
    CHECK(std::accumulate(r.measured[0].bars.begin(), r.measured[0].bars.end(), std::uint64_t{0}) ==
          r.trials - r.without_answer);
}

TEST_CASE("a trial in which a line is below zero is without an answer") {
    const Priced job = priced_ok("model \"m\"\ngiven a = 5 ft  \"a\"  swing even 0 ft .. 10 ft\n"
                                 "left : ft = a - 2 ft  \"left\"\ny : 1 = a / 1 ft  \"y\"\n");
    const RiskAnswer r = ask(job, question({"y"}));
    CHECK(static_cast<double>(r.without_answer) / static_cast<double>(r.trials) ==
          doctest::Approx(0.2).epsilon(1e-2));
    REQUIRE(!r.first_without.empty());
    CHECK(r.first_without[0].because == "a line is below zero");
    CHECK(r.measured[0].least >= 2 - 1e-9);
}

const std::string priced = "model \"m\"\npart \"All\"\n"
                           "  given area = 100 ac  \"acres\"\n"
                           "  given fuel = $4/gal  \"fuel\"  swing even $2/gal .. $6/gal\n"
                           "  cost diesel : $ = fuel * 1000 gal over 1\n"
                           "price \"Work\" per ac of area\n  markup 25 %\n";

TEST_CASE("profit and the chance of a loss are at the price quoted") {
    const Priced job = priced_ok(priced);
    const RiskAnswer r = ask(job, question({}));
    CHECK(r.paid == 5000);
    REQUIRE(r.measured.size() == 5);
    CHECK(r.measured[0].name == "price.per_unit");
    CHECK(r.measured[2].name == "contribution");
    CHECK(r.measured[3].name == "profit");
    CHECK(r.measured[3].mean == doctest::Approx(1000).epsilon(1e-4));
    CHECK(*r.loss == doctest::Approx(0.25).epsilon(1e-3)); // fuel above $5 of $2 .. $6
    CHECK(*r.loss_error < 1e-3);
    CHECK(percentile(r.measured[4], 0.5) == doctest::Approx(0.2).epsilon(1e-2));
    RiskQuestion q = question({});
    q.total = 4000;
    CHECK(*ask(job, q).loss == doctest::Approx(0.5).epsilon(1e-3));
}

TEST_CASE("overhead stays at the money quoted, and a loss is after it") {
    // $4,000 of fuel, 10 % overhead is $400, 25 % more is $5,500. Fuel costs $2 to $6 a gallon:
    // direct cost is above $5,500 for 0.5 of 4 dollars, above $5,100 for 0.9 of them. If overhead
    // went with the cost (10 % of it), the loss would begin at $5,000.
    const Priced job = priced_ok(
        std::string(priced).replace(std::string(priced).find("  markup"), 0, "  overhead 10 %\n"));
    const RiskAnswer r = ask(job, question({}));
    CHECK(r.paid == 5500);
    CHECK(r.overhead == doctest::Approx(400));
    CHECK(*r.loss == doctest::Approx(0.9 / 4).epsilon(1e-3));
    CHECK(*r.loss_direct == doctest::Approx(0.5 / 4).epsilon(2e-3));
    CHECK(r.measured[2].at_job == doctest::Approx(1500));
    CHECK(r.measured[3].at_job == doctest::Approx(1100));
    CHECK(r.measured[3].mean == doctest::Approx(1100).epsilon(1e-3));
    CHECK(r.measured[4].at_job == doctest::Approx(0.2));
    CHECK(r.measured[3].spread == doctest::Approx(r.measured[2].spread));
}

TEST_CASE("what is paid by the acre goes with the acres, a lump does not") {
    const Priced job = priced_ok(
        "model \"m\"\npart \"All\"\n  given area = 100 ac  \"acres\"  swing even 50 ac .. 150 ac\n"
        "  cost labor : $/ac = $40/ac over area\nprice \"Work\" per ac of area\n  markup 25 %\n");
    RiskQuestion q = question({});
    const RiskAnswer by_acre = ask(job, q);
    CHECK(*by_acre.loss == 0);
    CHECK(percentile(by_acre.measured[4], 0.05) == doctest::Approx(0.2));
    q.lump = true;
    CHECK(*ask(job, q).loss ==
          doctest::Approx(0.25).epsilon(1e-3)); // more than 125 ac at $40 cost more than $5,000
}

TEST_CASE("events fall as Poisson counts and their cost as it comes about") {
    const std::string text = "model \"m\"\npart \"All\"\n  given area = 100 ac  \"acres\"\n"
                             "  event broken = 0.02 1/ac over area costs $500 \"a broken shank\"\n"
                             "  cost labor : $/ac = $40/ac over area\n";
    const std::string end = "price \"Work\" per ac of area\n  markup 50 %\n";
    // Two are expected: mean 1,000, variance 2 * 500^2 on top of 4,000, whether the price holds the
    // expected cost or not.
    for (const bool in_cost : {false, true}) {
        CAPTURE(in_cost);
        const Priced job =
            priced_ok(text + (in_cost ? "  cost breakage : $ = broken.amount over 1\n" : "") + end);
        const Measured cost = ask(job, question({}, 1 << 18)).measured[1];
        CHECK(cost.name == "cost");
        CHECK(cost.mean == doctest::Approx(5000).epsilon(1e-4));
        CHECK(cost.spread * cost.spread == doctest::Approx(500000).epsilon(3e-3));
        CHECK(cost.least == doctest::Approx(4000));
    }
}

TEST_CASE("of many expected events mean and spread are those of a Poisson count, too") {
    for (const double each : {0.39, 0.41, 3.0, 90.0, 1e4, 1e7}) { // of an acre
        CAPTURE(each);
        const Priced job = priced_ok(
            fmt::format("model \"m\"\npart \"All\"\n  given area = 100 ac  \"acres\"\n"
                        "  event broken = {:.2f} 1/ac over area costs $500 \"a broken shank\"\n"
                        "  cost labor : $/ac = $40/ac over area\nprice \"Work\" per ac of area\n"
                        "  markup 50 %\n",
                        each));
        const Measured cost = ask(job, question({}, 1 << 14)).measured[1];
        const double expected = 100 * each;
        CHECK(std::abs((cost.mean - 4'000) / 500 - expected) < 0.01 * std::sqrt(expected));
        CHECK(cost.spread / 500 == doctest::Approx(std::sqrt(expected)).epsilon(0.01));
    }
}

TEST_CASE("questions without sense are refused in words") {
    CHECK(refused(sum, question({"y"}, 0)) == "0 trials are too few; the least is 256");
    CHECK(refused(sum, question({"y"}, 1'000'000'000'000)) ==
          "1,000,000,000,000 trials are too many; the limit is 10,000,000,000");
    CHECK(refused(sum, question({"z"})) == "no line named `z`");
    CHECK(refused(sum, question({})) == "the model has no price");
    CHECK(refused("model \"m\"\ngiven a = 3 \"a\"\ny : 1 = a  \"y\"\n", question({"y"})) ==
          "nothing in this job swings");
    CHECK(refused("model \"m\"\ngiven a = 3 \"a\" swing 5 .. 2\ny : 1 = a  \"y\"\n",
                  question({"y"})) == "the swing of `a` is empty: 5 .. 2");
    CHECK(refused("model \"m\"\ngiven a = 3 \"a\" within 2 .. 4 swing 1 .. 5\ny : 1 = a  \"y\"\n",
                  question({"y"})) ==
          "the swing of `a` goes outside its allowed range: 1 .. 5 is not within 2 .. 4");
    CHECK(refused("model \"m\"\ngiven a = 10 \"a\" swing 2 .. 4\ny : 1 = sqrt(a - 9)  \"y\"\n",
                  question({"y"})) == "none of 2048 trials has an answer");
    RiskQuestion q = question({"y"});
    q.shares_of = "profit";
    CHECK(refused(sum, q) == "`profit` is not among what is measured");
}

TEST_CASE("a run can be watched and given up") {
    const Priced job = priced_ok(sum);
    std::atomic<std::uint64_t> done{0};
    std::atomic<bool> stop{false};
    RiskQuestion q = question({"y"}, 50'000);
    q.done = &done;
    q.stop = &stop;
    ask(job, q);
    CHECK(done == 50'000);
    stop = true;
    CHECK_FALSE(acre::engine::ask(job.job(), q));
}

} // namespace risk_test
