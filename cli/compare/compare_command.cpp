// compare: a job's options, or several jobs, side by side; where two of them cost the same; and
// each over a given.
#include <string>
#include <utility>
#include <vector>

#include "cli/command.h"
#include "cli/compare/columns.h"
#include "cli/compare/over.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "engine/questions/estimate.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

struct CompareArguments {
    std::vector<std::string> paths, options, sets;
    std::string models, flip, over, svg;
    bool json = false;
};

std::string column_name(const CompareArguments& arguments, const std::string& path,
                        const std::string& option, const std::string& title) {
    if (arguments.paths.size() == 1)
        return option.empty() ? "as it stands" : option;
    return title.empty() ? path : title;
}

// Adds a column, or its name to those without an answer after its errors were told; false with the
// exit code when the words or a file are wrong rather than the job. `options`: the titles of the
// job's options, as far as it can be read.
bool open_column(const CompareArguments& arguments, const std::string& path,
                 const std::string& option, Comparison& comparison,
                 std::vector<std::string>* options, Console& console, int& code) {
    JobArguments job;
    job.path = path;
    job.option = option;
    job.sets = arguments.sets;
    job.models = arguments.models;
    CompareColumn column;
    column.job = open_job(job, console, code);
    if (!column.job) {
        comparison.unanswered.push_back(column_name(arguments, path, option, ""));
        return code == exit_at_fault;
    }
    const lang::JobInfo& info = column.job->sheet().job;
    if (options != nullptr)
        *options = info.options;
    column.name = column_name(arguments, path, option, info.title);
    std::size_t steps = column.job->sheet().nodes.size();
    for (const CompareColumn& other : comparison.columns)
        steps += other.job->sheet().nodes.size();
    if (steps > max_side_by_side) {
        console.err += "acrewright: the jobs side by side come to more than " +
                       lang::number_text(max_side_by_side) +
                       " steps of calculation: compare fewer\n";
        code = exit_at_fault;
        return false;
    }
    lang::Outcome<engine::Estimate> estimate = engine::estimate(*column.job);
    code = report(estimate.said, console);
    if (estimate && code == exit_done) {
        column.estimate = std::move(*estimate);
        comparison.columns.push_back(std::move(column));
        return true;
    }
    comparison.unanswered.push_back(column.name);
    return code == exit_at_fault;
}

bool open_columns(const CompareArguments& arguments, Comparison& comparison, Console& console,
                  int& code) {
    for (const std::string& path : arguments.paths) {
        std::vector<std::string> options;
        if (!open_column(arguments, path, "", comparison, &options, console, code))
            return false;
        if (arguments.paths.size() > 1)
            continue;
        for (const std::string& option : arguments.options.empty() ? options : arguments.options)
            if (comparison.columns.size() + comparison.unanswered.size() < max_columns &&
                !open_column(arguments, path, option, comparison, nullptr, console, code))
                return false;
    }
    return !comparison.columns.empty();
}

} // namespace

int compare_command(Words words, Console& console) {
    CompareArguments arguments;
    Arguments line("compare",
                   "A job and its options, or several jobs, side by side: prices, every cost, "
                   "quantities, what is not the same and what each "
                   "difference adds. --flip finds where two of them cost the same, --over draws "
                   "each over a given.",
                   "acrewright compare examples/03-rows-or-field.job --flip row_width");
    line.positionals("JOB", "one job for its options, or several jobs", arguments.paths);
    line.option("--option", "TITLE", "only these options of the job; may be repeated",
                arguments.options);
    line.option("--set", "NAME=VALUE", "sets a given in all columns; may be repeated",
                arguments.sets);
    line.option("--models", "FOLDER", "one more folder to look for models in", arguments.models);
    line.option("--flip", "GIVEN",
                "the value of a given at which a column costs the same as the first",
                arguments.flip);
    line.option("--over", "\"GIVEN A..B\"",
                "the price of each column over a given, as in \"run 300 ft..2,600 ft\"",
                arguments.over);
    line.option("--svg", "FILE", "writes what --over shows as a picture", arguments.svg);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (const auto code = line.read(words, console))
        return *code;
    if (arguments.paths.size() > max_columns) {
        console.err +=
            "acrewright: at most " + std::to_string(max_columns) + " jobs side by side\n";
        return exit_usage;
    }
    if (!arguments.svg.empty() && arguments.over.empty()) {
        console.err += "acrewright: `--svg` draws what `--over` shows; it needs it\n";
        return exit_usage;
    }
    Comparison comparison;
    int code = exit_done;
    if (!open_columns(arguments, comparison, console, code))
        return code;
    compare(comparison);
    std::string flips;
    std::string curves;
    std::string svg;
    if (!arguments.flip.empty() && !flip_text(comparison, arguments.flip, flips, console))
        return exit_usage;
    if (!arguments.over.empty() && !over_text(comparison, arguments.over, curves, svg, console))
        return exit_usage;
    if (!arguments.svg.empty() && !save(arguments.svg, svg, console))
        return exit_file;
    console.out += arguments.json ? compare_json(comparison)
                                  : compare_text(comparison, console.color_out) + flips + curves;
    return comparison.unanswered.empty() ? exit_done : exit_at_fault;
}

} // namespace acre::cli
