#include "cli/command.h"
#include "cli/price/price_json.h"
#include "cli/price/price_text.h"
#include "cli/shared/job.h"
#include "cli/shared/watch.h"
#include "cli/shared/words.h"
#include "engine/questions/estimate.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

std::vector<Figure> figures(const engine::Estimate& estimate) {
    std::vector<Figure> list = {
        {"the price", "$", static_cast<double>(estimate.price_cents) / 100}};
    if (!estimate.per.empty()) {
        list.push_back({"the price all in", "$/" + lang::terminal_text(estimate.per),
                        estimate.price_per_unit});
    }
    list.push_back({"all costs", "$", estimate.cost_total});
    for (const engine::CostRow& cost : estimate.costs) {
        list.push_back(
            {lang::terminal_text(cost.label.empty() ? cost.name : cost.label), "$", cost.amount});
    }
    return list;
}

Answer ask(const JobArguments& arguments, PricePage page, Console& console) {
    Answer answer;
    const auto job = open_job(arguments, console, answer.code, &answer.files);
    if (!job)
        return answer;
    const auto estimate =
        engine::estimate(*job->sheet, *job->compiled, job->values, job->sources, job->diagnostics);
    answer.code = report(job->diagnostics, job->sources, console);
    if (!estimate || answer.code != exit_done)
        return answer;
    page.color = console.color_out;
    answer.page = arguments.json ? price_json(*job->sheet, *job->compiled, job->values, *estimate,
                                              job->sources)
                                 : price_text(*job->sheet, *estimate, job->sources, page);
    answer.figures = figures(*estimate);
    return answer;
}

} // namespace

int price_command(Words words, Console& console) {
    JobArguments arguments;
    PricePage page;
    bool watch = false;
    Arguments line("price",
                   "What a job costs and what to charge for it: the price, how it is made up, the "
                   "costs as rate times quantity, and what "
                   "to mind. A model by itself is priced with its own values.",
                   "acrewright price examples/01-first-price.job --set area='120 ac'");
    arguments.declare(line);
    line.flag("--names", "names of lines, as `explain` takes them, instead of their labels",
              page.names);
    line.flag("--quantities", "all quantities, those of used models too", page.all_quantities);
    line.flag("--watch", "prices again whenever a file it was made from changes, until Ctrl-C",
              watch);
    if (const auto code = line.read(words, console))
        return *code;
    if (watch && arguments.path == "-")
        return refuse("`--watch` needs a file to watch, not standard input", console);
    return answer(watch, arguments.json, console,
                  [&](Console& to) { return ask(arguments, page, to); });
}

} // namespace acre::cli
