// One job as a sheet of lines: every line of the model a row with its live formula, then the steps
// that formulas share, the conditions, and what is charged.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/workbook/held.h"
#include "engine/workbook/job_checks.h"
#include "engine/workbook/plan_formulas.h"
#include "engine/workbook/workbook.h"

namespace acre::engine {

struct LinesColumn {
    enum : std::uint32_t {
        name,
        label,
        value,
        unit,
        stale,
        formula,
        set_by,
        because,
        source,
        place,
        part,
        sign
    };
};
inline constexpr std::uint32_t first_line_row = 4;
inline constexpr const char* stale_format = "[=0]\"\";[=1]\"stale\";General";
inline constexpr const char* not_a_price = "NOT A PRICE: a condition is not met. See Conditions.";
inline constexpr const char* stale_price = "STALE: a held value rests on a figure that was "
                                           "changed. See Held for the command that renews it.";
inline constexpr const char* no_price = "NO PRICE: a figure that it rests on has no answer.";

inline constexpr const char* held_sheet_name = "Held";
struct HeldColumn {
    enum : std::uint32_t { name, label, was, now, changed };
};

class JobLines {
  public:
    // `typed`: by line, the cell to type its value into; empty: it is computed.
    JobLines(const PricedJob& job, SheetPlaces places, std::vector<std::string> typed);

    const PricedJob& job() const { return job_; }
    const PlanFormulas& formulas() const { return formulas_; }
    std::vector<HeldValue>& held() { return held_; } // whoever places them says their rows
    const std::vector<HeldValue>& held() const { return held_; }
    const JobChecks& checks() const { return checks_; }

    // Cells of this sheet as others name them.
    std::string value_of(lang::LineId line) const;
    std::string at(std::uint32_t row, std::uint32_t column = LinesColumn::value) const;
    std::string stale_of(Slot slot) const; // empty: never

    BookSheet sheet() const;

  private:
    void line_row(lang::LineId line, SheetWriter& out) const;
    void line_words(lang::LineId line, SheetWriter& out) const;
    void step_row(std::size_t step, SheetWriter& out) const;
    void value_cell(std::uint32_t row, Slot slot, std::uint32_t choice, const std::string& formula,
                    const std::string& unit, SheetWriter& out) const;
    void stale_cell(std::uint32_t row, Slot slot, const std::vector<std::uint32_t>& reads,
                    SheetWriter& out) const;
    std::string typed_formula(lang::LineId line) const;

    const PricedJob& job_;
    SheetPlaces places_;
    std::vector<std::string> typed_;
    PlanFormulas formulas_;
    std::vector<HeldValue> held_;
    std::vector<char> may_be_stale_; // by slot
    std::vector<char> asked_;        // by slot: the price rests on it, on any branch
    std::map<std::uint32_t, Slot> slot_of_row_;
    JobChecks checks_;
};

} // namespace acre::engine
