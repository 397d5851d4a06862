// sensitivity: what moves a line, by slope and by swing.
#include <algorithm>
#include <string>

#include "cli/command.h"
#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/watch.h"
#include "cli/shared/words.h"

namespace acre::cli {

std::optional<SensitivityPage> ask_sensitivity(const engine::PricedJob& job,
                                               const std::string& line, engine::Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    auto of = engine::sensitivity(job, line, refusal);
    if (!of)
        return std::nullopt;
    SensitivityPage page;
    page.job = &job;
    page.of = std::move(*of);
    const bool is_price = page.of.line == sheet.price_per_unit || page.of.line == sheet.price_total;
    const bool rounded =
        std::any_of(sheet.prices.begin(), sheet.prices.end(), [](const lang::PriceItem& item) {
            return std::any_of(item.steps.begin(), item.steps.end(),
                               [](const lang::PriceStep& step) {
                                   return step.kind == lang::ast::StepKind::RoundUp ||
                                          step.kind == lang::ast::StepKind::RoundTo;
                               });
        });
    if (is_price && rounded)
        page.of_cost = engine::sensitivity(job, sheet.lines[sheet.cost_total].name, refusal);
    return page;
}

namespace {

struct SensitivityArguments {
    JobArguments job;
    std::string line, svg;
    bool names = false, all = false, watch = false;
};

Reply ask(const SensitivityArguments& arguments, Console& console) {
    Reply answer;
    std::vector<std::string> lines;
    if (!arguments.line.empty())
        lines.push_back(arguments.line);
    const auto job = open_judged(arguments.job, lines, console, answer.verdict, &answer.files);
    if (!job)
        return answer;
    engine::Refusal refusal;
    auto page = ask_sensitivity(*job, arguments.line, refusal);
    if (!page) {
        answer.verdict = refuse(refusal, console);
        return answer;
    }
    page->names = arguments.names;
    page->all = arguments.all;
    page->color = console.color_out;
    if (!arguments.svg.empty() && !save(arguments.svg, sensitivity_svg(*page), console)) {
        answer.verdict = exit_file;
        return answer;
    }
    answer.page = arguments.job.json ? sensitivity_json(*page) : sensitivity_text(*page);
    answer.figures.push_back({called_asked(page->sheet(), page->of.line, arguments.names),
                              page->of.unit, page->of.value});
    for (const engine::Effect* effect : swinging(*page))
        answer.figures.push_back(
            {"swing of " + page->name_of(*effect), page->of.unit, effect->width(page->of.value)});
    return answer;
}

} // namespace

Reply sensitivity_command(Words words, Console& console) {
    SensitivityArguments arguments;
    Arguments line("sensitivity",
                   "What moves a line: for each given what its swing or its choices do, its slope, "
                   "what one per cent of it does, the steps "
                   "and kinks nearby, and the givens that do not act alone.",
                   "acrewright sensitivity examples/01-first-price.job --of cost.total");
    arguments.job.declare(line);
    line.option("--of", "LINE", "the line that moves (the price per unit)", arguments.line);
    line.option("--svg", "FILE", "writes the bars as a picture", arguments.svg);
    line.flag("--names", "names of givens, as --set takes them, instead of their labels",
              arguments.names);
    line.flag("--all", "all givens, also those that move it little", arguments.all);
    line.flag("--watch", "answers again whenever a file it was made from changes, until Ctrl-C",
              arguments.watch);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.watch && arguments.job.path == "-")
        return lang::placeless(lang::Code::C004,
                               "`--watch` needs a file to watch, not standard input");
    return watched(arguments.watch, arguments.job.json, console,
                   [&] { return ask(arguments, console); });
}

} // namespace acre::cli
