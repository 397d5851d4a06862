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

Reply ask(const JobArguments& arguments, PricePage page) {
    const lang::Outcome<engine::Job> job = open_job(arguments);
    Reply reply;
    reply.files = files_of(arguments, job);
    if (!job) {
        reply.said.push_back(of_the_price(job.said));
        return reply;
    }
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(**job);
    reply.said.push_back(of_the_price(estimate.said));
    if (!estimate)
        return reply;
    if (arguments.json)
        reply.document = price_json(**job, *estimate);
    else
        reply.page = price_text((*job)->checked(), *estimate, (*job)->sources(), page);
    reply.figures = figures(*estimate);
    return reply;
}

} // namespace

Reply price_command(Words words, Console& console) {
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
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (watch && arguments.path == "-")
        return lang::placeless(lang::Code::C004,
                               "`--watch` needs a file to watch, not standard input");
    page.color = console.color_out;
    return watched(watch, arguments.json, console, [&] { return ask(arguments, page); });
}

} // namespace acre::cli
