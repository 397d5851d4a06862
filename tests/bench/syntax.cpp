// Reading a text, stage by stage, beside the cheapest thing that can be done with one: counting its
// line ends.
#include <algorithm>
#include <cstring>
#include <ctime>
#include <malloc.h>
#include <string>

#include <fmt/format.h>

#include "lang/syntax/characters.h"
#include "lang/syntax/layout.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/tidy.h"

namespace {

using namespace acre;

constexpr double goal =
    500'000; // lines a second of parse, so that the whole front end can do 200,000
constexpr std::size_t thousand = 1'000;

// Statements as people write them: some 75 bytes a line, with comments, clauses and a table.
std::string generated_model(std::size_t lines) {
    std::string text = "model \"Generated\"\n";
    for (std::size_t i = 0; i + 8 <= lines; i += 8)
        text += fmt::format(
            "part \"Part {0}\"\n"
            "  given area_{0} = {0}.5 ac  \"net acres\"  within 0.1 ac .. 10,000 ac  swing 70 ac "
            ".. 90 ac  because \"county map\"\n"
            "  given speed_{0} : mi/h = min(pull_speed, top_speed * 85 %)  \"speed\"\n"
            "  # the way in the ground, both directions\n"
            "  travel_{0} : mi = area_{0} / spacing * directions  \"travel\"  # in the ground\n"
            "  hours_{0} : h = when method is tree_rows then travel_{0} / speed_{0} otherwise "
            "(travel_{0} + turns * 12.5 ft) / speed_{0}\n"
            "  cost fuel_{0} : $/h = burn * $4.35/gal * (1 + dust_share) over hours_{0}  \"fuel\"\n"
            "  require spacing <= 2 * depth  \"lines this far apart leave a strip unbroken\"\n",
            i);
    return text;
}

// Seconds of the processor, so that busy neighbours do not count.
template <typename F> double best_of(int times, F run) {
    double best = 1e9;
    for (int i = 0; i < times; ++i) {
        timespec start{}, end{};
        clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &start);
        run();
        clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &end);
        best = std::min(best, static_cast<double>(end.tv_sec - start.tv_sec) +
                                  1e-9 * static_cast<double>(end.tv_nsec - start.tv_nsec));
    }
    return best;
}

std::size_t count_lines(std::string_view text) {
    std::size_t lines = 0;
    const char* end = text.data() + text.size();
    for (const char* p = text.data();
         (p = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)))) !=
         nullptr;
         ++p)
        ++lines;
    return lines;
}

struct Figures {
    double parse = 0;
    std::size_t lines = 0;
    std::size_t bytes = 0; // of the tree
};

Figures measure(const std::string& text, bool show) {
    lang::SourceMap sources;
    const lang::FileId file = sources.add("generated.rate", text);
    Figures f;
    volatile std::size_t sink = 0;
    const double counting = best_of(
        40, [&] { sink = f.lines = count_lines(text); });
    const double characters =
        best_of(20, [&] { sink = lang::scan_characters(text).unwanted.size(); });
    lang::Diagnostics diagnostics;
    const double layout = best_of(
        20,
        [&] {
            sink = lang::lay_out(sources, file, lang::FileKind::Model, diagnostics).lines.size();
        });
    const double first = best_of(
        1,
        [&] {
            sink = lang::parse(sources, file, lang::FileKind::Model, diagnostics).statements.size();
        });
    f.parse = best_of(
        20,
        [&] {
            sink = lang::parse(sources, file, lang::FileKind::Model, diagnostics).statements.size();
        });
    const double tidied = best_of(
        10, [&] { sink = lang::tidy(sources, file, lang::FileKind::Model, diagnostics)->size(); });
    const std::size_t before = mallinfo2().uordblks + mallinfo2().hblkhd;
    const lang::ast::Module module = lang::parse(sources, file, lang::FileKind::Model, diagnostics);
    f.bytes = mallinfo2().uordblks + mallinfo2().hblkhd - before;
    if (diagnostics.has_errors())
        fmt::print(stderr, "the generated model has errors\n");
    if (!show)
        return f;
    const auto row = [&](const char* what, double seconds) {
        fmt::print("{:<22} {:>8.3f} ms {:>12.0f} lines/s {:>8.0f} MB/s {:>8.1f} x counting\n", what,
                   seconds * 1e3, static_cast<double>(f.lines) / seconds,
                   static_cast<double>(text.size()) / seconds / 1e6, seconds / counting);
    };
    fmt::print("a model of {} lines, {} bytes\n", f.lines, text.size());
    row("counting line ends", counting);
    row("looking at characters", characters);
    row("layout, characters too", layout);
    row("parse, the first time", first); // the system has to find memory
    row("parse, in warm memory", f.parse);
    row("tidy, parse too", tidied);
    fmt::print("parse: {:.2f} of the goal of {:.0f} lines/s; tree: {:.0f} bytes a line\n",
               static_cast<double>(f.lines) / f.parse / goal, goal,
               static_cast<double>(f.bytes) / static_cast<double>(f.lines));
    return f;
}

} // namespace

int main() {
    // Memory that is given back stays in the process, so that long and short texts are measured
    // alike.
    mallopt(M_MMAP_THRESHOLD, 1 << 30);
    mallopt(M_TRIM_THRESHOLD, 1 << 30);
    const Figures base = measure(generated_model(10 * thousand), true);
    for (const std::size_t factor : {std::size_t{4}, std::size_t{16}}) {
        const Figures longer = measure(generated_model(10 * thousand * factor), false);
        fmt::print("{} times the lines: {:.2f} times the time, {:.2f} times the memory\n", factor,
                   longer.parse / base.parse,
                   static_cast<double>(longer.bytes) / static_cast<double>(base.bytes));
    }
    // every line wrong: a text of errors must not be much slower than one without
    std::string wrong = "model \"m\"\n";
    for (std::size_t i = 0; i < 10 * thousand; ++i)
        wrong += "x : 1 = a * (b +\n";
    lang::SourceMap sources;
    const lang::FileId file = sources.add("wrong.rate", wrong);
    const double seconds = best_of(10, [&] {
        lang::Diagnostics diagnostics;
        lang::parse(sources, file, lang::FileKind::Model, diagnostics);
    });
    fmt::print("{:<22} {:>8.3f} ms {:>12.0f} lines/s\n", "every line wrong", seconds * 1e3,
               1e4 / seconds);
}
