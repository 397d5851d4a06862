#include <optional>

#include "cli/command.h"
#include "cli/price/blocks_text.h"
#include "cli/price/changed_text.h"
#include "cli/price/price_json.h"
#include "cli/price/price_text.h"
#include "cli/shared/job.h"
#include "cli/shared/watch.h"
#include "cli/shared/words.h"
#include "engine/questions/price.h"
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

// Against the job as its files have it; where that has no price, there is nothing to compare.
std::optional<engine::ChangedPrice> changed_by_sets(const JobArguments& arguments,
                                                    const engine::PricedJob& job) {
    const lang::Outcome<engine::Job> before = open_without_sets(arguments);
    if (!before)
        return std::nullopt;
    return engine::changed_price(**before, job);
}

// Q001 where none of the lines is in the part that is asked for.
std::optional<lang::Diagnostic> no_such_part(const engine::PriceAnswer& answer,
                                             const std::string& part) {
    std::string parts;
    for (const engine::LineEntry& line : answer.lines) {
        if (part.empty() || line.part == part)
            return std::nullopt;
        const std::string quoted = "\"" + line.part + "\"";
        if (!line.part.empty() && parts.find(quoted) == std::string::npos && parts.size() < 300)
            parts += (parts.empty() ? "its parts: " : ", ") + quoted;
    }
    return lang::placeless(lang::Code::Q001, "no part named \"" + part + "\"", {},
                           {parts.empty() ? "its lines are in no part" : parts});
}

Reply priced(const JobArguments& arguments, const PricePage& page, bool by_block) {
    const lang::Outcome<engine::Job> job = open_job(arguments);
    Reply reply;
    reply.files = files_of(arguments, job);
    if (!job) {
        reply.said.push_back(of_the_price(job.said));
        return reply;
    }
    const lang::Outcome<engine::PriceAnswer> answer =
        engine::ask(**job, {arguments.json || !page.part.empty(), by_block});
    reply.said.push_back(of_the_price(answer.said));
    if (!answer)
        return reply;
    if (auto none = no_such_part(*answer, page.part); none && !page.part.empty()) {
        reply.said.push_back(lang::Outcome<int>(std::move(*none)).said);
        return reply;
    }
    const std::optional<engine::ChangedPrice> changed = changed_by_sets(arguments, **job);
    if (arguments.json)
        reply.document = price_json(*answer, changed);
    else
        reply.page = price_text(*answer, page) +
                     (by_block ? blocks_text(answer->blocks, page.color) : "") +
                     (changed ? changed_text(*changed, page.color) : "");
    if (answer->has_price)
        reply.figures = figures(answer->estimate);
    return reply;
}

} // namespace

Reply price_command(Words words, Console& console) {
    JobArguments arguments;
    PricePage page;
    bool watch = false, by_block = false;
    Arguments line(
        "price",
        "Shows what a job costs and what to charge for it: the price and the steps to it, "
        "every cost as a rate times a quantity, the quantities, and cautions. A model by "
        "itself is priced with its own values; of one without a price it shows all lines.",
        "acrewright price examples/01-first-price.job --set area='120 ac'");
    arguments.declare(line);
    line.flag("--names", "shows the names of lines, as `explain` takes them, instead of labels",
              page.names);
    line.flag("--quantities", "shows all quantities, those of used models too",
              page.all_quantities);
    line.option("--part", "TITLE",
                "shows only the lines of that part, as in --part Clauses: standby, the lost trip, "
                "the fuel surcharge",
                page.part);
    line.flag("--by-block", "shows acres, depth, soil, pace, days, cost and price of each block",
              by_block);
    line.flag("--watch", "reruns when a file changes, until Ctrl-C", watch);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (watch && arguments.path == "-")
        return lang::placeless(lang::Code::C004,
                               "`--watch` needs a file to watch, not standard input");
    page.color = console.color_out;
    return watched(watch, arguments.json, console,
                   [&] { return priced(arguments, page, by_block); });
}

} // namespace acre::cli
