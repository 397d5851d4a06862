// The readers of the plan side by side with the same model written by hand and with general-purpose
// evaluators, in one run.
#include <cstdio>
#include <locale>

#include <fmt/format.h>

#include "tests/bench/readers/model.h"

int main() {
    using namespace acre::bench;
    struct Grouped : std::numpunct<char> {
        char do_thousands_sep() const override { return ','; }
        std::string do_grouping() const override { return "\3"; }
    };
    std::locale::global(std::locale(std::locale(), new Grouped)); // ten million reads as 10,000,000
    Model model = open_model();
    fmt::print("rip.rate: {} lines, {} givens varied, text to plan in {:.3f} ms (1 wanted)\n",
               model.job->sheet().lines.size(), model.inputs.size(), model.compile_seconds * 1e3);
    measure_lanes(model);
    measure_slopes(model);
    measure_trials(model);
    measure_others(model, lane_nanoseconds(model));
}
