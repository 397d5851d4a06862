// Ten million trials of the risk reader beside the same points through the model by hand.
#include <cmath>
#include <ctime>
#include <fstream>

#include <fmt/format.h>

#include "engine/questions/risk/draw.h"
#include "engine/questions/risk/points.h"
#include "engine/questions/risk/risk.h"
#include "engine/questions/risk/shapes.h"
#include "engine/questions/risk/tally.h"
#include "engine/questions/risk/workers.h"
#include "tests/bench/readers/model.h"
#include "tests/bench/readers/rip_native.h"
#include "tests/bench/readers/rivals.h"

namespace acre::bench {
namespace {

constexpr std::uint64_t trials = 10'000'000;

std::uint64_t resident_kilobytes() {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);)
        if (line.starts_with("VmHWM:"))
            return std::stoull(line.substr(6));
    return 0;
}

// By the clock, and by the time all cores spent: on a machine that others use only the second says
// much.
struct Took {
    double wall = 1e9, cores = 1e9;
};
template <class Work> Took took(Work work) {
    Took best;
    for (int k = 0; k < 5; ++k) {
        const std::clock_t before = std::clock();
        best.wall = std::min(best.wall, best_of(1, work));
        best.cores =
            std::min(best.cores, static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC);
    }
    return best;
}

// Points, swings and counting as the risk reader has them; the model by hand.
double by_hand(const Model& model, unsigned threads) {
    using namespace engine;
    std::vector<Shape> shapes;
    for (const Axis& axis : model.axes)
        shapes.push_back(shape_of(axis));
    const SobolSequence sequence(given_count);
    std::vector<ScrambledPoints> points;
    for (std::uint64_t k = 0; k < scrambles; ++k)
        points.emplace_back(sequence, 1, k);
    const double paid = given_value[area] * 349.31;
    std::vector<Tally> tally(scrambles * 4, Tally(bin_count + 2));
    in_threads(threads, scrambles, [&] {
        return [&, in = Columns(given_count, points_in_batch), out = Columns(4, points_in_batch),
                offset = std::vector<std::uint64_t>(given_count),
                bin = std::vector<std::int64_t>(points_in_batch)](std::size_t scramble) mutable {
            const Bins bins{0, 0.01, bin_count};
            for (std::uint64_t batch = 0; batch < trials / scrambles / points_in_batch; ++batch) {
                points[scramble].offsets(batch, offset);
                for (std::size_t k = 0; k < given_count; ++k)
                    draw_kernels().shaped(shapes[k], points[scramble].base(k), offset[k],
                                          points_in_batch, in.out()[k]);
                rip_vectors(points_in_batch, in.in(), out.out());
                for (std::size_t i = 0; i < points_in_batch;
                     ++i) { // profit for price, margin beside it
                    out[1][i] = paid * in[area][i] / given_value[area] - out[0][i];
                    out[3][i] = out[1][i] / (paid * in[area][i] / given_value[area]);
                }
                for (std::size_t m = 0; m < 4; ++m) {
                    Tally& t = tally[scramble * 4 + m];
                    draw_kernels().count(out.out()[m], points_in_batch, 0, bins, t.sums,
                                         bin.data());
                    for (const std::int64_t b : bin)
                        ++t.bin[static_cast<std::size_t>(b)];
                    t.count += points_in_batch;
                }
            }
        };
    });
    double mean = 0;
    for (std::size_t k = 0; k < scrambles; ++k)
        mean += tally[k * 4 + 2].mean(0) / scrambles;
    return mean;
}

} // namespace

void measure_trials(Model& model) {
    engine::RiskQuestion question;
    question.trials = trials;
    question.share_trials = 0;
    fmt::print("\n{:L} trials, all 25 swinging, price per acre, cost, profit and "
               "margin\n{:<58}{:>10}{:>12}{:>8}\n",
               trials, "", "seconds", "of one core", "ratio");
    for (const unsigned threads : {1U, 2U}) {
        question.threads = threads;
        double mean = 0, hand_mean = 0;
        const Took ours = took([&] { mean = engine::ask(*model.job, question)->measured[0].mean; });
        const Took hand = took([&] { hand_mean = by_hand(model, threads); });
        const auto row = [&](const char* what, double result, Took time) {
            fmt::print("{:<58}{:>10.3f}{:>12.3f}{:>8.2f}\n",
                       fmt::format("{}, {} threads (mean {:.4f})", what, threads, result),
                       time.wall, time.cores, time.cores / hand.cores);
        };
        row("risk", mean, ours);
        row("by hand, the same points", hand_mean, hand);
    }
    const std::uint64_t before = resident_kilobytes();
    question.trials = trials * 2;
    (void)engine::ask(*model.job, question);
    fmt::print("twice the trials: {} KB more memory\n", resident_kilobytes() - before);
    question.trials = 1 << 20;
    question.share_trials = 1 << 16;
    const Took shares = took([&] { (void)engine::ask(*model.job, question); });
    fmt::print("{:<58}{:>10.3f}{:>12.3f}\n",
               "1,048,576 trials and the shares of all givens, 2 threads", shares.wall,
               shares.cores);
    fmt::print("0.25 seconds wanted on two cores, and 1.5 times by hand; on a busy machine look at "
               "the seconds of one core\n");
}

} // namespace acre::bench
