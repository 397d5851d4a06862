// sensitivity: what moves a line, by slope and by swing.
#include <string>

#include "cli/command.h"
#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/shared/watch.h"
#include "cli/shared/words.h"

namespace acre::cli {
namespace {

struct SensitivityArguments {
    JobArguments job;
    engine::SensitivityQuestion question;
    std::string svg;
    SensitivityLook look;
    bool watch = false;
};

std::vector<Figure> figures(const engine::SensitivityAnswer& answer) {
    const std::string unit = answer.line.unit;
    std::vector<Figure> list = {{called(answer.line), unit, answer.value}};
    for (const std::size_t i : answer.by_swing)
        list.push_back({"swing of " + called(answer.effects[i].given), unit,
                        answer.effects[i].width(answer.value)});
    return list;
}

Reply ask(const SensitivityArguments& arguments) {
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    Reply reply;
    reply.files = files_of(arguments.job, job);
    if (!job) {
        reply.said.push_back(of_the_price(job.said));
        return reply;
    }
    const auto answer = engine::ask(**job, arguments.question);
    reply.said.push_back(of_the_price(answer.said));
    if (!answer)
        return reply;
    if (!arguments.svg.empty() &&
        !save(arguments.svg, sensitivity_svg(*answer, arguments.look), reply))
        return reply;
    if (arguments.job.json)
        reply.document = sensitivity_json(*answer);
    else
        reply.page = sensitivity_text(*answer, arguments.look);
    reply.figures = figures(*answer);
    return reply;
}

} // namespace

Reply sensitivity_command(Words words, Console& console) {
    SensitivityArguments arguments;
    Arguments line(
        "sensitivity",
        "Shows what moves a line: for each given, what its swing or its choices do, its slope, "
        "what 1 % more of it does, steps and kinks nearby, and inputs that interact.",
        "acrewright sensitivity examples/01-first-price.job --of cost.total");
    arguments.job.declare(line);
    line.option("--of", "LINE", "the line that moves (the price per unit)",
                arguments.question.line);
    line.option("--svg", "FILE", "writes the bars as a picture", arguments.svg);
    line.flag("--names", "names of givens, as --set takes them, instead of their labels",
              arguments.question.names);
    line.flag("--all", "all givens, even those that move it little", arguments.look.all);
    line.flag("--by-block", "also what the givens of each block do, added up",
              arguments.look.by_block);
    line.flag("--watch", "reruns when a file changes, until Ctrl-C", arguments.watch);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.watch && arguments.job.path == "-")
        return lang::placeless(lang::Code::C004,
                               "`--watch` needs a file to watch, not standard input");
    arguments.look.color = console.color_out;
    return watched(arguments.watch, arguments.job.json, console, [&] { return ask(arguments); });
}

} // namespace acre::cli
