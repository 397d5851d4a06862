// Two givens that go with a third, and nobody says how they go with each other.
#include <doctest/doctest.h>

#include "engine/questions/risk/risk.h"
#include "tests/support/priced.h"

namespace unsaid_correlation_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

std::string text(const std::string& correlations) {
    return "model \"m\"\ngiven a = 1  \"a\"  swing even 0 .. 2\n"
           "given b = 1  \"b\"  swing even 0 .. 2\ngiven c = 1  \"c\"  swing even 0 .. 2\n" +
           correlations + "y : 1 = a + b + c  \"y\"\n";
}
std::string mend(const std::string& correlations) {
    const Priced job = priced_ok(text(correlations));
    RiskQuestion question;
    question.lines = {"y"};
    question.trials = 1024;
    question.share_trials = 0;
    const auto answer = acre::engine::ask(job.job(), question);
    if (answer)
        return "answered";
    const auto& helps = answer.said.diagnostics.all().front().helps;
    return helps.empty() ? "" : helps.front().text;
}

} // namespace

TEST_CASE("a correlation that was not said is named, and with it the rest is no contradiction") {
    const std::string two = "correlate a, b 90 %\ncorrelate b, c 90 %\n";
    // Ranks of 90 % are normal deviates of 2 sin(0.9 pi / 6) = 0.908; its square is 81.1 % of
    // ranks.
    CHECK(mend(two) == "`a` and `c` both move with `b`; without a word they do not move with each "
                       "other: write  correlate a, c 81 %, or weaken one of the two");
    CHECK(mend(two + "correlate a, c 81 %\n") == "answered");
    CHECK(mend(two + "correlate a, c -90 %\n") == "weaken one of them");
    CHECK(mend("correlate a, b 60 %\ncorrelate b, c 60 %\n") == "answered");
}

} // namespace unsaid_correlation_test
