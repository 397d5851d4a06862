#include "engine/questions/explain.h"

#include <optional>

#include "cli/command.h"
#include "cli/explain/explain_json.h"
#include "cli/explain/explain_text.h"
#include "cli/shared/job.h"
#include "cli/shared/text/page.h"
#include "engine/questions/subject.h"

namespace acre::cli {

Reply explain_command(Words words, Console& console) {
    JobArguments arguments;
    engine::ExplainQuestion question;
    Arguments line(
        "explain",
        "Shows where a figure comes from: its formula as written, the same with numbers, "
        "and below it every line it depends on, down to the givens, with who set each and "
        "why. Without LINE it explains the whole price.",
        "acrewright explain examples/01-first-price.job price.per_unit --depth 3");
    arguments.declare(line);
    line.positional("LINE",
                    "the name of a line, such as fuel.amount, crawler.fuel or price.total; "
                    "`price JOB --names` shows them",
                    question.line, false);
    line.option("--depth", "N", "shows no more than N levels below the line", question.depth);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const lang::Outcome<engine::Job> job = open_job(arguments);
    if (!job)
        return of_the_price(job.said);
    const lang::Outcome<engine::ExplainStep> step = engine::ask(**job, question);
    Reply reply(of_the_price(step.said));
    if (!step)
        return reply;
    std::optional<engine::ChangedFigure> changed;
    if (const lang::Outcome<engine::Job> before = open_without_sets(arguments))
        changed = engine::changed_line(**before, **job, step->name);
    if (arguments.json)
        reply.document = explain_json(*step, changed);
    else
        reply.page =
            (engine::is_priced(**job) ? not_for_the_customer(console.color_out) + "\n" : "") +
            (changed ? changed_text(*changed, console.color_out) : "") +
            explain_text(*step, console.color_out);
    return reply;
}

} // namespace acre::cli
