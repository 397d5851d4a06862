// grid: lines of a job over one, two or three givens.
#include <algorithm>
#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/grid/grid_page.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/words.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

struct GridArguments {
    JobArguments job;
    std::vector<std::string> along, lines;
    std::string svg;
    bool csv = false, names = false;
};

int ask(const GridArguments& arguments, Console& console) {
    int code = exit_done;
    const auto job = open_judged(arguments.job, arguments.lines, console, code);
    if (!job)
        return code;
    const lang::Sheet& sheet = job->sheet();
    GridPage page;
    page.job = job.get();
    page.names = arguments.names;
    page.color = console.color_out;
    std::string reason;
    std::size_t cells = 1;
    for (const std::string& text : arguments.along) {
        if (!read_axis(text, sheet, page.axes.emplace_back(), reason))
            return refuse("`--along`: " + reason, console);
        cells = std::min(cells, engine::max_grid_cells + 1) * page.axes.back().at.size();
    }
    if (!arguments.csv && !arguments.job.json && arguments.along.size() <= engine::max_grid_axes &&
        cells <= engine::max_grid_cells && cells > max_table_cells)
        return refuse(engine::Refusal{lang::number_text(static_cast<double>(cells)) +
                                          " cells are too many for a table",
                                      {"take them as --csv or --json"}},
                      console);
    engine::GridQuestion question;
    for (const AxisWords& axis : page.axes)
        question.along.push_back({axis.given, axis.at});
    for (const std::string& line : arguments.lines)
        question.lines.push_back(line);
    engine::Refusal refusal;
    auto grid = engine::grid(*job, question, refusal);
    if (!grid)
        return refuse(refusal, console);
    page.grid = std::move(*grid);
    if (!arguments.svg.empty()) {
        std::string svg;
        if (!grid_svg(page, svg, reason))
            return refuse(reason, console);
        if (!save(arguments.svg, svg, console))
            return exit_file;
    }
    console.out += arguments.job.json ? grid_json(page)
                   : arguments.csv    ? grid_csv(page)
                                      : grid_text(page);
    return exit_done;
}

} // namespace

int grid_command(Words words, Console& console) {
    GridArguments arguments;
    Arguments line("grid",
                   "Lines of a job at every place of one, two or three givens: one given runs down "
                   "and the lines across, two run down and "
                   "across, a third turns the pages.",
                   "acrewright grid examples/01-first-price.job --along \"depth=4 ft..6 ft by 1 "
                   "ft\" --along \"spacing=5 ft,6 ft,7 ft\"");
    arguments.job.declare(line);
    line.option("--along", "GIVEN=PLACES",
                "\"depth=4 ft,5 ft\", \"run=300 ft..1,500 ft by 300 ft\", "
                "\"method=one_way,crossed\"; may be repeated",
                arguments.along);
    line.option("--of", "LINE", "a line to show (the price per unit); may be repeated",
                arguments.lines);
    line.option("--svg", "FILE",
                "writes curves over one given, or shaded cells over more, as a picture",
                arguments.svg);
    line.flag("--csv", "one row a cell, as CSV", arguments.csv);
    line.flag("--names", "names of lines, as --set takes them, instead of their labels",
              arguments.names);
    if (const auto code = line.read(words, console))
        return *code;
    if (arguments.along.empty())
        return refuse("`grid` needs `--along GIVEN=PLACES`", console);
    return ask(arguments, console);
}

} // namespace acre::cli
