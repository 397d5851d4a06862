#include "engine/learning/learn.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <set>

namespace acre::engine {
namespace {

// A figure whose spread shrank less than this, and that moved less than this share of its spread,
// was not told of.
constexpr double told_spread = 0.88, told_move = 0.30;

// A job that the season can hardly do says nothing of the season.
bool has_answers(const Reading& reading) {
    const auto without = std::count_if(reading.drawn.begin(), reading.drawn.end(),
                                       [](double x) { return std::isnan(x); });
    return 2 * static_cast<std::size_t>(without) <= reading.drawn.size();
}

// All jobs' readings of one kind and name.
using Kind = std::pair<Tells, std::string>;
std::map<Kind, std::vector<JobTold>> by_kind(std::span<const FinishedJob> jobs) {
    std::map<Kind, std::vector<JobTold>> kinds;
    for (const FinishedJob& job : jobs)
        for (std::size_t i = 0; i < job.readings.readings.size(); ++i) {
            const Reading& reading = job.readings.readings[i];
            // An acre is an acre and a gallon a gallon, whatever the line is called.
            const bool named = reading.tells != Tells::Burn && reading.tells != Tells::FuelPrice;
            if (job.measures[i].known && has_answers(reading))
                kinds[{reading.tells, named ? reading.name : reading.unit}].push_back(
                    {&reading, &job.measures[i]});
        }
    return kinds;
}

struct Moments {
    double mean = 0, spread = 0;
};
Moments moments(const std::vector<double>& x, const std::vector<double>& weight) {
    Moments m;
    double squares = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double w = weight.empty() ? 1 / static_cast<double>(x.size()) : weight[i];
        m.mean += w * x[i];
        squares += w * x[i] * x[i];
    }
    m.spread = std::sqrt(std::max(0.0, squares - m.mean * m.mean));
    return m;
}

// The values of a figure in order, with how much weight is below each.
class Sorted {
  public:
    Sorted(const std::vector<double>& x, const std::vector<double>& weight)
        : x_(x),
          weight_(weight),
          order_(x.size()) {
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        std::sort(order_.begin(), order_.end(),
                  [&](std::size_t a, std::size_t b) { return x[a] < x[b]; });
    }
    double at(double share) const {
        double below = 0, last = x_[order_.front()], last_below = 0;
        for (const std::size_t i : order_) {
            const double middle = below + weight_[i] / 2;
            if (weight_[i] > 0 && middle >= share)
                return middle > last_below && last_below > 0
                           ? last + (x_[i] - last) * (share - last_below) / (middle - last_below)
                           : x_[i];
            if (weight_[i] > 0) {
                last = x_[i];
                last_below = middle;
            }
            below += weight_[i];
        }
        return last;
    }

  private:
    const std::vector<double>& x_;
    const std::vector<double>& weight_;
    std::vector<std::size_t> order_;
};

LearnedFigure figure_of(const Assumption& assumption, const std::vector<double>& weight,
                        const std::vector<JobTold>& jobs, std::size_t id) {
    LearnedFigure figure{assumption.name,
                         assumption.label,
                         assumption.unit,
                         assumption.value,
                         assumption.swing,
                         0,
                         0,
                         0,
                         0,
                         Tells::Pace,
                         {},
                         false,
                         false};
    const Sorted sorted(assumption.drawn, weight);
    figure.learned = sorted.at(0.5);
    figure.low = sorted.at((1 - learned_level) / 2);
    figure.high = sorted.at((1 + learned_level) / 2);
    for (const JobTold& job : jobs)
        figure.jobs +=
            std::count(job.reading->rests_on.begin(), job.reading->rests_on.end(), id) > 0 ? 1 : 0;
    figure.tells = jobs.front().reading->tells;
    figure.told_by = jobs.front().reading->label;
    const Moments before = moments(assumption.drawn, {}), after = moments(assumption.drawn, weight);
    figure.settled = after.spread < told_spread * before.spread ||
                     std::abs(figure.learned - assumption.value) > told_move * before.spread;
    // Half of what is believed lies in the last twentieth of the swing.
    const double last = 0.05 * assumption.swing.width();
    figure.at_end = figure.learned < assumption.swing.low + last ||
                    figure.learned > assumption.swing.high - last;
    return figure;
}

ComparedReading compared(Tells tells, const std::vector<JobTold>& jobs,
                         const Assumptions& assumptions) {
    const Reading& first = *jobs.front().reading;
    ComparedReading row{tells, first.name, first.label, first.unit, jobs.size(), 0, 0};
    double said = 0, measured = 0, whole = 0;
    for (const JobTold& job : jobs) {
        const Measure& m = *job.measure;
        switch (tells) {
        case Tells::Pace: // hours for the same acres
        case Tells::Burn:
        case Tells::Money:
        case Tells::Breaks:
            said += job.reading->at_season * m.hours;
            measured += m.value * m.hours;
            whole += m.hours;
            break;
        case Tells::Days:
            said += assumptions.all()[job.reading->rests_on[0]].value * m.trials;
            measured += m.value * m.trials;
            whole += m.trials;
            break;
        case Tells::FuelPrice:
        case Tells::Hours:
            said += job.reading->at_season;
            measured += m.value;
            whole += 1;
        }
    }
    // Breakages are few: people count them by the thousand hours.
    const double times = tells == Tells::Breaks ? 1000 : 1;
    if (tells == Tells::Breaks) {
        row.label += " per 1,000 machine hours";
        row.unit = "1";
    }
    row.said = times * said / whole;
    row.measured = times * measured / whole;
    return row;
}

void learn_grounds(std::span<const FinishedJob> jobs, LearnAnswer& answer) {
    std::vector<PaceOfJob> paces;
    double squares = 0;
    for (const FinishedJob& job : jobs)
        for (std::size_t i = 0; i < job.readings.readings.size(); ++i) {
            const Reading& reading = job.readings.readings[i];
            if (reading.tells != Tells::Pace || !job.measures[i].known ||
                job.readings.ground.layer.empty())
                continue;
            paces.push_back({job.readings.ground, job.measures[i].value / reading.at_season,
                             job.measures[i].error});
            squares += reading.scatter * reading.scatter;
        }
    if (paces.empty())
        return;
    const double scale = std::sqrt(squares / static_cast<double>(paces.size()));
    answer.grounds = ground_paces(paces, std::max(scale, 0.02), answer.ground_spread);
}

} // namespace

lang::Outcome<FinishedJob> finished_job(std::string quote, const PricedJob& job,
                                        const std::vector<CountedLine>& counted, const JobLog& log,
                                        Assumptions& assumptions, double& work) {
    std::set<std::string> spent;
    for (const auto& [cost, amount] : totals(log).amounts)
        spent.insert(cost);
    lang::Outcome<JobReadings> readings = readings_of(job, counted, spent, assumptions, work);
    if (!readings)
        return std::move(readings.said);
    FinishedJob finished{std::move(quote), std::move(*readings), {}};
    finished.measures = measures_of(log, finished.readings, WorkCalendar(job.sheet().job.closed));
    return finished;
}

LearnAnswer learn(std::span<const FinishedJob> jobs, const Assumptions& assumptions) {
    LearnAnswer answer;
    for (const FinishedJob& job : jobs) {
        answer.quotes.push_back(job.quote);
        if (job.readings.several)
            answer.several.push_back(job.quote);
        for (std::size_t i = 0; i < job.readings.readings.size(); ++i)
            if (job.measures[i].known && !has_answers(job.readings.readings[i])) {
                answer.refused.push_back(job.quote);
                break;
            }
    }
    // A figure goes by the kind of reading that leaves the least of its spread.
    std::vector<std::optional<LearnedFigure>> best(assumptions.all().size());
    std::vector<double> spread(best.size(), 0);
    for (const auto& [kind, measured] : by_kind(jobs)) {
        answer.compared.push_back(compared(kind.first, measured, assumptions));
        const std::vector<double> weight = weights(kind.first, measured, assumptions);
        if (weight.empty())
            continue;
        for (std::size_t id = 0; id < best.size(); ++id) {
            if (std::none_of(measured.begin(), measured.end(), [&](const JobTold& job) {
                    return std::count(job.reading->rests_on.begin(), job.reading->rests_on.end(),
                                      id) > 0;
                }))
                continue;
            const Assumption& assumption = assumptions.all()[id];
            const double left = moments(assumption.drawn, weight).spread;
            if (best[id] && left >= spread[id])
                continue;
            best[id] = figure_of(assumption, weight, measured, id);
            spread[id] = left;
        }
    }
    for (std::size_t id = 0; id < best.size(); ++id)
        if (best[id] && best[id]->settled)
            answer.figures.push_back(std::move(*best[id]));
        else
            answer.untold.push_back(assumptions.all()[id].name);
    learn_grounds(jobs, answer);
    return answer;
}

std::string method_of(Tells tells) {
    switch (tells) {
    case Tells::Money:
        return "ratio of sums (Cochran 1977, 6.4)";
    case Tells::Days:
        return "binomial with dispersion (McCullagh and Nelder 1989, 4.5)";
    case Tells::Breaks:
        return "Poisson count";
    default:
        return "normal hierarchical model (Gelman et al. 2013, 5.4)";
    }
}

} // namespace acre::engine
