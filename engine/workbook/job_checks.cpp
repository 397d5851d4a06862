#include "engine/workbook/job_checks.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/plan/not_negative.h"
#include "engine/plan/plan_roots.h"
#include "engine/questions/charged.h"
#include "engine/words/money.h"
#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/job_lines.h"
#include "engine/workbook/sheet_writer.h"

namespace acre::engine {

using lang::none;

namespace {

double state_of(double truth) {
    return std::isnan(truth) ? condition_unknown : truth != 0 ? condition_met : condition_not_met;
}

double within_state(const PricedJob& job, std::size_t given) {
    const Plan& plan = job.plan();
    const auto value = [&](Slot slot) {
        return slot == no_slot ? std::nan("") : job.values().slot[slot];
    };
    const double is = value(slot_of(job.compiled(), job.sheet().givens[given].line));
    const double low = value(plan.within_low[given]);
    const double high = value(plan.within_high[given]);
    if (std::isnan(is) || std::isnan(low) || std::isnan(high))
        return condition_unknown;
    const auto below = [](double a, double b) { return a < b - 1e-12 * std::fabs(b); };
    return below(is, low) || -is < -high - 1e-12 * std::fabs(high) ? condition_not_met
                                                                   : condition_met;
}

// To the step of the firm's money, half up, as engine/words/money.h has it.
std::string cents_of(const std::string& x, std::int64_t step) {
    const std::string steps = fmt::format("ABS({})*{}", x, 100 / static_cast<double>(step));
    return fmt::format("SIGN({0})*INT({1}+0.5+MIN(1E-12*{1},1E-3))*{2}", x, steps,
                       static_cast<double>(step) / 100);
}

// What can be written down of a quantity (engine/words/billing.h).
std::string quantity_charged(const std::string& q, bool counted) {
    const std::string parts = counted ? fmt::format("IF({}>=100,1,100)", q) : "100";
    const std::string whole = fmt::format("INT({}*{}*(1+1E-12)+0.5)", q, parts);
    return fmt::format("=IF(AND({0}>0,{0}<1E12),IF({1}>0,{1}/{2},{0}),{0})", q, whole, parts);
}

// The amount goes with the quantity where the rate is one that somebody stated.
std::string amount_charged(const std::string& amount, const std::string& q,
                           const std::string& charged) {
    const std::string parts = fmt::format("{}/{}*10000", amount, q);
    return fmt::format("=IF({1}>0,IF(AND(ABS({3})<1E12,ABS({3}-ROUND({3},0))<=1E-10*ABS({3})),"
                       "ROUND({3},0)/10000*{2},{0}),{0})",
                       amount, q, charged, parts);
}

// In as few decimals, two or more, as give the amount.
std::string rate_charged(const std::string& amount, const std::string& q, std::int64_t step) {
    const std::string whole = amount + "/" + q;
    std::string out = fmt::format("ROUND({},9)", whole);
    for (int decimals = 5; decimals >= 2; --decimals) {
        const std::string rate = fmt::format("ROUND({},{})", whole, decimals);
        const std::string charged =
            step == 1 ? fmt::format("ROUND({}*{},2)", rate, q)
                      : fmt::format("ROUND({},2)", cents_of(fmt::format("({}*{})", rate, q), step));
        out = fmt::format("IF({}={},{},{})", charged, amount, rate, out);
    }
    return fmt::format("=IF({}>0,{},0)", q, out);
}

class Checks {
  public:
    Checks(const JobLines& lines, SheetWriter& out)
        : lines_(lines),
          job_(lines.job()),
          checks_(lines.checks()),
          out_(out) {}

    void write() {
        out_.text(checks_.first_row, 0, "Conditions, and what is charged", Look::Part);
        for (const CheckRow& check : checks_.conditions)
            condition(check);
        count_failing();
        for (std::size_t item = 0; item < checks_.items.size(); ++item)
            charge(item);
        total();
        status();
    }

  private:
    static constexpr auto value_column = LinesColumn::value;

    std::int64_t money_step() const { return job_.sheet().firm.money.step; }
    static std::string cell(std::uint32_t row) { return cell_address(row, LinesColumn::value); }
    std::string slot_cell(Slot slot) const { return lines_.formulas().elsewhere(slot); }
    std::string line_cell(lang::LineId line) const {
        return cell(lines_.formulas().row_of_line(line));
    }
    void stale(std::uint32_t row, const std::vector<Slot>& slots) {
        std::string cells;
        for (const Slot slot : slots)
            if (std::string one = slot == no_slot ? "" : lines_.stale_of(slot); !one.empty())
                cells += (cells.empty() ? "" : ",") + one;
        if (!cells.empty())
            out_.formula(row, LinesColumn::stale, "=MAX(" + cells + ")", 0, stale_format,
                         Look::Warning);
    }

    void condition(const CheckRow& check) {
        const Plan& plan = job_.plan();
        out_.text(check.row, LinesColumn::label, check.message, Look::Wrapped);
        out_.text(check.row, LinesColumn::formula, check.what, Look::Wrapped);
        std::string formula;
        if (check.kind == CheckRow::Require) {
            const Slot slot = plan.require_slot[check.index];
            formula = fmt::format("=IF(ISERROR({0}),2,IF({0},0,1))", slot_cell(slot));
            stale(check.row, {slot});
        } else if (check.kind == CheckRow::Within) {
            const lang::LineId line = job_.sheet().givens[check.index].line;
            const Slot low = plan.within_low[check.index];
            const Slot high = plan.within_high[check.index];
            formula = fmt::format(
                "=IFERROR(IF(AND({0}>={1}-1E-12*ABS({1}),{0}<={2}+1E-12*ABS({2})),0,1),2)",
                line_cell(line), slot_cell(low), slot_cell(high));
            stale(check.row, {slot_of(job_.compiled(), line), low, high});
        } else {
            const std::uint32_t last =
                first_line_row + static_cast<std::uint32_t>(job_.sheet().lines.size());
            const auto column = [&](std::uint32_t at) {
                return fixed_range(first_line_row, at, last, at);
            };
            formula =
                fmt::format("=COUNTIFS({},\"{}\",{},\"<\"&(-1E-9))", column(LinesColumn::sign),
                            not_below_zero, column(LinesColumn::value));
        }
        out_.formula(check.row, value_column, formula, check.state,
                     check.kind == CheckRow::BelowZero ? below_zero_format : condition_format);
    }

    void count_failing() {
        double failing = 0;
        for (const CheckRow& check : checks_.conditions)
            failing += check.state > 0 ? 1 : 0;
        out_.text(checks_.failing, LinesColumn::label, "conditions not met");
        const std::string range =
            fixed_range(checks_.first_row, value_column, checks_.failing - 1, value_column);
        out_.formula(checks_.failing, value_column, "=COUNTIF(" + range + ",\">0\")", failing,
                     "General");
    }

    void charge(std::size_t index) {
        const lang::PriceItem& item = job_.sheet().prices[index];
        const ChargedRows& rows = checks_.items[index];
        const Billed billed = charged_for(job_, item);
        const double dollars = static_cast<double>(billed.cents) / 100;
        const std::string amount = line_cell(item.amount);
        const bool by_unit = item.quantity != none;
        const bool counted = by_unit && is_counted(job_.sheet().lines[item.quantity].type.unit);
        const auto row = [&](std::uint32_t at, const char* what, const std::string& formula,
                             double value, const std::string& format) {
            out_.text(at, LinesColumn::label, item.title + ": " + what, Look::Wrapped);
            out_.formula(at, value_column, formula, value, format);
        };
        std::string before = "=" + amount;
        if (by_unit) {
            const std::string quantity = line_cell(item.quantity);
            row(rows.quantity, "quantity charged", quantity_charged(quantity, counted),
                billed.quantity, "#,##0.##");
            out_.text(rows.quantity, LinesColumn::unit, item.per_text);
            before = amount_charged(amount, quantity, cell(rows.quantity));
        }
        row(rows.amount, "amount for that quantity", before, dollars, money_format());
        row(rows.cents, "amount charged",
            "=ROUND(" + cents_of(cell(rows.amount), money_step()) + ",2)", dollars, money_format());
        if (by_unit)
            row(rows.rate, "rate charged",
                rate_charged(cell(rows.cents), cell(rows.quantity), money_step()), billed.rate,
                rate_format());
        stale(rows.cents, {slot_of(job_.compiled(), item.amount),
                           by_unit ? slot_of(job_.compiled(), item.quantity) : no_slot});
    }

    void total() {
        std::string formula = "=0";
        std::int64_t cents = 0;
        std::vector<Slot> slots;
        for (std::size_t i = 0; i < checks_.items.size(); ++i) {
            const lang::PriceItem& item = job_.sheet().prices[i];
            formula += "+" + cell(checks_.items[i].cents);
            cents += charged_for(job_, item).cents;
            slots.push_back(slot_of(job_.compiled(), item.amount));
            if (item.quantity != none)
                slots.push_back(slot_of(job_.compiled(), item.quantity));
        }
        for (const Slot slot : job_.plan().require_slot)
            slots.push_back(slot);
        out_.text(checks_.total, LinesColumn::label, "total charged");
        out_.formula(checks_.total, value_column, formula, static_cast<double>(cents) / 100,
                     money_format(), Look::Total);
        stale(checks_.total, slots);
    }

    void status() {
        const std::string total = cell(checks_.total);
        const std::string failing = cell(checks_.failing);
        const std::string flag = cell_address(checks_.total, LinesColumn::stale);
        const bool fails = [&] {
            for (const CheckRow& check : checks_.conditions)
                if (check.state > 0)
                    return true;
            return false;
        }();
        out_.text(checks_.status, LinesColumn::label, "what stands against this price");
        out_.words(checks_.status, value_column,
                   fmt::format("=IF({}>0,\"{}\",IF(N({})>0,\"{}\",IF(ISERROR({}),\"{}\",\"\")))",
                               failing, not_a_price, flag, stale_price, total, no_price),
                   fails ? not_a_price : "", Look::Warning);
    }

    const JobLines& lines_;
    const PricedJob& job_;
    const JobChecks& checks_;
    SheetWriter& out_;
};

} // namespace

Billed charged_for(const PricedJob& job, const lang::PriceItem& item) {
    const double amount = job.value(item.amount);
    const double quantity = item.quantity == none ? 0 : job.value(item.quantity);
    if (!(std::fabs(amount) < most_dollars) || !std::isfinite(quantity))
        return {};
    return charged(job.sheet(), job.plan(), job.values(), item, job.request().notation);
}

JobChecks place_checks(const PricedJob& job, std::uint32_t first_row,
                       const std::vector<char>& asked) {
    const lang::Sheet& sheet = job.sheet();
    const Plan& plan = job.plan();
    JobChecks checks;
    checks.first_row = first_row;
    std::uint32_t row = first_row + 1;
    for (std::size_t i = 0; i < sheet.requires_.size(); ++i) {
        const lang::Condition& require = sheet.requires_[i];
        const std::string entry =
            require.entry == none ? "" : sheet.entries[require.entry].name + ": ";
        checks.conditions.push_back(
            {CheckRow::Require, i, row++,
             require.condition == none
                 ? ""
                 : source_text(job.sources(), sheet.nodes[require.condition].span),
             entry + require.message, state_of(job.values().slot[plan.require_slot[i]])});
    }
    for (std::size_t i = 0; i < sheet.givens.size(); ++i) {
        const lang::Line& line = sheet.lines[sheet.givens[i].line];
        const Slot slot = slot_of(job.compiled(), sheet.givens[i].line);
        if (plan.within_low[i] == no_slot || plan.within_high[i] == no_slot || slot == no_slot ||
            asked[slot] == 0)
            continue;
        checks.conditions.push_back(
            {CheckRow::Within, i, row++,
             line.name + " within " + source_text(job.sources(), sheet.givens[i].within_span),
             "`" + line.name + "` stays in its allowed range", within_state(job, i)});
    }
    double below = 0;
    for (lang::LineId line = 0; line < sheet.lines.size(); ++line)
        if (const Slot slot = slot_of(job.compiled(), line);
            slot != no_slot && plan.not_negative[line] != 0 && asked[slot] != 0)
            below += job.values().slot[slot] < -sign_dust ? 1 : 0;
    checks.conditions.push_back({CheckRow::BelowZero, 0, row++, "no such line is below zero",
                                 "hours, money, acres, rates and shares are not below zero",
                                 below});
    checks.failing = row++;
    for (std::size_t i = 0; i < sheet.prices.size(); ++i, row += 4)
        checks.items.push_back({row, row + 1, row + 2, row + 3});
    checks.total = row++;
    checks.status = row;
    checks.last_row = row;
    return checks;
}

void write_checks(const JobLines& lines, SheetWriter& out) {
    Checks(lines, out).write();
}

} // namespace acre::engine
