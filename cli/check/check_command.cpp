#include <vector>

#include "cli/check/check_json.h"
#include "cli/check/plan_pages.h"
#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "engine/questions/check.h"
#include "lang/diag/render.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

// Everything that is wrong with a file, or doubtful.
CheckedFile look(const JobArguments& arguments) {
    CheckedFile file{arguments.path == "-" ? arguments.named : arguments.path, {}};
    FileLoader loader(arguments.models);
    loader.know(file.path);
    const lang::Outcome<lang::Request> request = request_of(arguments, loader);
    if (request)
        file.found = engine::check(*request, loader);
    else
        file.found.said.push_back(request.said);
    return file;
}

const lang::SourceMap& sources_of(const lang::Said& said) {
    static const lang::SourceMap none;
    return said.sources != nullptr ? *said.sources : none;
}

std::string counted(std::size_t count, const std::string& one) {
    return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

// What was looked at, besides the text itself.
std::string how_far(const engine::CheckAnswer& found) {
    if (found.options > 0)
        return ", with " + counted(found.options, "option");
    return found.models > 0 ? ", for " + counted(found.models, "model") : "";
}

std::string in_order(const std::vector<CheckedFile>& files) {
    for (const CheckedFile& file : files)
        if (!file.found.said.empty())
            return {};
    return files.size() == 1 ? lang::terminal_text(files[0].path) + " is in order" +
                                   how_far(files[0].found) + "\n"
                             : std::to_string(files.size()) + " files are in order\n";
}

// The plan of one file, in place of what `check` finds; without a plan, why there is none.
Reply show_plan(const std::vector<std::string>& paths, JobArguments arguments,
                const Console& console) {
    if (paths.size() != 1)
        return lang::placeless(lang::Code::C004, "`--plan` shows the plan of one file", {},
                               {"name one job, or a model by itself"});
    arguments.path = paths.front();
    const lang::Outcome<engine::Job> job = open_job(arguments);
    if (!job)
        return job.said;
    const lang::Outcome<engine::PlanListing> plan = engine::ask(**job, engine::PlanQuestion{});
    Reply reply(plan.said);
    if (arguments.json)
        reply.document = plan_json(*plan);
    else
        reply.page = plan_text(*plan, console.color_out);
    return reply;
}

} // namespace

Reply check_command(Words words, Console& console) {
    std::vector<std::string> paths;
    JobArguments job;
    bool terse = false;
    bool plan = false;
    Arguments line("check",
                   "Shows all errors and warnings of models, seasons and jobs at once. A job is "
                   "priced with each of its options, a season is tried with every model that can "
                   "be found.",
                   "acrewright check models/deep-rip.rate examples/01-first-price.job");
    line.positionals(
        "FILE",
        "a .rate, .season, .values, .job or .firm file; - reads standard input, called by --named",
        paths);
    line.option("--set", "NAME=VALUE", "sets a given, over everything the files say", job.sets);
    line.option("--option", "TITLE", "takes this one of a job's options", job.option);
    job.declare_files(line);
    line.flag("--terse", "one line for each error or warning, for tools", terse);
    line.flag("--json", "the errors and warnings as JSON, for editors", job.json);
    line.flag("--plan",
              "shows the compiled plan of a job instead: each operation with its slot, what it "
              "reads, its value and unit, and the line that first asked for it",
              plan);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (plan)
        return show_plan(paths, job, console);
    std::vector<CheckedFile> files;
    for (const std::string& path : paths) {
        job.path = path;
        if (path == "-" && job.named.empty())
            return lang::placeless(lang::Code::C004, "a text on standard input needs a name", {},
                                   {"say what it is called:  --named my.job"});
        files.push_back(look(job));
    }
    Reply found;
    for (const CheckedFile& file : files)
        found.said.insert(found.said.end(), file.found.said.begin(), file.found.said.end());
    if (!job.json && !terse) {
        found.page = in_order(files);
        return found;
    }
    // What is found is the answer itself, not said beside it.
    Reply reply;
    reply.verdict = exit_code_of(found);
    if (job.json) {
        reply.document = check_json(files);
        return reply;
    }
    reply.page = in_order(files);
    for (const lang::Said& said : found.said)
        reply.note += lang::render_terse(said.diagnostics, sources_of(said));
    return reply;
}

} // namespace acre::cli
