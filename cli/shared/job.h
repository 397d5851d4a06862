// What every command that reads a job has in common: its arguments, and the way from the file to a
// job.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/shared/arguments.h"
#include "engine/driver.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"
#include "lang/syntax/parse.h"

namespace acre::cli {

struct JobArguments {
    std::string path;  // a .job, a .rate by itself, or "-" for a text on standard input
    std::string named; // what the text on standard input is called; empty: a job of no file
    std::string option;
    std::string season;            // in the place of the job's own
    std::vector<std::string> sets; // NAME=VALUE
    std::string models;
    bool json = false;

    void declare(Arguments& arguments);
    void declare_files(Arguments& arguments); // where texts come from: --season --named --models
};

// The request for one file, with its text and the season that was asked for. A season by itself is
// only looked at: the questions refuse it.
lang::Outcome<lang::Request> request_of(const JobArguments& arguments, lang::Loader& loader);

// F706: the file is a season, values or a firm, of which nothing can be asked.
std::optional<lang::Diagnostic> no_job(const lang::Request& request);

// Reads, checks, compiles and evaluates. Values are not judged yet: the questions do that.
lang::Outcome<engine::Job> open_job(const JobArguments& arguments);

// The same job as its files have it, to be held against what `--set` makes of it. No value where
// nothing was set, or the text came from standard input, which is read once.
lang::Outcome<engine::Job> open_without_sets(const JobArguments& arguments);

// The files that were read for it, also when there is no job; what is built in is no file.
std::vector<std::string> files_of(const JobArguments& arguments,
                                  const lang::Outcome<engine::Job>& job);

// The text of a file that a command names ("-": standard input).
lang::Outcome<std::string> read_named_file(const std::string& path,
                                           std::size_t limit = lang::max_file_bytes);

} // namespace acre::cli
