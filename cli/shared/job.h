// What every command that reads a job has in common: its arguments, and the way from the file to
// numbers.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cli/exit_codes.h"
#include "cli/field/job_fields.h"
#include "cli/shared/arguments.h"
#include "cli/shared/console.h"
#include "engine/book/record.h"
#include "engine/faults/faults.h"
#include "engine/run.h"
#include "lang/compile.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/parse.h"

namespace acre::cli {

struct JobArguments {
    std::string path; // a .job, a .rate by itself, or "-" for a job on standard input
    std::string option;
    std::vector<std::string> sets; // NAME=VALUE
    std::string models;
    bool json = false;

    void declare(Arguments& arguments);
};

// A job with its numbers, and what it was made from. The texts live as long as it does.
struct Job : engine::Run {
    lang::Request request;
    std::unique_ptr<lang::Loader> files;
    std::unique_ptr<engine::RememberingLoader> loader; // asks `files`
    std::vector<JobField> fields;                      // boundaries that the job names, laid out
};

// Reads, checks, compiles and evaluates. Empty when that failed: `console.err` says why and `code`
// is the exit code. Values are not judged yet: see report_faults and estimate of the engine.
// `files`: if not null, filled with the paths of every file that was read, also when it failed;
// what is built in is no file.
std::unique_ptr<Job> open_job(const JobArguments& arguments, Console& console, int& code,
                              std::vector<std::string>* files = nullptr);

// The same for a job whose request is filled; false: `job.diagnostics` says why. `models`: one more
// folder to look in.
bool run_job(Job& job, const std::string& models);

// Reads the file a command names ("-": standard input). False: `failed` holds the diagnostic.
bool read_named_file(const std::string& path, std::string& text, lang::Diagnostics& failed,
                     std::size_t limit = lang::max_file_bytes);

// Appends what was reported to `console.err`, and says how the program ends: 0 without errors, 3
// when files were all that was at fault, 2 when the command line was, otherwise 1. A command that
// prices shows the warnings that touch the price; `check` shows all.
enum class Warnings { OfThePrice, All };
int report(lang::Diagnostics& diagnostics, const lang::SourceMap& sources, Console& console,
           Warnings warnings = Warnings::OfThePrice);

} // namespace acre::cli
