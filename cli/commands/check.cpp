#include <memory>

#include "cli/command.h"
#include "cli/files/file_loader.h"
#include "cli/job.h"
#include "cli/json/diagnostics_json.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

struct Looked {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
};

void check_numbers(const lang::CheckedSheet& sheet, lang::FileKind kind, Looked& looked) {
    lang::Diagnostics planned;
    const auto compiled = engine::compile_plan(sheet, looked.sources, planned);
    for (const lang::Diagnostic& diagnostic : planned.all()) {
        // What is yours to set is set by a job; a model by itself may leave it open.
        if (kind == lang::FileKind::Job || diagnostic.code != lang::Code::I603) {
            looked.diagnostics.add(diagnostic);
        }
    }
    if (compiled) {
        const engine::Values values = engine::evaluate(compiled->plan);
        engine::report_faults(sheet, *compiled, values, looked.sources, {}, looked.diagnostics);
    }
}

void look(const std::string& path, const std::string& models, Looked& looked) {
    lang::Request request;
    request.name = path;
    if (!file_kind(path, request.kind)) {
        lang::Diagnostic diagnostic{lang::Code::F706, "`" + path + "` is not a .rate, .season or .job file", {}, {}, {}, {}};
        diagnostic.primary.span.file = lang::none;
        looked.diagnostics.add(std::move(diagnostic));
        return;
    }
    if (!read_named_file(path, request.text, looked.diagnostics)) {
        return;
    }
    FileLoader loader(models);
    loader.know(path);
    const auto sheet = lang::compile(request, loader, looked.sources, looked.diagnostics);
    if (sheet) {
        check_numbers(*sheet, request.kind, looked);
    }
}

} // namespace

int check_command(Words words, Console& console) {
    std::vector<std::string> paths;
    std::string models;
    bool json = false;
    Arguments line(
        "check",
        "Everything that is wrong in models, seasons and jobs, all at once, and what is doubtful: lines that nothing uses, values "
        "outside their swing, costs that no price covers or two cover.",
        "acrewright check models/deep-rip.rate examples/01-first-price.job");
    line.positionals("FILE", "a .rate, .season or .job file", paths);
    line.option("--models", "FOLDER", "one more folder to look for models in", models);
    line.flag("--json", "the diagnostics as JSON, for editors", json);
    if (const auto code = line.read(words, console)) {
        return *code;
    }
    std::vector<std::unique_ptr<Looked>> all;
    std::vector<CheckedFile> files;
    Console heard; // what JSON says is not said twice
    heard.color_err = console.color_err;
    int worst = exit_done;
    std::size_t clean = 0;
    for (const std::string& path : paths) {
        Looked& looked = *all.emplace_back(std::make_unique<Looked>());
        look(path, models, looked);
        const int code = report(looked.diagnostics, looked.sources, heard, Warnings::All);
        // A model at fault outranks a file that could not be read: it is what the command was asked for.
        worst = worst == exit_at_fault || code == exit_done ? worst : code;
        clean += looked.diagnostics.all().empty() ? 1 : 0;
        files.push_back({path, &looked.diagnostics, &looked.sources});
    }
    if (json) {
        console.out += diagnostics_json(files);
        return worst;
    }
    console.err += heard.err;
    if (clean == paths.size()) {
        console.out += clean == 1 ? lang::terminal_text(paths[0]) + " is in order\n" : std::to_string(clean) + " files are in order\n";
    }
    return worst;
}

} // namespace acre::cli
