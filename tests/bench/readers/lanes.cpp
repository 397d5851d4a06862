// The lane reader beside the same model by hand, in cache, on one core.
#include <cmath>
#include <random>
#include <span>

#include <dlfcn.h>

#include <fmt/format.h>

#include "engine/readers/lanes.h"
#include "engine/readers/lanes/kernels.h"
#include "tests/bench/readers/model.h"
#include "tests/bench/readers/rip_native.h"
#include "tests/bench/readers/rivals.h"

namespace acre::bench {
namespace {

constexpr int times = 1000;
constexpr std::size_t lanes = engine::lanes_per_run;
// Eight that move from job to job, and eight that move from season to season.
constexpr Given by_job[] = {area, run, speed, clay, moisture, turn, haul, fuel_price};
constexpr Given by_season[] = {fuel_price, wage,      machine_price, interest,
                               point_life, haul_rate, speed,         margin_share};

Rival module(const char* path) {
    // Its own function library first, whatever this program is linked with.
    void* handle = dlopen(path, RTLD_NOW | RTLD_LOCAL | RTLD_DEEPBIND);
    return handle == nullptr ? nullptr : reinterpret_cast<Rival>(dlsym(handle, "rip_fast_loops"));
}

double worst_difference(Columns& a, Columns& b) {
    double worst = 0;
    for (std::size_t k = 0; k < answer_count; ++k)
        for (std::size_t i = 0; i < lanes; ++i)
            worst = std::max(worst, std::fabs(a[k][i] / b[k][i] - 1));
    return worst;
}

struct Row {
    std::string name;
    double ns;
    double worst;
};

// Of reading with so few givens that vary.
double part_nanoseconds(Model& model, Columns& in, Columns& out, std::span<const Given> varied) {
    std::vector<std::uint32_t> some;
    std::vector<const double*> columns;
    for (const Given k : varied) {
        some.push_back(model.inputs[k]);
        columns.push_back(in.in()[k]);
    }
    const engine::LaneReader reader(model.plan(), some, model.answers);
    const auto scratch = reader.scratch();
    return best_of(times / 4, [&] { reader.run(lanes, columns.data(), out.out(), *scratch); }) /
           lanes * 1e9;
}

// The mean of forty draws of eight givens.
double drawn_nanoseconds(Model& model, Columns& in, Columns& out) {
    std::mt19937 random(1);
    std::vector<Given> shuffled;
    for (std::size_t k = 0; k < given_count; ++k)
        shuffled.push_back(static_cast<Given>(k));
    double sum = 0;
    constexpr int draws = 40;
    for (int k = 0; k < draws; ++k) {
        std::shuffle(shuffled.begin(), shuffled.end(), random);
        sum += part_nanoseconds(model, in, out, std::span(shuffled).first(8));
    }
    return sum / draws;
}

void print(const Model& model, const std::vector<Row>& rows, std::size_t first_rival) {
    fmt::print(
        "\nOne job, in batches of {} that stay in cache, one core\n{:<58}{:>10}{:>8}{:>12}\n",
        lanes, "", "ns a job", "ratio", "differs by");
    for (const Row& row : rows)
        fmt::print("{:<58}{:>10.2f}{:>8.2f}{:>12.1e}\n", row.name, row.ns,
                   row.ns / rows[first_rival].ns, row.worst);
    const engine::LaneReader reader(model.plan(), model.inputs, model.answers);
    fmt::print("ratio: to explicit vectors. Plan of {} operations, {} instructions a batch\n",
               model.plan().size(), reader.size().instructions);
    const double by_hand = rows[first_rival].ns;
    fmt::print("batch to explicit vectors {:.2f} (1.3 wanted); to a plain loop -O3 {:.2f} (1 "
               "wanted); 8 of 25 to all by hand {:.2f}, {:.2f}, {:.2f} (0.6 wanted)\n",
               rows[0].ns / by_hand, rows[0].ns / rows[first_rival + 1].ns,
               rows[first_rival - 3].ns / by_hand, rows[first_rival - 2].ns / by_hand,
               rows[first_rival - 1].ns / by_hand);
}

} // namespace

double lane_nanoseconds(Model& model) {
    Columns in(given_count, lanes), out(answer_count, lanes);
    draw_givens(model, in, lanes);
    const engine::LaneReader reader(model.plan(), model.inputs, model.answers);
    const auto scratch = reader.scratch();
    return best_of(times, [&] { reader.run(lanes, in.in(), out.out(), *scratch); }) / lanes * 1e9;
}

void measure_lanes(Model& model) {
    Columns in(given_count, lanes), ours(answer_count, lanes), theirs(answer_count, lanes);
    draw_givens(model, in, lanes);
    std::vector<Row> rows;
    const auto rival = [&](const std::string& name, Rival run) {
        if (run == nullptr)
            return;
        const double ns = best_of(times, [&] { run(lanes, in.in(), theirs.out()); }) / lanes * 1e9;
        rows.push_back({name, ns, worst_difference(ours, theirs)});
    };
    for (const engine::lanes::KernelSet* set : engine::lanes::kernel_sets()) {
        const engine::LaneReader reader(model.plan(), model.inputs, model.answers, {}, set->bits);
        const auto scratch = reader.scratch();
        const double ns =
            best_of(times, [&] { reader.run(lanes, in.in(), ours.out(), *scratch); }) / lanes * 1e9;
        rows.push_back({fmt::format("lane reader, all 25 varied, {}", set->name), ns, 0});
    }
    rows.push_back({"lane reader, 8 of 25: what moves from job to job",
                    part_nanoseconds(model, in, theirs, by_job), 0});
    rows.push_back({"lane reader, 8 of 25: what moves from season to season",
                    part_nanoseconds(model, in, theirs, by_season), 0});
    rows.push_back({"lane reader, 8 of 25: mean of forty draws of eight",
                    drawn_nanoseconds(model, in, theirs), 0});
    const std::size_t first_rival = rows.size();
    rival(fmt::format("by hand, explicit vectors ({}), same library", vector_name()), rip_vectors);
    rival("by hand, plain loop, -O3", rip_loops);
    rival("by hand, plain loop, -Ofast, same library", module(ACREWRIGHT_RIP_SLEEF));
    rival("by hand, plain loop, -Ofast, glibc's vector library", module(ACREWRIGHT_RIP_GLIBC));
    print(model, rows, first_rival);
}

} // namespace acre::bench
