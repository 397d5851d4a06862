#include "engine/learning/outcomes.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "engine/book/quoted.h"
#include "engine/learning/binomial.h"
#include "engine/questions/log_services.h"

namespace acre::engine {
namespace {

constexpr std::array marks{0.05, 0.25, 0.50, 0.75, 0.95};

const RecordSpread* cost_spread(const QuoteRecord& quote) {
    for (const RecordSpread& spread : quote.risk.spreads)
        if (spread.of == "cost" && spread.quantiles.size() >= 2)
            return &spread;
    return nullptr;
}

// The share of the quoted work that the log has; 1 where the model counts none.
double share_logged(const QuoteRecord& quote, const JobLog& log) {
    const LogTotals sums = totals(log);
    if (const LogServices services(quote.counted, log, sums); services.several())
        return services.share_of_all();
    for (const CountedLine& line : quote.counted)
        if (line.how == Counting::Work && line.unit != "h" &&
            line.name.find('.') == std::string::npos && line.quoted > 0) {
            const auto done = sums.counted.find(line.name);
            return done == sums.counted.end() ? 0 : done->second / line.quoted;
        }
    return 1;
}

std::string why_not(const QuoteRecord& quote, const JobLog& log, const std::string& changed) {
    if (!changed.empty())
        return changed;
    const RecordSpread* spread = cost_spread(quote);
    if (spread == nullptr)
        return "no risk was sealed with it";
    for (const double mark : marks)
        if (std::none_of(spread->quantiles.begin(), spread->quantiles.end(),
                         [&](const RecordQuantile& q) { return q.share == mark; }))
            return fmt::format("its sealed risk has no mark of {:.0f} %", mark * 100);
    if (const double share = share_logged(quote, log); share < least_logged)
        return fmt::format("its log has {:.0f} % of the work that was quoted", share * 100);
    return {};
}

double share_below(const std::vector<RecordQuantile>& quantiles, double cost) {
    for (std::size_t i = 1; i < quantiles.size(); ++i) {
        const RecordQuantile &a = quantiles[i - 1], &b = quantiles[i];
        if (cost >= a.value && cost < b.value)
            return a.share + (b.share - a.share) * (cost - a.value) / (b.value - a.value);
    }
    return cost < quantiles.front().value ? 0 : 1;
}

void count_swings(std::span<const FinishedJob> priced, OutcomesAnswer& answer) {
    std::map<std::pair<Tells, std::string>, SwingCount> counts;
    for (const FinishedJob& job : priced)
        for (std::size_t i = 0; i < job.readings.readings.size(); ++i) {
            const Reading& reading = job.readings.readings[i];
            const bool alone = reading.tells == Tells::Pace || reading.tells == Tells::Burn ||
                               reading.tells == Tells::FuelPrice || reading.tells == Tells::Hours;
            // One breakage or one invoice is all or nothing of a job: it has no place in a range.
            if (!alone || !job.measures[i].known || reading.range.size() < 20 ||
                reading.range.front() == reading.range.back())
                continue;
            SwingCount& count = counts[{reading.tells, reading.name}];
            count.label = reading.label;
            count.unit = reading.unit;
            ++count.jobs;
            const auto at = [&](double share) {
                return reading.range[static_cast<std::size_t>(
                    share * static_cast<double>(reading.range.size() - 1) + 0.5)];
            };
            count.below += job.measures[i].value < at(0.05) ? 1 : 0;
            count.above += job.measures[i].value > at(0.95) ? 1 : 0;
            for (const std::string& name : reading.moved_by)
                if (std::find(count.moved_by.begin(), count.moved_by.end(), name) ==
                    count.moved_by.end())
                    count.moved_by.push_back(name);
        }
    for (auto& [kind, count] : counts) {
        count.outside = exact_share(count.below + count.above, count.jobs, outcome_level);
        count.too_narrow = count.outside.low > 0.10;
        answer.swings.push_back(std::move(count));
    }
}

} // namespace

CostOutcome place_cost(const QuoteRecord& quote, const JobLog& log, const std::string& changed) {
    CostOutcome outcome;
    outcome.quote = quote.number;
    outcome.title = quote.title;
    outcome.money = quote.money;
    outcome.why_not = why_not(quote, log, changed);
    if (!outcome.why_not.empty())
        return outcome;
    const lang::Outcome<VarianceAnswer> variance = ask(quoted_of(quote), log);
    if (!variance) {
        outcome.why_not = variance.said.diagnostics.all().front().title;
        return outcome;
    }
    outcome.cost = variance->actual_cost;
    const std::vector<RecordQuantile>& quantiles = cost_spread(quote)->quantiles;
    for (std::size_t i = 0; i < marks.size(); ++i)
        for (const RecordQuantile& q : quantiles)
            if (q.share == marks[i])
                outcome.at_mark[i] = q.value;
    outcome.share = share_below(quantiles, outcome.cost);
    outcome.below_all = outcome.cost < quantiles.front().value;
    outcome.above_all = outcome.cost >= quantiles.back().value;
    return outcome;
}

OutcomesAnswer outcomes(std::vector<CostOutcome> jobs, std::span<const FinishedJob> priced) {
    OutcomesAnswer answer;
    answer.jobs = std::move(jobs);
    for (const CostOutcome& job : answer.jobs)
        answer.placed += job.why_not.empty() ? 1 : 0;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        MarkCount& count = answer.marks[i];
        count.mark = marks[i];
        for (const CostOutcome& job : answer.jobs)
            count.below += job.why_not.empty() && job.cost < job.at_mark[i] ? 1 : 0;
        count.share = exact_share(count.below, answer.placed, outcome_level);
        count.fits = answer.placed == 0 || count.share.contains(count.mark);
    }
    count_swings(priced, answer);
    return answer;
}

} // namespace acre::engine
