// The front end on a generated model: parse, resolve, check and plan, in lines per second on one
// core, side by side with the goal of 200,000 lines a second; and the memory of a model twice and
// four times as long beside that of the first.
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <malloc.h>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/plan/compile_plan.h"
#include "lang/check/check.h"
#include "lang/check/resolve.h"
#include "lang/load_program.h"

namespace {

using namespace acre;
using Clock = std::chrono::steady_clock;

constexpr double goal = 200'000; // lines a second
constexpr int repeats = 25;      // the best of so many counts: the machine may be busy

class NoFiles : public lang::Loader {
  public:
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view) override {
        return lang::cannot_load(lang::Code::F701, kind, reference, "");
    }
};

// A third of the lines are givens with all their clauses, one in twenty is a cost, the rest are
// formulas of three or four names among those near above, as in a model that people write.
std::string generated_model(std::size_t lines) {
    std::string text = "model \"Generated\"\nnoun tree\n";
    unsigned state = 12345;
    std::vector<std::size_t> values;
    const auto pick = [&](std::size_t among) {
        return static_cast<std::size_t>((state = state * 1664525U + 1013904223U) >> 8U) % among;
    };
    const auto name = [&] {
        return fmt::format(
            "line_{}", values[values.size() - 1 - pick(std::min<std::size_t>(values.size(), 300))]);
    };
    for (std::size_t i = 2; i + 2 < lines; ++i) {
        if (i % 200 == 2) {
            text += fmt::format("part \"Part {}\"\n", i / 200);
            continue;
        }
        const std::size_t kind = pick(20);
        if (kind < 6 || values.size() < 4) {
            text += fmt::format("  given line_{} = {}.5 ac  \"area number {}\"  within 0 ac .. "
                                "10,000 ac  swing 10 ac .. 90 ac  because "
                                "\"county map\"\n",
                                i, 1 + pick(900), i);
        } else if (kind == 6) {
            text += fmt::format("  cost line_{} : $/ac = $4.35/ac over {}  \"cost {}\"\n", i,
                                name(), i);
            continue;
        } else {
            const std::string a = name(), b = name(), c = name();
            static constexpr const char* forms[] = {
                "{} + {} * 2 - {} / 3", "max({}, {}) + {} * 18 %",
                "when {} > {} then {} otherwise 12.5 ha", "({} + {}) * {} / (3 ac)"};
            text += fmt::format("  line_{} : ac = ", i) +
                    fmt::format(fmt::runtime(forms[pick(4)]), a, b, c) +
                    fmt::format("  \"line {}\"\n", i);
        }
        values.push_back(i);
    }
    return text + fmt::format("price \"All\" per ac of line_{}\n  overhead 9 %\n", values.front());
}

struct Times {
    double parse = 1e9, resolve = 1e9, check = 1e9, plan = 1e9;
    std::size_t bytes = 0; // kept by texts, sheet and plan
    double total() const { return parse + resolve + check + plan; }
};

double seconds(Clock::time_point from, Clock::time_point to) {
    return std::chrono::duration<double>(to - from).count();
}

Times measure(const std::string& text, int times) {
    Times best;
    for (int i = 0; i < times; ++i) {
        const std::size_t before = mallinfo2().uordblks + mallinfo2().hblkhd;
        const lang::Request request{"generated.rate", text, lang::FileKind::Model, "", {}, ""};
        NoFiles loader;
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        const auto start = Clock::now();
        const std::optional<lang::Program> program =
            lang::load_program(request, loader, sources, diagnostics);
        const auto parsed = Clock::now();
        lang::Sheet sheet = lang::resolve(*program, sources, diagnostics);
        const auto resolved = Clock::now();
        const std::optional<lang::CheckedSheet> checked =
            lang::check(std::move(sheet), sources, diagnostics);
        const auto proved = Clock::now();
        if (!checked) {
            fmt::print(stderr, "the generated model has errors\n");
            std::exit(1);
        }
        const std::optional<engine::Compiled> compiled =
            engine::compile_plan(*checked, diagnostics);
        const auto planned = Clock::now();
        best.parse = std::min(best.parse, seconds(start, parsed));
        best.resolve = std::min(best.resolve, seconds(parsed, resolved));
        best.check = std::min(best.check, seconds(resolved, proved));
        best.plan = std::min(best.plan, seconds(proved, planned));
        best.bytes = mallinfo2().uordblks + mallinfo2().hblkhd - before;
    }
    return best;
}

} // namespace

int main() {
    constexpr std::size_t lines = 10'000;
    const Times t = measure(generated_model(lines), repeats);
    const auto row = [&](const char* stage, double time) {
        fmt::print("{:<10} {:>7.2f} ms  {:>10.0f} lines/s  {:>5.2f} of the goal\n", stage,
                   time * 1e3, lines / time, lines / time / goal);
    };
    fmt::print("a model of {} lines\n", lines);
    row("parse", t.parse);
    row("resolve", t.resolve);
    row("check", t.check);
    row("plan", t.plan);
    row("together", t.total());
    for (const std::size_t factor : {std::size_t{2}, std::size_t{4}}) {
        const Times longer = measure(generated_model(lines * factor), repeats / 2);
        fmt::print("{} times the lines: {:.2f} times the memory, {:.2f} times the time\n", factor,
                   static_cast<double>(longer.bytes) / static_cast<double>(t.bytes),
                   longer.total() / t.total());
    }
    fmt::print("memory: {:.0f} bytes a line\n", static_cast<double>(t.bytes) / lines);
}
