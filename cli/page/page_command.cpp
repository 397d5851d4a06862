// page: jobs with their models, season and the engine itself in one file that opens anywhere.
#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/page/collect.h"
#include "cli/page/grower_html.h"
#include "cli/page/module_file.h"
#include "cli/page/page_html.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/write_file.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

struct PageArguments {
    std::vector<std::string> paths;
    std::string models, write, module;
    bool for_grower = false;
};

lang::Outcome<std::string> page_of(const PageArguments& arguments, const Collected& collected) {
    if (arguments.for_grower)
        return grower_html(collected.jobs);
    lang::Outcome<std::string> module = read_module(arguments.module);
    if (!module)
        return std::move(module.said);
    return page_html(collected, *module);
}

Reply answer(const PageArguments& arguments) {
    if (arguments.paths.empty() || arguments.write.empty())
        return lang::placeless(lang::Code::C004, "`page` needs a job and `--write FILE`");
    if (arguments.paths.size() > max_page_jobs)
        return lang::placeless(lang::Code::C004,
                               "a page takes at most " + std::to_string(max_page_jobs) + " jobs");
    const lang::Outcome<Collected> collected = collect(arguments.paths, arguments.models);
    if (!collected)
        return of_the_price(collected.said);
    const lang::Outcome<std::string> page = page_of(arguments, *collected);
    if (!page)
        return page.said;
    Reply reply;
    reply.said = collected->said;
    if (!save(arguments.write, *page, reply))
        return reply;
    reply.note = "wrote " + lang::terminal_text(arguments.write) + "\n";
    return reply;
}

} // namespace

Reply page_command(Words words, Console&) {
    PageArguments arguments;
    Arguments line("page",
                   "Writes jobs, with everything they are priced from and the engine itself, as "
                   "one file that opens in a browser without network: givens to change, what moves "
                   "the price, options, how each figure was built, risk.",
                   "acrewright page examples/01-first-price.job --for-grower --write first.html");
    line.positionals("JOB", "one or more .job files", arguments.paths);
    line.option("--write", "FILE", "the page to write", arguments.write);
    line.flag(
        "--for-grower",
        "the page to hand over instead: items, what the model shows, options and map at finished "
        "prices; no engine, costs or reasons",
        arguments.for_grower);
    line.option("--module", "FILE", "the engine for pages (found beside the program)",
                arguments.module);
    line.option("--models", "FOLDER", "one more folder to look for models in", arguments.models);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments);
}

} // namespace acre::cli
