// How to read a workbook: what each sheet is for, the one rule for colors, and what holds.
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/sheet_writer.h"

namespace acre::engine {

namespace {

struct Note {
    const char *what, *says;
};

constexpr Note sheets[] = {
    {"Price",
     "What the customer pays. No cost and no margin is on it: it may be printed and given away."},
    {"Options", "The job and its options side by side, where the job has options."},
    {"Costs", "Every cost as a rate times a quantity, and each step from cost to price."},
    {"Givens",
     "The figures that somebody set, by part. Its yellow cells are the only ones to type into."},
    {"Conditions", "What must hold for the price, and the cautions."},
    {"Lines", "Every line of the models with its formula, live. Options have sheets of their own: "
              "Lines 2, Lines 3, …"},
    {"Tables", "Tables and choices that the formulas look up."},
    {"Held", "Values that a sheet cannot work out, with the cells that each rests on. Not there if "
             "there are none."},
};
constexpr Note rules[] = {
    {"yellow", "A cell to type into. Everything else follows from these, and is locked (without a "
               "password)."},
    {"red", "Not to be used: a condition is not met, a value below zero that cannot be, or a stale "
            "value."},
    {"units",
     "A figure is in the unit beside it. A share is in percent: 15 with the unit % is 15 percent."},
    {"names", "Each line's name stands for its value as quoted: type =price.total into any cell. A "
              "name that a spreadsheet takes for something else has a _ behind it."},
    {"rounding", "To whole steps as the program rounds: what is within a billionth of a whole "
                 "number is that number. Hence the MIN(MAX(1E-9 …)) in such formulas."},
    {"no answer", "#N/A, #DIV/0! and the like: the figure has no answer with these givens, and "
                  "whatever rests on it has none."},
    {"stale", "The sheet still shows the value that was held when it was written. It does not fit "
              "the changed figures: renew it before you use the price."},
    {"back to the job", "Save the sheet Givens as CSV; acrewright workbook JOB --read FILE.csv "
                        "gives your changes as lines for the job or the season."},
    {"sources",
     "Each formula of the library names its source under \"source\" on the sheet Lines."},
};

} // namespace

BookSheet reading_sheet(const BookJobs& jobs) {
    BookSheet sheet;
    sheet.name = "How to read this";
    sheet.widths = {20, 110};
    sheet.landscape = true;
    SheetWriter out(sheet);
    std::uint32_t row = 0;
    const lang::JobInfo& info = jobs[0].job->sheet().job;
    out.text(row++, 0, "How to read this workbook", Look::Title);
    out.text(row++, 0,
             "Made from the job " + info.title + ", the model " + info.model_title +
                 (info.season_title.empty() ? "" : ", the season " + info.season_title) +
                 ". Every figure is a live formula of that model.");
    ++row;
    const auto list = [&](const char* title, std::span<const Note> notes) {
        out.text(row++, 0, title, Look::Part);
        for (const Note& note : notes) {
            out.text(row, 0, note.what, Look::Heading);
            out.text(row++, 1, note.says, Look::Wrapped);
        }
        ++row;
    };
    list("Sheets", sheets);
    list("What holds", rules);
    for (std::size_t i = 1; i < jobs.size(); ++i) {
        out.text(row, 0, jobs[i].lines_sheet, Look::Heading);
        out.text(row++, 1, "option: " + jobs[i].title, Look::Wrapped);
    }
    ++row;
    out.text(row++, 0,
             "Figures are estimates. Call the utility locating service (811) before the shank goes "
             "in. Permits, routes, hours and wetlands are up to the authorities; local codes and "
             "licensed practice decide.");
    return sheet;
}

} // namespace acre::engine
