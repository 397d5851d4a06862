#include <memory>

#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/json/diagnostics_json.h"
#include "cli/shared/legacy.h"
#include "engine/faults/faults.h"
#include "engine/faults/unset_givens.h"
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
    const bool is_job = request.kind == lang::FileKind::Job;
    request.every_function = !is_job;
    const lang::Outcome<engine::Job> job =
        engine::make_job(request, loader, is_job ? engine::Aim::Price : engine::Aim::Look);
    lang::Said said = job.said;
    // What a job would set may stay open in a model by itself; then nothing more can be worked out.
    if (job && (is_job || !engine::lacks_values(**job)))
        engine::report_faults(**job, {}, said.diagnostics);
    return said;
}

} // namespace

int check_command(Words words, Console& console) {
    std::vector<std::string> paths;
    std::string models;
    bool json = false;
    bool terse = false;
    Arguments line("check",
                   "Finds everything that is wrong in models, seasons and jobs, all at once, and "
                   "warns of what may be: lines that nothing uses, values outside their swing, "
                   "costs that no price covers, or that two cover.",
                   "acrewright check models/deep-rip.rate examples/01-first-price.job");
    line.positionals("FILE", "a .rate, .season or .job file", paths);
    line.option("--models", "FOLDER", "one more folder to look for models in", models);
    line.flag("--terse", "one line for each error or warning, for tools", terse);
    line.flag("--json", "the errors and warnings as JSON, for editors", json);
    if (const auto code = line.read(words, console))
        return *code;
    std::vector<lang::Said> all;
    all.reserve(paths.size());
    std::vector<CheckedFile> files;
    Console heard; // what JSON or a terse line says is not said twice
    heard.color_err = console.color_err;
    std::string lines;
    int worst = exit_done;
    std::size_t clean = 0;
    for (const std::string& path : paths) {
        lang::Said& said = all.emplace_back(look(path, models));
        said.diagnostics.sort();
        if (said.sources == nullptr)
            said.sources = std::make_shared<lang::SourceMap>();
        const int code = report(said, heard, Warnings::All);
        if (terse)
            lines += lang::render_terse(said.diagnostics, *said.sources);
        // A model at fault outranks a file that could not be read: it is what the command was asked
        // for.
        worst = worst == exit_at_fault || code == exit_done ? worst : code;
        clean += said.diagnostics.all().empty() ? 1 : 0;
        files.push_back({path, &said.diagnostics, said.sources.get()});
    }
    if (json) {
        console.out += diagnostics_json(files);
        return worst;
    }
    console.err += terse ? lines : heard.err;
    if (clean == paths.size()) {
        console.out += clean == 1 ? lang::terminal_text(paths[0]) + " is in order\n"
                                  : std::to_string(clean) + " files are in order\n";
    }
    return worst;
}

} // namespace acre::cli
