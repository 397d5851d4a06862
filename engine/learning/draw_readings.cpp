#include "engine/learning/draw_readings.h"

#include <algorithm>
#include <cmath>

#include "engine/questions/what_if/job_lanes.h"
#include "engine/questions/work_limit.h"

namespace acre::engine {
namespace {

constexpr std::size_t range_draws = 2048; // of everything at once
constexpr std::size_t grounds_tried = 8;

// Works the ratios out in lanes: with the season's figures drawn, then with everything drawn.
class Drawing {
  public:
    Drawing(const PricedJob& job, const std::vector<MovingPart>& parts,
            const Assumptions& assumptions, std::vector<Ratio>& ratios)
        : sheet_(job.sheet()),
          parts_(parts),
          assumptions_(assumptions),
          ratios_(ratios) {
        std::vector<Axis> axes;
        std::vector<std::optional<Range>> promised;
        for (const MovingPart& part : parts) {
            axes.push_back(part.axis);
            promised.push_back(part.axis.swing);
        }
        for (Ratio& ratio : ratios) {
            for (const Slot slot : ratio.over)
                ratio.over_at.push_back(place(slot));
            for (const Slot slot : ratio.under)
                ratio.under_at.push_back(place(slot));
        }
        lanes_.emplace(job.compiled(), axes, targets_, targets_.size(), promised);
        in_.assign(parts.size(), std::vector<double>(lanes_per_run));
        out_.assign(targets_.size(), std::vector<double>(lanes_per_run));
        for (auto& values : in_)
            in_pointers_.push_back(values.data());
        for (auto& values : out_)
            out_pointers_.push_back(values.data());
    }

    double effort() const {
        return static_cast<double>(lanes_->size().effort) *
               static_cast<double>(assumptions_.draws() + range_draws +
                                   parts_.size() * 2 * grounds_tried);
    }

    void run() {
        JobLanes::Scratch scratch = lanes_->scratch();
        for (std::size_t k = 0; k < parts_.size(); ++k)
            find_moved(k, scratch);
        const auto put = [&](std::size_t draws, bool all, auto take) {
            for (std::size_t from = 0; from < draws; from += lanes_per_run) {
                const std::size_t n = std::min(lanes_per_run, draws - from);
                fill(from, n, all);
                lanes_->run(n, in_pointers_.data(), out_pointers_.data(), scratch);
                for (Ratio& ratio : ratios_)
                    for (std::size_t i = 0; i < n; ++i)
                        take(ratio.reading, value(ratio, i));
            }
        };
        put(
            assumptions_.draws(), false,
            [](Reading& reading, double value) { reading.drawn.push_back(value); });
        put(std::min(range_draws, assumptions_.draws()), true,
            [](Reading& reading, double value) { reading.range.push_back(value); });
        for (Ratio& ratio : ratios_)
            compare(ratio.reading);
    }

  private:
    const lang::Sheet& sheet_;
    const std::vector<MovingPart>& parts_;
    const Assumptions& assumptions_;
    std::vector<Ratio>& ratios_;
    std::vector<Slot> targets_;
    std::optional<JobLanes> lanes_;
    std::vector<std::vector<double>> in_, out_;
    std::vector<const double*> in_pointers_;
    std::vector<double*> out_pointers_;

    std::size_t place(Slot slot) {
        const auto at = std::find(targets_.begin(), targets_.end(), slot);
        if (at != targets_.end())
            return static_cast<std::size_t>(at - targets_.begin());
        targets_.push_back(slot);
        return targets_.size() - 1;
    }
    // Which readings a part moves: both ends of its swing, with everything else drawn a few times.
    void find_moved(std::size_t k, JobLanes::Scratch& scratch) {
        fill(0, 2 * grounds_tried, true);
        const MovingPart& part = parts_[k];
        for (std::size_t j = 0; j < parts_.size(); ++j)
            for (std::size_t i = 0; i < grounds_tried; ++i)
                in_[j][2 * i + 1] = in_[j][2 * i];
        for (std::size_t i = 0; i < grounds_tried; ++i) {
            in_[k][2 * i] = part.axis.swing->low;
            in_[k][2 * i + 1] = part.axis.swing->high;
        }
        lanes_->run(2 * grounds_tried, in_pointers_.data(), out_pointers_.data(), scratch);
        const auto add = [](auto& to, const auto& what) {
            if (std::find(to.begin(), to.end(), what) == to.end())
                to.push_back(what);
        };
        for (Ratio& ratio : ratios_)
            for (std::size_t i = 0; i < grounds_tried; ++i)
                if (const double low = value(ratio, 2 * i), high = value(ratio, 2 * i + 1);
                    std::abs(high - low) > 1e-12 * std::abs(low)) {
                    add(ratio.reading.moved_by, season_name(sheet_, part.axis.line));
                    if (part.assumption != no_assumption)
                        add(ratio.reading.rests_on, part.assumption);
                }
    }
    void fill(std::size_t from, std::size_t n, bool all) {
        for (std::size_t k = 0; k < parts_.size(); ++k) {
            const MovingPart& part = parts_[k];
            const std::uint64_t seed = seed_of("a job's own") + k;
            for (std::size_t i = 0; i < n; ++i)
                in_[k][i] = part.assumption != no_assumption
                                ? assumptions_.all()[part.assumption].drawn[from + i]
                            : all ? quantile(part.shape, even_number(seed, from + i))
                                  : part.axis.value;
        }
    }
    double value(const Ratio& ratio, std::size_t lane) const {
        const auto sum = [&](const std::vector<std::size_t>& places) {
            double total = 0;
            for (const std::size_t at : places)
                total += out_[at][lane];
            return total;
        };
        const double result =
            sum(ratio.over_at) / (ratio.under_at.empty() ? 1 : sum(ratio.under_at));
        return std::isfinite(result) && result > 0 ? result : std::nan("");
    }
    // What the job's own swings do to the logarithm, draw by draw.
    static void compare(Reading& reading) {
        double sum = 0, squares = 0;
        std::size_t count = 0;
        for (std::size_t i = 0; i < reading.range.size(); ++i) {
            const double moved = std::log(reading.range[i] / reading.drawn[i]);
            if (std::isnan(moved))
                continue;
            sum += moved;
            squares += moved * moved;
            ++count;
        }
        if (count > 0) {
            const auto n = static_cast<double>(count);
            reading.shift = sum / n;
            reading.scatter = std::sqrt(std::max(0.0, squares / n - sum / n * sum / n));
        }
        std::erase_if(reading.range, [](double x) { return std::isnan(x); });
        std::sort(reading.range.begin(), reading.range.end());
    }
};

} // namespace

std::optional<lang::Diagnostic> draw_readings(const PricedJob& job,
                                              const std::vector<MovingPart>& parts,
                                              const Assumptions& assumptions,
                                              std::vector<Ratio>& ratios, double& work) {
    Drawing drawing(job, parts, assumptions, ratios);
    work += drawing.effort() +
            static_cast<double>(job.plan().size() * (effort_of_plan + ratios.size()));
    if (auto refusal = beyond_effort("learning from these jobs", work))
        return refusal;
    drawing.run();
    return std::nullopt;
}

} // namespace acre::engine
