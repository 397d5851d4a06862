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
lang::Said look(const std::string& path, const std::string& models) {
    lang::Request request;
    request.name = path;
    if (!file_kind(path, request.kind))
        return Reply(lang::placeless(lang::Code::F706,
                                     "`" + path + "` is not a .rate, .season or .job file"))
            .said.front();
    lang::Outcome<std::string> text = read_named_file(path);
    if (!text)
        return std::move(text.said);
    request.text = std::move(*text);
    FileLoader loader(models);
    loader.know(path);
    return engine::check(std::move(request), loader);
}

const lang::SourceMap& sources_of(const lang::Said& said) {
    static const lang::SourceMap none;
    return said.sources != nullptr ? *said.sources : none;
}

std::string in_order(const std::vector<CheckedFile>& files) {
    for (const CheckedFile& file : files)
        if (!file.said.diagnostics.all().empty())
            return {};
    return files.size() == 1 ? lang::terminal_text(files[0].path) + " is in order\n"
                             : std::to_string(files.size()) + " files are in order\n";
}

// The plan of one file, in place of what `check` finds; without a plan, why there is none.
Reply show_plan(const std::vector<std::string>& paths, const std::string& models, bool json,
                const Console& console) {
    if (paths.size() != 1)
        return lang::placeless(lang::Code::C004, "`--plan` shows the plan of one file", {},
                               {"name one job, or a model by itself"});
    JobArguments arguments;
    arguments.path = paths.front();
    arguments.models = models;
    const lang::Outcome<engine::Job> job = open_job(arguments);
    if (!job)
        return job.said;
    const lang::Outcome<engine::PlanListing> plan = engine::ask(**job, engine::PlanQuestion{});
    Reply reply(plan.said);
    if (json)
        reply.document = plan_json(*plan);
    else
        reply.page = plan_text(*plan, console.color_out);
    return reply;
}

} // namespace

Reply check_command(Words words, Console& console) {
    std::vector<std::string> paths;
    std::string models;
    bool json = false;
    bool terse = false;
    bool plan = false;
    Arguments line("check",
                   "Shows all errors and warnings of models, seasons and jobs at once: also lines "
                   "that nothing uses, values outside their swing, costs that no price covers or "
                   "two cover.",
                   "acrewright check models/deep-rip.rate examples/01-first-price.job");
    line.positionals("FILE", "a .rate, .season or .job file", paths);
    line.option("--models", "FOLDER", "one more folder to look for models in", models);
    line.flag("--terse", "one line for each error or warning, for tools", terse);
    line.flag("--json", "the errors and warnings as JSON, for editors", json);
    line.flag("--plan",
              "shows the compiled plan of a job instead: each operation with its slot, what it "
              "reads, its value and unit, and the line that first asked for it",
              plan);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (plan)
        return show_plan(paths, models, json, console);
    std::vector<CheckedFile> files;
    for (const std::string& path : paths)
        files.push_back({path, look(path, models)});
    Reply found;
    for (const CheckedFile& file : files)
        found.said.push_back(file.said);
    if (!json && !terse) {
        found.page = in_order(files);
        return found;
    }
    // What is found is the answer itself, not said beside it.
    Reply reply;
    reply.verdict = exit_code_of(found);
    if (json) {
        reply.document = check_json(files);
        return reply;
    }
    reply.page = in_order(files);
    for (const CheckedFile& file : files)
        reply.note += lang::render_terse(file.said.diagnostics, sources_of(file.said));
    return reply;
}

} // namespace acre::cli
