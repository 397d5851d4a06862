#include "cli/command.h"
#include "cli/job.h"
#include "cli/json/price_json.h"
#include "cli/text/price_text.h"
#include "engine/estimate.h"

namespace acre::cli {

int price_command(Words words, Console& console) {
    JobArguments arguments;
    PricePage page;
    Arguments line("price",
                   "What a job costs and what to charge for it: the price, how it is made up, the costs as rate times quantity, and what "
                   "to mind. A model by itself is priced with its own values.",
                   "acrewright price examples/01-first-price.job --set area='120 ac'");
    arguments.declare(line);
    line.flag("--names", "names of lines, as `explain` takes them, instead of their labels", page.names);
    line.flag("--quantities", "all quantities, those of used models too", page.all_quantities);
    if (const auto code = line.read(words, console)) {
        return *code;
    }
    int code = exit_done;
    const auto job = open_job(arguments, console, code);
    if (!job) {
        return code;
    }
    const auto estimate = engine::estimate(*job->sheet, *job->compiled, job->values, job->sources, job->diagnostics);
    code = report(job->diagnostics, job->sources, console);
    if (!estimate || code != exit_done) {
        return code;
    }
    page.color = console.color_out;
    console.out += arguments.json ? price_json(*job->sheet, *job->compiled, job->values, *estimate, job->sources)
                                  : price_text(*job->sheet, *estimate, job->sources, page);
    return exit_done;
}

} // namespace acre::cli
