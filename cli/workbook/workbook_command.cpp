// workbook: the job as a spreadsheet whose figures stay alive, and what was changed there back as
// lines of the notation.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/workbook/workbook_json.h"
#include "cli/workbook/xlsx.h"
#include "engine/questions/compare/compare.h"
#include "engine/workbook/changed_givens.h"
#include "engine/workbook/workbook.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

using Options = std::vector<engine::WorkbookQuestion::Option>;

struct WorkbookArguments {
    JobArguments job;
    std::string write, read;
};

// All options of the job, each opened as the job is; none where one was asked for.
lang::Outcome<Options> options_of(const WorkbookArguments& arguments,
                                  const engine::PricedJob& job) {
    Options options;
    if (!arguments.job.option.empty())
        return options;
    for (const std::string& title : engine::options_of(job)) {
        JobArguments one = arguments.job;
        one.option = title;
        // Too many are refused below, in words of their own.
        lang::Outcome<engine::Job> opened = options.size() <= engine::max_workbook_options
                                                ? open_job(one)
                                                : lang::Outcome<engine::Job>(options[0].job);
        if (!opened)
            return std::move(opened.said);
        options.push_back({title, *opened});
    }
    return options;
}

// A stranger's words among lines to be copied.
std::string file_text(const std::string& text) {
    std::string safe;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin);
        safe += lang::terminal_text(std::string_view(text).substr(begin, end - begin)) + "\n";
        begin = end + 1;
    }
    return safe;
}

Reply write_book(const WorkbookArguments& arguments, const engine::PricedJob& job,
                 Options options) {
    engine::WorkbookQuestion question{
        std::move(options), fmt::format("acrewright workbook {} --set NAME=VALUE --write {}",
                                        arguments.job.path, arguments.write)};
    lang::Outcome<engine::Workbook> book = engine::ask(job, question);
    Reply reply(of_the_price(book.said));
    if (!book)
        return reply;
    const lang::Outcome<std::string> bytes = xlsx_of(*book);
    if (!bytes)
        return bytes.said;
    if (!save(arguments.write, *bytes, reply))
        return reply;
    if (arguments.job.json) {
        reply.document = workbook_json(*book, arguments.write);
        return reply;
    }
    reply.page = fmt::format("{}: {} sheets, {} live formulas, {} cells to type into\n",
                             lang::terminal_text(arguments.write), book->sheets.size(),
                             book->formulas(), book->typed());
    return reply;
}

Reply read_book(const WorkbookArguments& arguments, const engine::PricedJob& job,
                const Options& options) {
    lang::Outcome<std::string> text = read_named_file(arguments.read, max_data_bytes);
    if (!text)
        return std::move(text.said);
    const auto changes = engine::changed_givens(job, options, arguments.read, std::move(*text));
    Reply reply(changes.said);
    if (!changes)
        return reply;
    if (arguments.job.json) {
        reply.document = changes_json(*changes);
        return reply;
    }
    reply.page = file_text(engine::set_lines(*changes));
    if (changes->empty())
        reply.note = "no given was changed\n";
    return reply;
}

} // namespace

Reply workbook_command(Words words, Console&) {
    WorkbookArguments arguments;
    Arguments line(
        "workbook",
        "Writes the job as a spreadsheet whose figures stay alive: every line a formula, "
        "options side by side. With --read it gives what was changed there, saved as "
        "CSV, back as lines for the job or the season.",
        "acrewright workbook examples/03-rows-or-field.job --write job.xlsx");
    arguments.job.declare(line);
    line.option("--write", "FILE", "writes the workbook (.xlsx)", arguments.write);
    line.option("--read", "FILE", "reads the sheet Givens of a workbook, saved as CSV",
                arguments.read);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.write.empty() == arguments.read.empty())
        return lang::placeless(lang::Code::C004,
                               "`workbook` needs `--write FILE.xlsx` or `--read FILE.csv`");
    if (!arguments.write.empty() && !arguments.write.ends_with(".xlsx"))
        return lang::placeless(lang::Code::C003, "`--write`: the name of a workbook ends in .xlsx");
    if (arguments.read.ends_with(".xlsx"))
        return lang::placeless(lang::Code::C003,
                               "`--read` takes the sheet Givens of the workbook, saved as CSV");
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    if (!job)
        return of_the_price(job.said);
    lang::Outcome<Options> options = options_of(arguments, **job);
    if (!options)
        return of_the_price(options.said);
    return arguments.read.empty() ? write_book(arguments, **job, std::move(*options))
                                  : read_book(arguments, **job, *options);
}

} // namespace acre::cli
