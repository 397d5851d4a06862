// Shipped jobs, priced many at once: the lane reader and risk's own reading beside the same job as
// straight code that was compiled for this machine.
#include <algorithm>
#include <array>
#include <cmath>
#include <ctime>
#include <optional>
#include <random>
#include <span>
#include <string>
#include <vector>

#include <dlfcn.h>

#include <fmt/format.h>

#include "engine/native/native.h"
#include "engine/questions/what_if/job_lanes.h"
#include "engine/readers/lanes.h"
#include "engine/readers/lanes/kernels.h"
#include "tests/bench/jobs/job.h"

namespace {

using namespace acre;
constexpr std::size_t batch = engine::lanes_per_run;
constexpr std::size_t streamed = 1U << 18U; // jobs whose givens are far larger than any cache

// Nanoseconds of the processor for a job: the best of many rounds, others use the machine too.
template <class Work> double nanoseconds(std::size_t jobs, int rounds, Work work) {
    double best = 1e99;
    for (int round = 0; round < rounds; ++round) {
        const std::clock_t start = std::clock();
        work();
        best = std::min(best, 1e9 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC /
                                  static_cast<double>(jobs));
    }
    return best;
}

struct Points { // by given, then job
    std::vector<std::vector<double>> column;
    explicit Points(const std::vector<engine::Axis>& axes) {
        std::mt19937_64 random(1);
        for (const engine::Axis& axis : axes) {
            std::uniform_real_distribution<double> between(axis.swing->low, axis.swing->high);
            column.emplace_back(streamed);
            std::generate(column.back().begin(), column.back().end(),
                          [&] { return between(random); });
        }
    }
    // Eight batches again and again, which stay near the processor and yet are new to a reader that
    // remembers the last searches; or every time new places.
    template <class Run> void each_batch(bool stream, Run run) const {
        std::vector<const double*> in(column.size());
        for (std::size_t at = 0; at < streamed; at += batch) {
            for (std::size_t k = 0; k < column.size(); ++k)
                in[k] = column[k].data() + (stream ? at : at % (8 * batch));
            run(in.data());
        }
    }
};

// The searches of a job with the numbers that do not vary.
struct Searches {
    std::vector<bench::Search> list;
    std::vector<double> invariants;
    std::uint32_t bits = engine::lanes::kernel_sets().front()->bits;
};
void native(const void* all, std::size_t number, const double* const* args, std::size_t lanes,
            double* const* results) {
    const auto& [list, invariants, bits] = *static_cast<const Searches*>(all);
    std::array<engine::NativeColumn, engine::most_native_args> columns;
    const bench::Search& search = list[number];
    for (std::size_t k = 0; k < search.args.size(); ++k)
        columns[k] = args[k] != nullptr
                         ? engine::NativeColumn{args[k], false}
                         : engine::NativeColumn{&invariants[search.args[k].index], true};
    engine::native_functions()[search.function].lanes(std::span(columns).first(search.args.size()),
                                                      lanes, bits, results);
}

struct Answers {
    std::vector<double> memory;
    std::vector<double*> out;
    explicit Answers(std::size_t answers) : memory(answers * batch) {
        for (std::size_t k = 0; k < answers; ++k)
            out.push_back(memory.data() + k * batch);
    }
};

double worst_difference(const Answers& a, const Answers& b) {
    double worst = 0;
    for (std::size_t i = 0; i < a.memory.size(); ++i)
        if (!std::isnan(a.memory[i]))
            worst = std::max(worst, std::fabs(a.memory[i] / b.memory[i] - 1));
    return worst;
}

void row(const char* name, double in_cache, double far, double hand) {
    fmt::print("  {:<46}{:>9.1f}{:>9.2f}{:>12.1f}\n", name, in_cache, in_cache / hand, far);
}

void measure(const char* number, const std::string& path, bench::CompiledJob compiled) {
    const bench::ShippedJob job = bench::open_job(path);
    const engine::Plan& plan = job.job->plan();
    const Points points(job.axes);
    const engine::lanes::Graph graph = job.graph(job.inputs);
    std::vector<std::size_t> of_call;
    const Searches searches{bench::searches(graph, of_call), graph.invariants};
    Answers ours(job.answers.size()), theirs(job.answers.size()), checked(job.answers.size());

    const engine::LaneReader reader(plan, job.inputs, job.answers);
    const auto scratch = reader.scratch();
    std::vector<std::optional<engine::Range>> promised;
    for (const engine::Axis& axis : job.axes)
        promised.push_back(axis.swing);
    const engine::JobLanes lanes(job.job->compiled(), job.axes, job.answers, job.answers.size(),
                                 promised);
    engine::JobLanes::Scratch lanes_scratch = lanes.scratch();
    const auto few = std::span(job.inputs).first(std::min<std::size_t>(8, job.inputs.size()));
    const engine::LaneReader few_reader(plan, few, job.answers);
    const auto few_scratch = few_reader.scratch();

    const auto time = [&](bool stream, auto run) {
        return nanoseconds(
            streamed, 5, [&] { points.each_batch(stream, run); });
    };
    const auto by_hand = [&](const double* const* in) {
        compiled(batch, in, theirs.out.data(), native, &searches);
    };
    const auto by_lanes = [&](const double* const* in) {
        reader.run(batch, in, ours.out.data(), *scratch);
    };
    const auto by_checked = [&](const double* const* in) {
        lanes.run(batch, in, checked.out.data(), lanes_scratch);
    };
    const auto by_few = [&](const double* const* in) {
        few_reader.run(batch, in, checked.out.data(), *few_scratch);
    };
    const double hand = time(false, by_hand);
    fmt::print("\n{}: {} givens swing, {} instructions, {} searches\n  {:<46}{:>9}{:>9}{:>12}\n",
               number, job.inputs.size(), reader.size().instructions, searches.list.size(), "",
               "in cache", "ratio", "streamed");
    row("straight code, -Ofast for this machine", hand, time(true, by_hand), hand);
    row("lane reader", time(false, by_lanes), time(true, by_lanes), hand);
    row("the same with every check, as risk reads it", time(false, by_checked),
        time(true, by_checked), hand);
    row("lane reader, the first 8 givens alone", time(false, by_few), time(true, by_few), hand);
    points.each_batch(true, by_hand);
    points.each_batch(true, by_lanes);
    fmt::print("  answers differ by {:.1e}\n", worst_difference(ours, theirs));
}

} // namespace

int main() {
    struct Compiled {
        const char *number, *file, *module;
    };
    fmt::print("Nanoseconds of the processor for one job, one core\n");
    for (const auto& [number, file, module] : {ACREWRIGHT_COMPILED_JOBS}) {
        void* handle = dlopen(module, RTLD_NOW | RTLD_LOCAL);
        if (handle == nullptr) {
            fmt::print(stderr, "{}\n", dlerror());
            return 1;
        }
        measure(number, file, reinterpret_cast<bench::CompiledJob>(dlsym(handle, "job")));
    }
}
