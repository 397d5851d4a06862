#include <memory>

#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "cli/shared/json/diagnostics_json.h"
#include "engine/faults/faults.h"
#include "lang/diag/render.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

// A model or season by itself. What is yours to set is set by a job: here it may stay open.
void look_alone(const lang::Request& request, const std::string& models, Job& job) {
    FileLoader loader(models);
    loader.know(request.name);
    job.sheet = lang::compile(request, loader, job.sources, job.diagnostics);
    if (!job.sheet)
        return;
    lang::Diagnostics planned;
    job.compiled = engine::compile_plan(*job.sheet, job.sources, planned);
    for (const lang::Diagnostic& diagnostic : planned.all())
        if (diagnostic.code != lang::Code::I603)
            job.diagnostics.add(diagnostic);
    if (job.compiled)
        job.values = engine::evaluate(job.compiled->plan);
}

void look(const std::string& path, const std::string& models, Job& job) {
    lang::Request& request = job.request;
    request.name = path;
    if (!file_kind(path, request.kind)) {
        lang::Diagnostic diagnostic{lang::Code::F706,
                                    "`" + path + "` is not a .rate, .season or .job file",
                                    {},
                                    {},
                                    {},
                                    {}};
        diagnostic.primary.span.file = lang::none;
        job.diagnostics.add(std::move(diagnostic));
        return;
    }
    if (!read_named_file(path, request.text, job.diagnostics))
        return;
    if (request.kind == lang::FileKind::Job)
        run_job(job, models);
    else
        look_alone(request, models, job);
    if (job.sheet && job.compiled && !job.diagnostics.has_errors()) {
        engine::report_faults(*job.sheet, *job.compiled, job.values, job.sources, {},
                              job.diagnostics);
    }
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
    std::vector<std::unique_ptr<Job>> all;
    std::vector<CheckedFile> files;
    Console heard; // what JSON or a terse line says is not said twice
    heard.color_err = console.color_err;
    std::string lines;
    int worst = exit_done;
    std::size_t clean = 0;
    for (const std::string& path : paths) {
        Job& job = *all.emplace_back(std::make_unique<Job>());
        look(path, models, job);
        const int code = report(job.diagnostics, job.sources, heard, Warnings::All);
        if (terse)
            lines += lang::render_terse(job.diagnostics, job.sources);
        // A model at fault outranks a file that could not be read: it is what the command was asked
        // for.
        worst = worst == exit_at_fault || code == exit_done ? worst : code;
        clean += job.diagnostics.all().empty() ? 1 : 0;
        files.push_back({path, &job.diagnostics, &job.sources});
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
