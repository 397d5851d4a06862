#include "cli/shared/job.h"

#include <algorithm>

#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/read_text.h"
#include "lang/diag/render.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

bool split_set(const std::string& text, std::pair<std::string, std::string>& set) {
    const auto equals = text.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
        return false;
    set = {text.substr(0, equals), text.substr(equals + 1)};
    return true;
}

// Errors do, and of the warnings those about values and about costs that are in no price or in two.
bool touches_the_price(const lang::Diagnostic& diagnostic) {
    const lang::Code code = diagnostic.code;
    return diagnostic.severity() == lang::Severity::Error || code == lang::Code::L802 ||
           code == lang::Code::L803 || code == lang::Code::L804;
}

} // namespace

void JobArguments::declare(Arguments& arguments) {
    arguments.positional(
        "JOB", "a .job file, or a .rate model by itself; - reads a job from standard input", path);
    arguments.option("--set", "NAME=VALUE",
                     "sets a given, over everything the files say; may be repeated", sets);
    arguments.option("--option", "TITLE", "takes one of the job's options", option);
    arguments.option("--models", "FOLDER", "one more folder to look for models in", models);
    arguments.flag("--json", "the result as JSON, for other programs", json);
}

bool read_named_file(const std::string& path, std::string& text, lang::Diagnostics& failed,
                     std::size_t limit) {
    lang::LoadFailure failure;
    if (path == "-" ? read_standard_input(text, failure, limit)
                    : read_text(path, true, text, failure, limit))
        return true;
    lang::Diagnostic diagnostic{failure.code, {}, {}, {}, {}, {}};
    const std::string name = "`" + path + "`";
    switch (failure.code) {
    case lang::Code::F701:
        diagnostic.title = "there is no file " + name;
        break;
    case lang::Code::F703:
        diagnostic.title = name + " is not UTF-8 text";
        break;
    case lang::Code::F704:
        diagnostic.title = name + " is empty";
        break;
    case lang::Code::S118:
        diagnostic.title = name + " is larger than the limit";
        break;
    default:
        diagnostic.title = name + " cannot be read";
        break;
    }
    if (failure.code != lang::Code::F701 && failure.code != lang::Code::F704)
        diagnostic.notes.push_back(failure.detail);
    diagnostic.primary.span.file = lang::none; // in no text at all
    failed.add(std::move(diagnostic));
    return false;
}

int report(lang::Diagnostics& diagnostics, const lang::SourceMap& sources, Console& console,
           Warnings warnings) {
    diagnostics.sort();
    const bool all = warnings == Warnings::All || diagnostics.left_out() > 0;
    if (all || std::all_of(diagnostics.all().begin(), diagnostics.all().end(), touches_the_price)) {
        console.err += lang::render(diagnostics, sources, {console.color_err});
    } else {
        lang::Diagnostics kept;
        for (const lang::Diagnostic& diagnostic : diagnostics.all())
            if (touches_the_price(diagnostic))
                kept.add(diagnostic);
        console.err += lang::render(kept, sources, {console.color_err});
    }
    if (!diagnostics.has_errors())
        return exit_done;
    bool files_only = true;
    bool command_line_only = true;
    for (const lang::Diagnostic& diagnostic : diagnostics.all()) {
        if (diagnostic.severity() == lang::Severity::Error) {
            const auto file = diagnostic.primary.span.file;
            files_only = files_only && lang::name_of(diagnostic.code).front() == 'F';
            command_line_only = command_line_only && file < sources.size() &&
                                sources.file(file).name() == "command line";
        }
    }
    return files_only ? exit_file : command_line_only ? exit_usage : exit_at_fault;
}

bool run_job(Job& job, const std::string& models) {
    auto files = std::make_unique<FileLoader>(models);
    files->know(job.request.name);
    job.files = std::move(files);
    job.loader = std::make_unique<engine::RememberingLoader>(*job.files);
    if (!engine::run(job.request, *job.loader, job))
        return false;
    if (!has_fields(job))
        return true;
    // The layout needs the job's spacing, and the job needs the layout's acres: so the job is read
    // twice.
    if (!lay_job_fields(job, job.request.name, job.fields, job.request.field_sets))
        return false;
    static_cast<engine::Run&>(job) = engine::Run();
    return engine::run(job.request, *job.loader, job);
}

namespace {

// Everything but the making of the job: exit_done, or the exit code and `console.err` says why.
int fill(const JobArguments& arguments, Job& job, Console& console) {
    lang::Request& request = job.request;
    const auto stop = [&] { return report(job.diagnostics, job.sources, console); };
    request.every_function = false;
    request.name = arguments.path == "-" ? "standard input" : arguments.path;
    request.option = arguments.option;
    for (const std::string& text : arguments.sets) {
        if (!split_set(text, request.sets.emplace_back())) {
            console.err +=
                "acrewright: `--set` takes NAME=VALUE, as in --set speed='2 mi/h'; not `" +
                lang::terminal_text(text) + "`\n";
            return exit_usage;
        }
    }
    if (arguments.path != "-" &&
        (!file_kind(arguments.path, request.kind) || request.kind == lang::FileKind::Season)) {
        console.err += "acrewright: `" + lang::terminal_text(arguments.path) +
                       "` is neither a .job nor a .rate file\n";
        return exit_usage;
    }
    if (!read_named_file(arguments.path, request.text, job.diagnostics))
        return stop();
    if (!run_job(job, arguments.models))
        return stop();
    return exit_done;
}

std::vector<std::string> files_of(const JobArguments& arguments, const Job& job) {
    std::vector<std::string> files = {arguments.path};
    if (job.loader != nullptr) {
        for (const auto& [name, text] : job.loader->texts())
            if (!name.starts_with(built_in_mark))
                files.push_back(name);
    }
    for (const JobField& field : job.fields)
        files.push_back(field.field.file);
    return files;
}

} // namespace

std::unique_ptr<Job> open_job(const JobArguments& arguments, Console& console, int& code,
                              std::vector<std::string>* files) {
    auto job = std::make_unique<Job>();
    code = fill(arguments, *job, console);
    if (files != nullptr)
        *files = files_of(arguments, *job);
    return code == exit_done ? std::move(job) : nullptr;
}

} // namespace acre::cli
