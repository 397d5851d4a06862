#include "engine/learning/ground_pace.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace acre::engine {
namespace {

constexpr std::size_t steps = 16;
constexpr double normal_90 = 1.6448536269514722; // the 95 % point of the standard normal
constexpr double widest_mean = 0.5; // how far all jobs may be off: a third to three times, at most

struct Cell {
    GroundPace pace;
    std::vector<double> off, error; // logarithms of the ratios
};

// What is believed of the cells for one pair of spreads.
struct Believed {
    double log_weight = 0;
    std::vector<double> mean, square;
};

class Fit {
  public:
    Fit(const std::vector<Cell>& cells, double job, double ground) {
        // A cell's own mean and its error, then all of them around one mean.
        double precision = 1 / (widest_mean * widest_mean), sum = 0;
        for (const Cell& cell : cells) {
            const auto [mean, weight, log] = own(cell, job);
            own_mean_.push_back(mean);
            own_square_.push_back(1 / weight);
            believed_.log_weight += log;
            const double square = 1 / weight + ground * ground;
            precision += 1 / square;
            sum += mean / square;
            believed_.log_weight -= 0.5 * std::log(square) + 0.5 * mean * mean / square;
        }
        believed_.log_weight += 0.5 * sum * sum / precision - 0.5 * std::log(precision);
        const double all = sum / precision;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            const double keep = ground * ground / (ground * ground + own_square_[c]);
            believed_.mean.push_back(all + keep * (own_mean_[c] - all));
            believed_.square.push_back(keep * own_square_[c] + (1 - keep) * (1 - keep) / precision);
        }
    }
    const Believed& believed() const { return believed_; }

  private:
    std::vector<double> own_mean_, own_square_;
    Believed believed_;

    // Mean of a cell, its precision, and what its jobs say of their spread around it.
    static std::tuple<double, double, double> own(const Cell& cell, double job) {
        double precision = 0, sum = 0, squares = 0, log = 0;
        for (std::size_t j = 0; j < cell.off.size(); ++j) {
            const double square = job * job + cell.error[j] * cell.error[j];
            precision += 1 / square;
            sum += cell.off[j] / square;
            squares += cell.off[j] * cell.off[j] / square;
            log -= 0.5 * std::log(square);
        }
        log -= 0.5 * (squares - sum * sum / precision) + 0.5 * std::log(precision);
        return {sum / precision, precision, log};
    }
};

std::vector<Cell> cells_of(std::span<const PaceOfJob> jobs) {
    std::map<std::tuple<std::string, double, std::string>, Cell> by_ground;
    for (const PaceOfJob& job : jobs) {
        const double to = std::ceil(job.ground.depth - 1e-9);
        Cell& cell = by_ground[{job.ground.layer, to, job.ground.depth_unit}];
        cell.pace.layer = job.ground.layer;
        cell.pace.from = to - 1;
        cell.pace.to = to;
        cell.pace.depth_unit = job.ground.depth_unit;
        cell.off.push_back(std::log(job.ratio));
        cell.error.push_back(job.error);
    }
    std::vector<Cell> cells;
    for (auto& [ground, cell] : by_ground)
        cells.push_back(std::move(cell));
    return cells;
}

} // namespace

std::vector<GroundPace> ground_paces(std::span<const PaceOfJob> jobs, double scale,
                                     double& between_jobs) {
    std::vector<Cell> cells = cells_of(jobs);
    std::vector<GroundPace> paces;
    if (cells.empty())
        return paces;
    std::vector<Believed> all;
    std::vector<double> spread;
    for (std::size_t k = 0; k < steps * steps; ++k) {
        const auto part = [](std::size_t i) {
            return 0.05 * std::pow(100.0, static_cast<double>(i) / (steps - 1));
        };
        const double job = part(k % steps), ground = part(k / steps);
        all.push_back(Fit(cells, scale * job, scale * ground).believed());
        all.back().log_weight +=
            std::log(job / (1 + job * job)) + std::log(ground / (1 + ground * ground));
        spread.push_back(scale * job);
    }
    double most = all.front().log_weight, sum = 0;
    for (const Believed& b : all)
        most = std::max(most, b.log_weight);
    for (Believed& b : all)
        sum += b.log_weight = std::exp(b.log_weight - most);
    between_jobs = 0;
    for (std::size_t k = 0; k < all.size(); ++k)
        between_jobs += all[k].log_weight / sum * spread[k];
    for (std::size_t c = 0; c < cells.size(); ++c) {
        double mean = 0, squares = 0, own = 0;
        for (const Believed& b : all) {
            mean += b.log_weight / sum * b.mean[c];
            squares += b.log_weight / sum * (b.square[c] + b.mean[c] * b.mean[c]);
        }
        for (const double off : cells[c].off)
            own += off / static_cast<double>(cells[c].off.size());
        const double error = std::sqrt(std::max(0.0, squares - mean * mean));
        GroundPace& pace = paces.emplace_back(cells[c].pace);
        pace.jobs = cells[c].off.size();
        pace.ratio = std::exp(own);
        pace.learned = std::exp(mean);
        pace.low = std::exp(mean - normal_90 * error);
        pace.high = std::exp(mean + normal_90 * error);
    }
    return paces;
}

} // namespace acre::engine
