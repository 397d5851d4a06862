// risk: what the swings and events of a job do to its price and profit.
#include <algorithm>
#include <atomic>
#include <string>
#include <thread>
#include <vector>

#include "cli/command.h"
#include "cli/risk/risk_page.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/shared/progress.h"
#include "cli/shared/watch.h"
#include "engine/questions/quantity.h"
#include "lang/diag/safe_text.h"
#include "lang/units/money.h"

namespace acre::cli {
namespace {

constexpr std::uint64_t as_suits = ~std::uint64_t{0}; // trials: as many as suit the model
constexpr std::uint64_t usual_trials = std::uint64_t{1} << 17;

struct RiskArguments {
    JobArguments job;
    std::vector<std::string> lines, hold, free;
    std::string price, svg;
    std::uint64_t trials = as_suits, seed = 1;
    std::uint32_t threads = 0; // 0: as many as the machine has
    bool lump = false, names = false, watch = false;
};

lang::Outcome<engine::RiskAnswer> draw(const RiskArguments& arguments, const engine::PricedJob& job,
                                       bool show_progress) {
    engine::RiskQuestion question;
    question.lines = arguments.lines;
    question.names = arguments.names;
    question.hold = arguments.hold;
    question.free = arguments.free;
    question.within_effort = arguments.trials == as_suits;
    question.trials = question.within_effort ? usual_trials : arguments.trials;
    question.seed = arguments.seed;
    // Each costs a reading per given. More trials buy better shares too.
    question.share_trials = std::max<std::uint64_t>(question.trials / 8, engine::min_trials);
    question.threads = arguments.threads > 0 ? arguments.threads
                                             : std::max(1U, std::thread::hardware_concurrency());
    question.lump = arguments.lump;
    if (!arguments.price.empty()) {
        lang::Outcome<double> total =
            engine::QuantityReader(job, std::string(lang::shown_money().word()),
                                   "the value of `--price`: ")
                .read(arguments.price);
        if (!total)
            return std::move(total.said);
        question.total = *total;
    }
    std::atomic<std::uint64_t> done{0};
    question.done = &done;
    question.stop = &interrupted();
    const Progress progress(show_progress, "trials", done, question.trials);
    return engine::ask(job, question);
}

std::vector<Figure> figures(const engine::RiskAnswer& risk) {
    std::vector<Figure> list;
    if (risk.loss)
        list.push_back({"chance of a loss", "%", *risk.loss * 100});
    if (risk.loss_direct)
        list.push_back({"chance below direct cost", "%", *risk.loss_direct * 100});
    for (const engine::Measured& m : risk.measured)
        list.push_back({"mean of " + lang::terminal_text(m.called), m.unit, m.mean});
    for (const engine::Measured& m : risk.measured)
        list.push_back({"spread of " + lang::terminal_text(m.called), m.unit, m.spread});
    return list;
}

Reply ask(const RiskArguments& arguments, const Console& console) {
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    Reply reply;
    reply.files = files_of(arguments.job, job);
    if (!job) {
        reply.said.push_back(of_the_price(job.said));
        return reply;
    }
    const auto risk = draw(arguments, **job, console.terminal_err);
    reply.said.push_back(of_the_price(risk.said));
    if (!risk || (!arguments.svg.empty() && !save(arguments.svg, risk_svg(*risk), reply)))
        return reply;
    if (arguments.job.json)
        reply.document = risk_json(*risk);
    else
        reply.page = risk_text(*risk, console.color_out);
    reply.figures = figures(*risk);
    return reply;
}

} // namespace

Reply risk_command(Words words, Console& console) {
    RiskArguments arguments;
    Arguments line(
        "risk",
        "Shows the risk of a job: draws its givens from their swings, and events by "
        "their chance, over and over. Gives the spread of price, direct cost and profit, "
        "the chance of a loss at the price quoted, and what drives the spread.",
        "acrewright risk examples/01-first-price.job --trials 100000");
    arguments.job.declare(line);
    line.option("--of", "LINE",
                "a line to follow (the price per unit); may be repeated; of the first, what drives "
                "its spread",
                arguments.lines);
    line.option("--hold", "GIVEN", "stays as in this job though it swings; may be repeated",
                arguments.hold);
    line.option("--free", "GIVEN",
                "is drawn from its range of choice though it is settled before work starts; may "
                "be repeated",
                arguments.free);
    line.option("--price", "MONEY",
                "what the customer pays for the whole job, as in '$95,078' (its own price)",
                arguments.price);
    line.flag("--lump", "the price is paid in full whatever the quantities are", arguments.lump);
    line.option("--trials", "N", "how many times to draw (131072; fewer for a very large model)",
                arguments.trials);
    line.option("--seed", "N",
                "starts another series of draws (1); one seed always gives the same answer",
                arguments.seed);
    line.option("--threads", "N",
                "how many threads to use (all the machine has); the answer is the same",
                arguments.threads);
    line.option("--svg", "FILE", "writes the histograms as a picture", arguments.svg);
    line.flag("--names", "names of givens, as --set takes them, instead of their labels",
              arguments.names);
    line.flag("--watch", "reruns when a file changes, until Ctrl-C", arguments.watch);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.watch && arguments.job.path == "-")
        return lang::placeless(lang::Code::C004,
                               "`--watch` needs a file to watch, not standard input");
    if (arguments.threads > max_threads)
        return lang::placeless(lang::Code::C003,
                               "`--threads` takes at most " + std::to_string(max_threads));
    return watched(arguments.watch, arguments.job.json, console,
                   [&] { return ask(arguments, console); });
}

} // namespace acre::cli
