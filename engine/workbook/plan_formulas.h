// The plan as formulas of a sheet: one row for each line, and a row for what several formulas
// share, what a sheet can only hold, and what would make a formula too long to read. The rows below
// are written by lines_sheet.cpp, in its places.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/plan.h"
#include "engine/workbook/expression.h"

namespace acre::engine {

struct TablePlace {              // on its sheet
    std::string x, y;            // ranges
    std::string first_x, last_x; // cells
    std::size_t rows = 0;
};

struct SheetPlaces {
    std::string lines_sheet;
    std::uint32_t first_line = 0, first_step = 0; // rows, from 0
    std::uint32_t value_column = 0;
    std::vector<std::string> names; // by LineId: the defined name; empty: none
    std::vector<TablePlace> tables; // by index of Plan::tables
    std::vector<std::string> lists; // by ChoiceId: the range of its options
};

struct RowFormula {
    std::string text;                 // begins with =; empty: a value that is held, or a given
    std::vector<std::uint32_t> reads; // rows of the sheet, each once
};

class PlanFormulas {
  public:
    // `asked`: slots beside the lines that other sheets read (conditions, bounds).
    PlanFormulas(const PricedJob& job, SheetPlaces places, const std::vector<Slot>& asked);

    struct Step {
        Slot slot = no_slot;
        bool position = false; // the row of a table that is read, not its value
        bool held = false;     // a native function's value
    };
    const std::vector<Step>& steps() const { return steps_; } // in order of their rows

    RowFormula of_line(lang::LineId line) const;
    RowFormula of_step(std::size_t step) const;

    // What another sheet writes for a slot: a cell, or a number. Text of a choice stays text.
    std::string elsewhere(Slot slot) const;
    // The row where a slot has its value; none: it is a constant.
    std::optional<std::uint32_t> row_of(Slot slot) const;
    std::uint32_t row_of_line(lang::LineId line) const { return places_.first_line + line; }
    std::uint32_t row_of_step(std::size_t step) const {
        return places_.first_step + static_cast<std::uint32_t>(step);
    }
    // The line whose row has it; none: a step, or a constant.
    lang::LineId line_of(Slot slot) const { return owner_[slot]; }
    // The choice that the cell of a slot shows; none: a number or a truth.
    std::uint32_t choice_of(Slot slot) const { return choice_[slot]; }

  private:
    struct Writing {                        // one formula being written
        std::map<Slot, lang::LineId> named; // lines that its author wrote, by slot
        std::vector<std::uint32_t> reads;
        bool addresses = false; // no names
    };

    void choose_owners();
    void count_uses(const std::vector<Slot>& asked);
    void choose_steps();
    void make_step(Slot slot, bool position = false);
    void split_long();
    bool is_constant(Slot slot) const { return plan_.operations[slot].code == OpCode::Constant; }
    bool is_share(Slot slot) const;
    const double* written_exponent(const Operation& op) const;

    Expression build(Slot slot, Writing& writing) const;
    Expression function(const Operation& op, Writing& writing) const;
    Expression look_up(const Operation& op, Slot slot, Writing& writing) const;
    Expression clamped(const Operation& op, Writing& writing) const;
    Expression position(const Operation& op, Writing& writing) const;
    Expression equality(const Operation& op, std::string_view sign, Writing& writing) const;
    Expression both(const Operation& op, Writing& writing) const;
    Expression product(const Operation& op, Writing& writing) const;

    // A slot as its cell has it; as a number or a truth; as the text of a choice, or as a number
    // where that is none.
    Expression raw(Slot slot, Writing& writing) const;
    Expression number(Slot slot, Writing& writing) const;
    Expression as(Slot slot, std::uint32_t choice, Writing& writing) const;
    Expression reference(std::uint32_t row, lang::LineId line, Writing& writing) const;
    Expression of_slot(lang::LineId line, Slot slot, Writing& writing) const;
    void name_lines(lang::NodeId node, Writing& writing) const;

    const PricedJob& job_;
    const Plan& plan_;
    SheetPlaces places_;
    std::vector<std::uint32_t> choice_;
    std::vector<char> may_fail_;
    std::vector<std::uint32_t> uses_;
    std::vector<lang::LineId> owner_; // by slot: the line whose row has its value
    std::vector<Step> steps_;
    std::map<std::pair<Slot, bool>, std::size_t> step_of_; // slot, position
    // While long formulas are split: what was put together so far.
    std::vector<Expression> kept_;
};

} // namespace acre::engine
