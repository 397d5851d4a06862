#include "cli/shared/job.h"

#include <algorithm>

#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/one_value.h"

namespace acre::cli {

namespace {

bool split_set(const std::string& text, std::pair<std::string, std::string>& set) {
    const auto equals = text.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
        return false;
    set = {text.substr(0, equals), text.substr(equals + 1)};
    return true;
}

// Everything but the texts.
lang::Outcome<lang::Request> head_of(const JobArguments& arguments) {
    lang::Request request;
    request.every_function = false;
    const bool typed = arguments.path == "-";
    if (!typed && !arguments.named.empty())
        return lang::placeless(lang::Code::C004,
                               "`--named` is for a text on standard input, which `-` reads");
    request.name = !typed                    ? arguments.path
                   : arguments.named.empty() ? "standard input"
                                             : arguments.named;
    request.option = arguments.option;
    for (const std::string& text : arguments.sets)
        if (!split_set(text, request.sets.emplace_back()))
            return lang::placeless(lang::Code::C003,
                                   "`--set` takes NAME=VALUE, as in --set speed='2 mi/h'; not `" +
                                       text + "`");
    for (const auto& [name, value] : request.sets)
        if (auto more = more_than_a_value(name, value))
            return std::move(*more);
    if ((!typed || !arguments.named.empty()) && !file_kind(request.name, request.kind))
        return lang::placeless(lang::Code::F706,
                               "`" + request.name +
                                   "` is not a .rate, .season, .values, .job or .firm file");
    return request;
}

} // namespace

lang::Outcome<lang::Request> request_of(const JobArguments& arguments, lang::Loader& loader) {
    lang::Outcome<lang::Request> request = head_of(arguments);
    if (!request)
        return request;
    lang::Outcome<std::string> text = read_named_file(arguments.path);
    if (!text)
        return std::move(text.said);
    request->text = std::move(*text);
    if (arguments.season.empty())
        return request;
    lang::Outcome<lang::Loaded> season =
        loader.load(lang::ReferenceKind::Season, arguments.season, request->name);
    if (!season)
        return std::move(season.said);
    request->season = std::move(*season);
    return request;
}

std::optional<lang::Diagnostic> no_job(const lang::Request& request) {
    using lang::FileKind;
    if (request.kind != FileKind::Season && request.kind != FileKind::Values &&
        request.kind != FileKind::Firm)
        return std::nullopt;
    return lang::placeless(lang::Code::F706,
                           "`" + request.name + "` is neither a .job nor a .rate file");
}

void JobArguments::declare(Arguments& arguments) {
    arguments.positional(
        "JOB", "a .job file, or a .rate model by itself; - reads a job from standard input", path);
    arguments.option("--set", "NAME=VALUE",
                     "sets a given, over everything the files say; may be repeated", sets);
    arguments.option("--option", "TITLE", "takes one of the job's options", option);
    declare_files(arguments);
    arguments.flag("--json", "the result as JSON, for other programs", json);
}

void JobArguments::declare_files(Arguments& arguments) {
    arguments.option("--season", "NAME", "this season in the place of the job's own", season);
    arguments.option("--named", "FILE",
                     "what the text on standard input is called, and so where it looks for others",
                     named);
    arguments.option("--models", "FOLDER", "one more folder to look for models in", models);
}

lang::Outcome<std::string> read_named_file(const std::string& path, std::size_t limit) {
    return path == "-" ? read_standard_input(limit) : read_text(path, true, limit);
}

lang::Outcome<engine::Job> open_job(const JobArguments& arguments) {
    FileLoader loader(arguments.models);
    loader.know(arguments.path == "-" ? arguments.named : arguments.path);
    const lang::Outcome<lang::Request> request = request_of(arguments, loader);
    if (!request)
        return request.said;
    if (auto fault = no_job(*request))
        return std::move(*fault);
    return engine::make_job(*request, loader);
}

lang::Outcome<engine::Job> open_without_sets(const JobArguments& arguments) {
    if (arguments.sets.empty() || arguments.path == "-")
        return lang::Said{};
    JobArguments bare = arguments;
    bare.sets.clear();
    return open_job(bare);
}

std::vector<std::string> files_of(const JobArguments& arguments,
                                  const lang::Outcome<engine::Job>& job) {
    std::vector<std::string> files = {arguments.path};
    const auto add = [&](const std::string& name) {
        const bool file =
            !name.starts_with(built_in_mark) && name != "command line" && name != "field layout";
        if (file && std::find(files.begin(), files.end(), name) == files.end())
            files.push_back(name);
    };
    if (job.said.sources != nullptr)
        for (lang::FileId id = 0; id < job.said.sources->size(); ++id)
            add(job.said.sources->file(id).name());
    if (job)
        for (const engine::JobField& field : (*job)->fields())
            add(field.field.file);
    return files;
}

} // namespace acre::cli
