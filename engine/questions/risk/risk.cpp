#include "engine/questions/risk/risk.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/questions/risk/experiment.h"
#include "engine/questions/risk/matters_most.h"
#include "engine/questions/risk/spread_shares.h"
#include "engine/questions/risk/trials.h"
#include "engine/questions/what_if/sensitivity.h"
#include "engine/questions/work_limit.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr std::uint64_t most_cut = 4'096; // trials are not cut further down

lang::Outcome<std::size_t> measure_named(const RiskAnswer& result, const std::string& name) {
    if (name.empty())
        return std::size_t{0};
    for (std::size_t m = 0; m < result.measured.size(); ++m)
        if (result.measured[m].name == name)
            return m;
    return lang::placeless(
        lang::Code::Q001, fmt::format("`{}` is not among what is measured", name), {},
        {"name one of the lines asked for, cost, contribution, profit or margin"});
}

// As many trials and shares as the effort allows.
std::optional<lang::Diagnostic> keep_within_effort(const Trials& trials, RiskQuestion& question) {
    const std::uint64_t effort = trials.effort();
    if (question.within_effort) {
        const std::uint64_t fewest =
            pilot_batches * points_in_batch + std::min(most_cut, question.trials);
        if (auto beyond = beyond_effort("drawing the job",
                                        static_cast<double>(effort) * static_cast<double>(fewest)))
            return beyond;
        question.trials = std::min(question.trials, std::max(most_cut, max_effort / 2 / effort));
    }
    const std::uint64_t most = (question.within_effort ? max_effort / 2 : 10 * max_effort) /
                               effort / (std::min(trials.factors(), max_shared) + 3);
    question.share_trials = most < min_trials * 4 && most < question.share_trials
                                ? 0
                                : std::min(question.share_trials, most);
    return std::nullopt;
}

std::optional<lang::Diagnostic> unsound_numbers(const RiskQuestion& question) {
    if (question.lines.size() > max_measured)
        return lang::placeless(lang::Code::Q006, fmt::format("{} lines are too many: {} at most",
                                                             question.lines.size(), max_measured));
    if (question.trials >= min_trials && question.trials <= max_trials &&
        question.share_trials <= max_trials)
        return std::nullopt;
    return lang::placeless(
        lang::Code::Q006,
        question.trials < min_trials
            ? fmt::format("{} trials are too few; the least is {}", question.trials, min_trials)
            : fmt::format("{} trials are too many; the limit is {}",
                          lang::number_text(static_cast<double>(
                              std::max(question.trials, question.share_trials))),
                          lang::number_text(static_cast<double>(max_trials))),
        {}, {"a million trials are plenty for a price"});
}

// What was said of the lines that are followed; errors: there is no answer.
lang::Said judged_lines(const PricedJob& job, const RiskQuestion& question) {
    std::vector<lang::LineId> lines;
    for (const std::string& name : question.lines) {
        lang::Outcome<lang::LineId> line = find_line(job, name);
        if (!line)
            return std::move(line.said);
        lines.push_back(*line);
    }
    return judged(job, lines);
}

// Slope and swing beside the shares, and the names that sensitivity gives the givens.
void set_beside(const PricedJob& job, const RiskQuestion& question, RiskAnswer& result) {
    const auto beside =
        ask(job, SensitivityQuestion{question.lines.empty() ? "" : question.lines.front(),
                                     question.names, 0, false});
    if (!beside)
        return;
    for (Factor& factor : result.factors)
        for (const Effect& effect : beside->effects)
            if (!factor.is_event() && effect.given.name == factor.given.name)
                factor.given.called = effect.given.called;
    result.matters_most = matters_most(result, *beside);
}

// Of what no draw moves the spread is the rounding of its own arithmetic: not to be shared out.
bool stands_still(const Measured& of) {
    return of.spread <= 1e-12 * std::max(std::abs(of.least), std::abs(of.greatest));
}

} // namespace

lang::Outcome<RiskAnswer> ask(const PricedJob& job, const RiskQuestion& asked) {
    if (auto fault = unsound_numbers(asked))
        return std::move(*fault);
    lang::Said said = judged_lines(job, asked);
    if (said.diagnostics.has_errors())
        return said;
    RiskAnswer result;
    result.title = title_of(job);
    result.seed = asked.seed;
    result.lump = asked.lump;
    lang::Outcome<Trials> trials = Trials::make(job, asked, result);
    if (!trials)
        return lang::Said{trials.said.diagnostics, job.shared_sources()};
    lang::Outcome<std::size_t> shared = measure_named(result, asked.shares_of);
    if (!shared)
        return std::move(shared.said);
    RiskQuestion question = asked;
    if (auto fault = keep_within_effort(*trials, question))
        return std::move(*fault);
    result.trials = question.trials;
    lang::Outcome<std::vector<double>> centers = run_trials(job, *trials, question, result);
    if (!centers)
        return std::move(centers.said);
    if (question.share_trials > 0 && stands_still(result.measured[*shared]))
        result.shares.emplace().measured = *shared;
    else if (question.share_trials > 0)
        result.shares = spread_shares(*trials, *shared, (*centers)[*shared], question);
    if (asked.matters_most)
        set_beside(job, asked, result);
    return {std::move(result), std::move(said)};
}

} // namespace acre::engine
