// grid: lines of a job over one, two or three givens.
#include <algorithm>
#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/grid/grid_page.h"
#include "cli/shared/arguments.h"
#include "cli/shared/axis_words.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

struct GridArguments {
    JobArguments job;
    std::vector<std::string> along, lines;
    std::string svg;
    bool csv = false, names = false;
};

// Every `--along` in the question; refused when it is too much for a table.
lang::Outcome<engine::GridQuestion> read_question(const GridArguments& arguments,
                                                  const engine::PricedJob& job) {
    engine::GridQuestion question;
    question.lines = arguments.lines;
    question.names = arguments.names;
    std::size_t cells = 1;
    for (const std::string& text : arguments.along) {
        lang::Outcome<AxisWords> axis = read_axis(text, job, "`--along`: ");
        if (!axis)
            return std::move(axis.said);
        cells = std::min(cells, engine::max_grid_cells + 1) * axis->at.size();
        question.along.push_back({axis->given.name, std::move(axis->at)});
    }
    const bool table = !arguments.csv && !arguments.job.json;
    if (table && arguments.along.size() <= engine::max_grid_axes &&
        cells <= engine::max_grid_cells && cells > max_table_cells)
        return lang::placeless(lang::Code::Q006,
                               lang::number_text(static_cast<double>(cells)) +
                                   " cells are too many for a table",
                               {}, {"use --csv or --json"});
    return question;
}

Reply ask(const GridArguments& arguments, bool color) {
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    if (!job)
        return of_the_price(job.said);
    const lang::Outcome<engine::GridQuestion> question = read_question(arguments, **job);
    if (!question)
        return question.said;
    const lang::Outcome<engine::GridAnswer> grid = engine::ask(**job, *question);
    Reply reply;
    reply.said.push_back(of_the_price(grid.said));
    if (!grid)
        return reply;
    if (!arguments.svg.empty()) {
        const lang::Outcome<std::string> svg = grid_svg(*grid);
        if (!svg)
            return svg.said;
        if (!save(arguments.svg, *svg, reply))
            return reply;
    }
    if (arguments.job.json)
        reply.document = grid_json(*grid);
    else
        reply.page = arguments.csv ? grid_csv(*grid) : grid_text(*grid, color);
    return reply;
}

} // namespace

Reply grid_command(Words words, Console& console) {
    GridArguments arguments;
    Arguments line("grid",
                   "Shows lines of a job over the values of one, two or three givens. One given "
                   "runs down, with the lines across; of two, one runs down and one across; a "
                   "third makes a table for each of its values.",
                   "acrewright grid examples/01-first-price.job --along \"depth=4 ft..6 ft by 1 "
                   "ft\" --along \"spacing=5 ft,6 ft,7 ft\"");
    arguments.job.declare(line);
    line.option("--along", "GIVEN=VALUES",
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
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.along.empty())
        return lang::placeless(lang::Code::C004, "`grid` needs `--along GIVEN=VALUES`");
    return ask(arguments, console.color_out);
}

} // namespace acre::cli
