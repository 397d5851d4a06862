// risk: what the swings and events of a job do to its price and profit.
#include <algorithm>
#include <atomic>
#include <string>
#include <thread>
#include <vector>

#include "cli/command.h"
#include "cli/risk/risk_page.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/progress.h"
#include "cli/shared/quantity.h"
#include "cli/shared/watch.h"
#include "cli/shared/words.h"

namespace acre::cli {
namespace {

constexpr std::uint64_t as_suits = ~std::uint64_t{0}; // trials: as many as suit the model
constexpr std::uint64_t usual_trials = std::uint64_t{1} << 17;

struct RiskArguments {
    JobArguments job;
    std::vector<std::string> lines;
    std::string price, svg;
    std::uint64_t trials = as_suits, seed = 1;
    std::uint32_t threads = 0; // 0: as many as the machine has
    bool lump = false, names = false, watch = false;
};

// A swing that cannot be drawn is the model's fault, or whoever set it; anything else that is
// refused is the command line's.
int code_of_refusal(const engine::PricedJob& job) {
    engine::Refusal trouble;
    const lang::Sheet& sheet = job.sheet();
    const auto axes = engine::all_axes(job);
    const bool sound = std::all_of(axes.begin(), axes.end(), [&](const engine::Axis& axis) {
        return axis.options > 0 || !axis.swing || engine::swing_is_sound(sheet, axis, trouble);
    });
    return sound ? exit_usage : exit_at_fault;
}

std::optional<engine::Risk> draw(const RiskArguments& arguments, const engine::PricedJob& job,
                                 std::optional<double> total, Console& console,
                                 engine::Refusal& refusal) {
    engine::RiskQuestion question;
    for (const std::string& line : arguments.lines)
        question.lines.push_back(line);
    question.within_effort = arguments.trials == as_suits;
    question.trials = question.within_effort ? usual_trials : arguments.trials;
    question.seed = arguments.seed;
    // Each costs a reading per given: as many as keep the shares to the tenth of a per cent, and no
    // more work than the trials.
    question.share_trials =
        std::clamp<std::uint64_t>(question.trials / 8, engine::min_trials, std::uint64_t{1} << 16);
    question.threads = arguments.threads > 0 ? arguments.threads
                                             : std::max(1U, std::thread::hardware_concurrency());
    question.total = total;
    question.lump = arguments.lump;
    std::atomic<std::uint64_t> done{0};
    question.done = &done;
    question.stop = &interrupted();
    const Progress progress(console.terminal_err, "trials", done, question.trials);
    return engine::risk(job, question, refusal);
}

Reply ask(const RiskArguments& arguments, Console& console) {
    Reply answer;
    const auto job =
        open_judged(arguments.job, arguments.lines, console, answer.verdict, &answer.files);
    if (!job)
        return answer;
    std::optional<double> total;
    std::string reason;
    if (!arguments.price.empty()) {
        total = read_quantity(arguments.price, "$", reason);
        if (!total) {
            answer.verdict = refuse("the value of `--price`: " + reason, console);
            return answer;
        }
    }
    engine::Refusal refusal;
    auto risk = draw(arguments, *job, total, console, refusal);
    if (!risk) {
        refuse(refusal, console);
        answer.verdict = code_of_refusal(*job);
        return answer;
    }
    RiskPage page;
    page.job = job.get();
    page.risk = std::move(*risk);
    page.lump = arguments.lump;
    page.names = arguments.names;
    page.color = console.color_out;
    page.sensitivity =
        ask_sensitivity(*job, arguments.lines.empty() ? "" : arguments.lines.front(), refusal);
    if (page.sensitivity)
        page.sensitivity->names = arguments.names;
    if (!arguments.svg.empty() && !save(arguments.svg, risk_svg(page), console)) {
        answer.verdict = exit_file;
        return answer;
    }
    answer.page = arguments.job.json ? risk_json(page) : risk_text(page);
    for (const engine::Measured& m : page.risk.measured)
        answer.figures.push_back({"mean of " + page.name_of(m), m.unit, m.mean});
    if (page.risk.loss)
        answer.figures.insert(answer.figures.begin(),
                              {"chance of a loss", "%", *page.risk.loss * 100});
    for (const engine::Measured& m : page.risk.measured)
        answer.figures.push_back({"spread of " + page.name_of(m), m.unit, m.spread});
    return answer;
}

} // namespace

Reply risk_command(Words words, Console& console) {
    RiskArguments arguments;
    Arguments line("risk",
                   "What a job risks: its givens drawn from their swings and its events as they "
                   "fall, over and over; the spread of price, "
                   "cost and profit, the chance of a loss at the price quoted, and which given "
                   "makes how much of the spread.",
                   "acrewright risk examples/01-first-price.job --trials 100000");
    arguments.job.declare(line);
    line.option("--of", "LINE",
                "a line to follow, the first one divided among the givens (the price per unit); "
                "may be repeated",
                arguments.lines);
    line.option("--price", "MONEY",
                "what is paid for the whole job, as in '$95,078' (its own price)", arguments.price);
    line.flag("--lump", "the price is paid whatever the quantities", arguments.lump);
    line.option("--trials", "N", "how many times to draw (131072; fewer of a very large model)",
                arguments.trials);
    line.option("--seed", "N", "another draw of the same kind (1); one seed, one answer",
                arguments.seed);
    line.option("--threads", "N",
                "how many threads work (as many as the machine has); the answer is the same",
                arguments.threads);
    line.option("--svg", "FILE", "writes the histograms as a picture", arguments.svg);
    line.flag("--names", "names of givens, as --set takes them, instead of their labels",
              arguments.names);
    line.flag("--watch", "answers again whenever a file it was made from changes, until Ctrl-C",
              arguments.watch);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.watch && arguments.job.path == "-")
        return lang::placeless(lang::Code::C004,
                               "`--watch` needs a file to watch, not standard input");
    if (arguments.threads > max_threads)
        return lang::placeless(lang::Code::C003,
                               "`--threads` takes " + std::to_string(max_threads) + " at most");
    return watched(arguments.watch, arguments.job.json, console,
                   [&] { return ask(arguments, console); });
}

} // namespace acre::cli
