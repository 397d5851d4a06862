#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/estimate.h"
#include "engine/questions/subject.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"
#include "engine/workbook/workbook.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {

namespace {

constexpr std::uint32_t value_column = LinesColumn::value;

lang::Diagnostic too_large(std::string title, std::string help) {
    return lang::placeless(lang::Code::Q006, std::move(title), {}, {std::move(help)});
}

// Names of the job as quoted; the lines of an option are written as cells.
std::vector<std::string> name_lines(const PricedJob& job, Workbook& book) {
    DefinedNames taken;
    std::vector<std::string> names;
    for (const lang::Line& line : job.sheet().lines) {
        names.push_back(taken.take(line.name));
        if (!names.back().empty())
            book.names.emplace_back(
                names.back(),
                "=" + on_sheet("Lines",
                               fixed_address(first_line_row +
                                                 static_cast<std::uint32_t>(names.size()) - 1,
                                             value_column)));
    }
    return names;
}

BookJobs book_jobs(const PricedJob& job, const WorkbookQuestion& question) {
    BookJobs jobs;
    jobs.push_back({&job, "as quoted", "Lines", nullptr});
    for (const WorkbookQuestion::Option& option : question.options)
        jobs.push_back(
            {option.job.get(), option.title, "Lines " + std::to_string(jobs.size() + 1), nullptr});
    return jobs;
}

bool holds_anything(const BookJobs& jobs) {
    return std::any_of(
        jobs.begin(), jobs.end(), [](const BookJob& job) { return !job.lines->held().empty(); });
}

std::uint32_t last_row(const BookSheet& sheet) {
    std::uint32_t last = 0;
    for (const BookCell& cell : sheet.cells)
        last = std::max(last, cell.row);
    return last;
}

} // namespace

std::size_t Workbook::formulas() const {
    std::size_t count = 0;
    for (const BookSheet& sheet : sheets)
        for (const BookCell& cell : sheet.cells)
            count += cell.kind == CellKind::Formula ? 1 : 0;
    return count;
}

std::size_t Workbook::typed() const {
    std::size_t count = 0;
    for (const BookSheet& sheet : sheets)
        for (const BookCell& cell : sheet.cells)
            count += cell.look == Look::Typed || cell.look == Look::TypedChoice ? 1 : 0;
    return count;
}

lang::Outcome<Workbook> make_workbook(const PricedJob& job, const WorkbookQuestion& question) {
    Workbook book;
    book.title = title_of(job);
    if (const auto& date = job.sheet().job.date)
        book.day = lang::day_number(date->year, date->month, date->day);
    BookJobs jobs = book_jobs(job, question);
    if (question.options.size() > max_workbook_options)
        return too_large(fmt::format("{} options are too many for one workbook: {} at most",
                                     question.options.size(), max_workbook_options),
                         "write one option by itself:  --option TITLE");
    const TablesSheet tables = tables_sheet(job);
    const GivensSheet givens(jobs);
    const std::vector<std::string> names = name_lines(job, book);
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        SheetPlaces places;
        places.lines_sheet = jobs[i].lines_sheet;
        places.first_line = first_line_row;
        places.first_step =
            first_line_row + static_cast<std::uint32_t>(jobs[i].job->sheet().lines.size()) + 2;
        places.value_column = value_column;
        places.tables = tables.tables;
        places.lists = tables.lists;
        if (i == 0)
            places.names = names;
        jobs[i].lines =
            std::make_unique<JobLines>(*jobs[i].job, std::move(places), givens.cells_of(i));
    }
    place_held(jobs);
    if (!job.sheet().prices.empty())
        book.sheets = {price_sheet(jobs), costs_sheet(jobs[0])};
    if (jobs.size() > 1 && !job.sheet().prices.empty())
        book.sheets.insert(book.sheets.begin() + 1, options_sheet(jobs));
    book.sheets.push_back(givens.sheet(tables));
    book.sheets.push_back(conditions_sheet(jobs));
    for (const BookJob& one : jobs)
        book.sheets.push_back(one.lines->sheet());
    book.sheets.push_back(tables.sheet);
    if (holds_anything(jobs))
        book.sheets.push_back(held_sheet(jobs, question.renew));
    book.sheets.push_back(reading_sheet(jobs));
    for (const BookSheet& sheet : book.sheets)
        if (last_row(sheet) >= most_sheet_rows)
            return too_large(fmt::format("the sheet \"{}\" would have more than {} rows",
                                         sheet.name, lang::number_text(most_sheet_rows)),
                             "write fewer options, or a part of the job by itself");
    return book;
}

lang::Outcome<Workbook> ask(const PricedJob& job, const WorkbookQuestion& question) {
    lang::Outcome<Estimate> priced = estimate(job);
    if (!priced)
        return std::move(priced.said);
    lang::Outcome<Workbook> made = make_workbook(job, question);
    for (const lang::Diagnostic& diagnostic : priced.said.diagnostics.all())
        made.said.diagnostics.add(diagnostic);
    made.said.sources = priced.said.sources;
    return made;
}

} // namespace acre::engine
