// The sheets of a workbook beside the lines of each job.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "engine/workbook/job_lines.h"
#include "engine/workbook/workbook.h"

namespace acre::engine {

struct BookJob {
    const PricedJob* job = nullptr;
    std::string title;       // "as quoted", or the option's
    std::string lines_sheet; // "Lines", "Lines 2", …
    std::unique_ptr<JobLines> lines;
};
using BookJobs = std::vector<BookJob>; // the job itself first

// Tables and the options of choices, and where they stand. Tables are the model's, so all jobs read
// these.
struct TablesSheet {
    BookSheet sheet;
    std::vector<TablePlace> tables;
    std::vector<std::string> lists;
};
TablesSheet tables_sheet(const PricedJob& job);

// The cells to type into. Column and row of each given are known before the formulas are.
class GivensSheet {
  public:
    explicit GivensSheet(const BookJobs& jobs);

    // By LineId of that job: the cell of its value; empty: it is computed there.
    std::vector<std::string> cells_of(std::size_t job) const;
    BookSheet sheet(const TablesSheet& tables) const;

  private:
    struct Row {
        std::string name;
        std::uint32_t row = 0;
        std::string part; // a title above it; empty: none
    };
    void write_row(const Row& row, const TablesSheet& tables, BookSheet& sheet) const;
    void value_cell(const Row& row, std::size_t job, const TablesSheet& tables,
                    BookSheet& sheet) const;

    const BookJobs& jobs_;
    std::vector<Row> rows_;
};
// Computed by nobody: a number or an option of its own, or nothing yet.
bool is_typed(const PricedJob& job, lang::LineId line);
// What the option itself sets, or a boundary that it lays out otherwise; others follow the job.
bool is_its_own(const BookJob& option, const PricedJob& base, const std::string& name);

inline constexpr const char* conditions_sheet_name = "Conditions";
inline constexpr const char* below_zero_format = "[=0]\"met\";0\" lines\"";
inline constexpr const char* givens_sheet_name = "Givens";
inline constexpr const char* given_name_heading = "name"; // by these a saved sheet is read again
inline constexpr const char* given_value_heading = "value";
inline constexpr const char* given_unit_heading = "unit";
inline constexpr const char* given_reason_heading = "your reason";

void place_held(BookJobs& jobs);
BookSheet held_sheet(const BookJobs& jobs, const std::string& renew);
BookSheet price_sheet(const BookJobs& jobs); // of the first
BookSheet options_sheet(const BookJobs& jobs);
BookSheet costs_sheet(const BookJob& job);
BookSheet conditions_sheet(const BookJobs& jobs);
std::uint32_t caution_row(const BookJobs& jobs, std::size_t caution); // on that sheet
BookSheet reading_sheet(const BookJobs& jobs);

} // namespace acre::engine
