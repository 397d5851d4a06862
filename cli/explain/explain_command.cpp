#include "engine/faults/faults.h"
#include "engine/questions/explain.h"

#include "cli/command.h"
#include "cli/explain/explain_json.h"
#include "cli/explain/explain_text.h"
#include "cli/shared/legacy.h"
#include "lang/diag/safe_text.h"
#include "lang/diag/suggest.h"

namespace acre::cli {

namespace {

constexpr std::uint32_t deepest =
    400; // of a tree that is drawn; the formulas below are a command away

int no_such_line(const lang::Sheet& sheet, const std::string& name, Console& console) {
    std::vector<std::string_view> names;
    for (const lang::Line& line : sheet.lines)
        names.push_back(line.name);
    console.err += "acrewright: the job has no line `" + lang::terminal_text(name) + "`";
    const auto near = lang::near_names(name, names);
    for (std::size_t i = 0; i < near.size(); ++i)
        console.err += (i == 0 ? "; near ones are `" : ", `") + lang::terminal_text(near[i]) + "`";
    console.err += "\n`acrewright price JOB --names` shows the names of its costs and quantities\n";
    return exit_usage;
}

} // namespace

int explain_command(Words words, Console& console) {
    JobArguments arguments;
    std::string name;
    std::uint32_t depth = deepest;
    Arguments line(
        "explain",
        "How a line of a job came about: its formula as written, the same with numbers, and below "
        "it every line it rests on, down to "
        "the givens, with who set each and because of what. Without LINE the whole price.",
        "acrewright explain examples/01-first-price.job price.per_unit --depth 3");
    arguments.declare(line);
    line.positional("LINE", "the name of a line: fuel.amount, crawler.fuel, price.total", name,
                    false);
    line.option("--depth", "N", "shows no more than N levels below the line", depth);
    if (const auto code = line.read(words, console))
        return *code;
    int code = exit_done;
    const auto job = open_job(arguments, console, code);
    if (!job)
        return code;
    const lang::Sheet& sheet = job->sheet();
    const lang::LineId id = name.empty() ? sheet.price_total : sheet.find(name);
    if (id == lang::none)
        return no_such_line(sheet, name.empty() ? "price.total" : name, console);
    lang::Said said{job->diagnostics(), job->shared_sources()};
    engine::report_faults(*job, std::span(&id, 1), said.diagnostics);
    code = report(said, console);
    if (code != exit_done)
        return code;
    const engine::Step step = engine::explain(*job, id, {std::min(depth, deepest)});
    console.out += arguments.json ? explain_json(step) : explain_text(step, console.color_out);
    return exit_done;
}

} // namespace acre::cli
