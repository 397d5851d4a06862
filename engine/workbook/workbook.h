// A job as a workbook whose figures stay alive: sheets of cells as data, formulas as texts made
// from the plan. Nothing here knows a file format; whoever writes one gets every cell with the
// value it has now.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_workbook_options = 11;       // side by side with the job
inline constexpr std::uint32_t most_sheet_rows = 1'048'576;   // of a sheet of a spreadsheet
inline constexpr std::size_t most_formula_letters = 8'192;    // of a formula there
inline constexpr std::size_t most_cell_letters = 32'767;      // of a text there
inline constexpr std::size_t most_defined_name_letters = 255; // of a name there

enum class Look : std::uint8_t {
    Plain,
    Title,
    Heading,
    FigureHeading, // above figures
    Unit,          // behind a figure
    UnitHeading,   // above units
    Part,          // the title of a part, above its rows
    Wrapped,       // a text that may take several rows of print
    Small,         // where it is written, its source
    Typed,         // the only cells to type into
    TypedChoice,
    TypedReason,
    Figure,
    Total,
    Warning, // a text that is empty as long as all is well
};

enum class CellKind : std::uint8_t { Text, Number, Formula, Blank };

struct BookCell {
    std::uint32_t row = 0, column = 0; // from 0
    CellKind kind = CellKind::Text;
    std::string text;  // a formula begins with =
    double number = 0; // of a formula what it gives now; NaN: no answer
    std::string shown; // of a formula that gives a text: the text
    Look look = Look::Plain;
    std::string format;     // of a number; empty: as it comes
    std::uint32_t span = 1; // columns it stretches over
};

// What may be typed into a cell. Each is a formula, or empty: no such bound.
struct CellRule {
    std::uint32_t row = 0, column = 0;
    std::string low, high;
    std::string list; // a range of cells that hold the options
};

// Cells shown in red where the formula, written for the first of them, holds.
struct RedWhen {
    std::uint32_t first_row = 0, first_column = 0, last_row = 0, last_column = 0;
    std::string formula;
};

struct BookSheet {
    std::string name;
    std::vector<double> widths; // by column, in letters
    std::vector<BookCell> cells;
    std::vector<CellRule> rules;
    std::vector<RedWhen> red;
    std::uint32_t frozen_rows = 0; // at the head: stay in sight, and stand on each printed page
    bool landscape = false;
    // Printed on two pages side by side, the second from this column on, the first column on both;
    // 0: as wide as one page.
    std::uint32_t second_page = 0;
};

struct Workbook {
    std::string title;
    std::optional<long> day; // the job's date, counted from 1970-01-01
    std::vector<BookSheet> sheets;
    std::vector<std::pair<std::string, std::string>> names; // name, the cell it stands for

    std::size_t formulas() const; // live ones, of all sheets
    std::size_t typed() const;    // cells with a value to type over
};

struct WorkbookQuestion {
    struct Option {
        std::string title;
        Job job;
    };
    std::vector<Option> options; // side by side with the job
    std::string renew;           // the command that renews a held value, as shown
};

// Without a value a fault stops the price of the job itself (options show theirs), or the job is
// larger than a spreadsheet (Q006).
lang::Outcome<Workbook> ask(const PricedJob& job, const WorkbookQuestion& question);

// The same without a look at the faults: what has no answer shows as an error there. Q006.
lang::Outcome<Workbook> make_workbook(const PricedJob& job, const WorkbookQuestion& question);

} // namespace acre::engine
