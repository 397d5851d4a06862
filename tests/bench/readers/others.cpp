// General-purpose evaluators that Debian packages, where they are installed: the same model, the
// same points.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <string>

#include <unistd.h>

#include <fmt/format.h>

#include "engine/readers/lanes.h"
#include "tests/bench/readers/model.h"
#include "tests/bench/readers/rip_native.h"

#ifdef ACREWRIGHT_MUPARSER
#include <muParser.h>
#endif

namespace acre::bench {
namespace {

constexpr std::size_t lanes = 64 * engine::lanes_per_run;

struct Row {
    double ns = 0, sum = 0;
};

bool ask(const std::string& command, Row& row) {
    std::FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr)
        return false;
    const bool read = std::fscanf(pipe, "%lf %lf", &row.ns, &row.sum) == 2;
    return pclose(pipe) == 0 && read;
}

#ifdef ACREWRIGHT_MUPARSER
double dust_ceiling(double x) {
    const double whole = std::floor(x), dust = std::min(std::max(1e-9 * std::fabs(x), 1e-9), 1e-3);
    return x - whole > dust ? whole + 1 : whole;
}

Row with_muparser(Columns& in) {
    // Its expressions know assignment, so the model is one expression of steps.
    static double variable[64];
    mu::Parser parser;
    for (std::size_t k = 0; k < given_count; ++k)
        parser.DefineVar(given_name[k], &variable[k]);
    std::size_t next = given_count;
    for (const char* name :
         {"pulls", "pull", "drawbar", "going", "loaded", "burn", "kept", "worth", "after", "owning",
          "repair", "pull_time", "hours", "idle", "crew", "grit", "trips", "cost", "bite"})
        parser.DefineVar(name, &variable[next++]);
    parser.DefineFun("up", dust_ceiling);
    const char* text =
        "pulls = up(area * 43560 / (run * spacing)),"
        "bite = clay <= 5 ? 210 : clay < 15 ? 210 + (clay - 5) * 6 : clay < 25 ? 270 + (clay - 15) "
        "* 7.5 : clay < 35 ? 345 + (clay - 25) * "
        "8.5 : "
        "clay < 45 ? 430 + (clay - 35) * 9 : clay < 60 ? 520 + (clay - 45) * 6 : 610,"
        "pull = bite * (moisture > 18 ? 1.18 : moisture < 8 ? 1.25 : 1 + ((13 - moisture) / 100) ^ "
        "2 * 4) * depth * 12 * (depth / 3) ^ "
        "1.28,"
        "drawbar = power * 0.72 * (1 - slip / 100),"
        "going = min(speed, drawbar * 375 / pull),"
        "loaded = max(0.25, min(1, pull * going / (drawbar * 375))),"
        "burn = power * 0.052 * loaded * (0.9 + 0.35 * loaded - 0.21 * sqrt(0.6 * loaded + 0.1)),"
        "kept = max(0.08, (1.02 - 0.09 * sqrt(age) - 0.0011 * sqrt(use_hours)) ^ 2),"
        "worth = machine_price * kept,"
        "after = machine_price * max(0.07, kept * exp(-0.11)),"
        "owning = (worth - after + (worth + after) / 2 * (interest + insurance) / 100) / use_hours,"
        "repair = machine_price * 0.0034 * (((age * use_hours + use_hours) / 1000) ^ 1.62 - (age * "
        "use_hours / 1000) ^ 1.62) / use_hours,"
        "pull_time = pulls * run / 5280 / going,"
        "hours = (pull_time + pulls * turn / 60) * (1 + 0.06 * ln(1 + pull_time / 10)),"
        "idle = up(hours / shift_hours) * shift_hours - hours,"
        "crew = wage * (1 + burden / 100),"
        "grit = clay > 40 && moisture < 12 ? 1.35 : clay > 40 || depth > 6 ? 1.15 : 1,"
        "trips = area > 400 ? 2 : 1,"
        "cost = (burn * fuel_price * 1.12 + owning + repair + 420 * grit / point_life + "
        "shank_price / (point_life / grit * 14 * (3 / "
        "depth) ^ 0.6) + "
        "crew * (1 + 0.5 * max(0, shift_hours - 8) / shift_hours)) * hours + crew * 0.6 * idle + "
        "180 * trips + haul_rate * haul * 2 * "
        "trips,"
        "max(6500, cost * (1 + overhead_share / 100) / (1 - margin_share / 100)) / area";
    parser.SetExpr(text);
    Row row;
    row.ns = best_of(10,
                     [&] {
                         row.sum = 0;
                         for (std::size_t i = 0; i < lanes; ++i) {
                             for (std::size_t k = 0; k < given_count; ++k)
                                 variable[k] = in.in()[k][i];
                             row.sum += parser.Eval();
                         }
                     }) /
             lanes * 1e9;
    return row;
}
#endif

} // namespace

void measure_others(Model& model, double lane_nanoseconds) {
    Columns in(given_count, lanes), out(answer_count, lanes);
    draw_givens(model, in, lanes);
    const engine::LaneReader reader(model.plan(), model.inputs, model.answers);
    const auto scratch = reader.scratch();
    double expected = 0;
    for (std::size_t from = 0; from < lanes; from += engine::lanes_per_run) {
        std::vector<const double*> columns;
        std::vector<double*> answers;
        for (std::size_t k = 0; k < given_count; ++k)
            columns.push_back(in.in()[k] + from);
        for (std::size_t k = 0; k < answer_count; ++k)
            answers.push_back(out.out()[k] + from);
        reader.run(engine::lanes_per_run, columns.data(), answers.data(), *scratch);
    }
    for (const double y : out[2])
        expected += y;

    std::string path = "/tmp/acrewright-points-XXXXXX";
    const int file = mkstemp(path.data());
    if (file < 0)
        return;
    close(file);
    std::ofstream(path, std::ios::binary)
        .write(reinterpret_cast<const char*>(in.in()[0]),
               static_cast<std::streamsize>(given_count * lanes * 8));

    fmt::print("\nThe same model and points in general-purpose evaluators, one "
               "core\n{:<58}{:>10}{:>8}{:>12}\n",
               "", "ns a job", "ratio", "differs by");
    const auto show = [&](const char* name, const Row& row) {
        fmt::print("{:<58}{:>10.1f}{:>8.1f}{:>12.1e}\n", name, row.ns, row.ns / lane_nanoseconds,
                   std::fabs(row.sum / expected - 1));
    };
    show("lane reader, all 25 varied", {lane_nanoseconds, expected});
    struct Other {
        const char *name, *command;
    };
    const Other others[] = {{"LuaJIT", "luajit " ACREWRIGHT_ROOT "/tests/bench/readers/rip.lua"},
                            {"NumPy (32,768 jobs at a time)",
                             "/usr/bin/python3 " ACREWRIGHT_ROOT "/tests/bench/readers/rip.py"},
                            {"R (32,768 jobs at a time)",
                             "Rscript --vanilla " ACREWRIGHT_ROOT "/tests/bench/readers/rip.R"}};
    for (const Other& other : others) {
        Row row;
        if (ask(fmt::format("{} {} {} 2>/dev/null", other.command, path, lanes), row))
            show(other.name, row);
        else
            fmt::print("{:<58}{:>10}\n", other.name, "not here");
    }
#ifdef ACREWRIGHT_MUPARSER
    show("muParser, one job at a time", with_muparser(in));
#else
    fmt::print("{:<58}{:>10}\n", "muParser", "not here");
#endif
    unlink(path.c_str());
}

} // namespace acre::bench
