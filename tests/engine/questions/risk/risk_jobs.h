// Jobs and questions that the tests of risk share.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

#include "engine/questions/risk/risk.h"
#include "tests/support/priced.h"

namespace risk_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

RiskQuestion question(std::vector<std::string> lines, std::uint64_t trials = 1 << 16,
                      std::uint64_t share_trials = 0) {
    RiskQuestion q;
    q.lines = std::move(lines);
    q.trials = trials;
    q.share_trials = share_trials;
    return q;
}
RiskAnswer ask(const Priced& job, const RiskQuestion& q) {
    const auto answer = acre::engine::ask(job.job(), q);
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}
std::string refused(const std::string& text, const RiskQuestion& q) {
    const Priced job = priced_ok(text);
    const auto answer = acre::engine::ask(job.job(), q);
    CHECK_FALSE(answer);
    return acre::tests::title_of(answer.said);
}
inline double percentile(const Measured& m, double share) {
    for (const Percentile& p : m.percentiles)
        if (p.share == share)
            return p.value;
    FAIL("no such percentile");
    return 0;
}

const std::string sum =
    "model \"m\"\ngiven a = 3  \"a\"  swing even 0 .. 10\ngiven b = 4  \"b\"  swing 0 .. 10\n"
    "given c = 2 \"c\" swing pert 1 .. 5\ny : 1 = a + 2 * b * c  \"y\"\n";

inline bool same(const RiskAnswer& one, const RiskAnswer& two) {
    bool equal =
        one.measured.size() == two.measured.size() && one.without_answer == two.without_answer;
    for (std::size_t m = 0; equal && m < one.measured.size(); ++m) {
        const Measured &a = one.measured[m], &b = two.measured[m];
        equal = a.mean == b.mean && a.mean_error == b.mean_error && a.spread == b.spread &&
                a.least == b.least && a.bars == b.bars;
        for (std::size_t k = 0; equal && k < a.percentiles.size(); ++k)
            equal = a.percentiles[k].value == b.percentiles[k].value &&
                    a.percentiles[k].error == b.percentiles[k].error;
    }
    if (equal && one.shares)
        for (std::size_t k = 0; equal && k < one.shares->shares.size(); ++k)
            equal = one.shares->shares[k].first == two.shares->shares[k].first &&
                    one.shares->shares[k].total == two.shares->shares[k].total;
    return equal;
}

} // namespace

} // namespace risk_test
