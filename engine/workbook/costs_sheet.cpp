// From cost to price: every cost a rate times a quantity, then each step of each price.
#include <cmath>

#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"
#include "lang/units/named_unit.h"

namespace acre::engine {

using lang::none;

namespace {

// From the unit of a step to the one that it is shown in.
lang::Conversion to_named(const lang::Sheet& sheet, lang::NodeId value) {
    const lang::Node& node = sheet.nodes[value];
    if (node.op == lang::Op::Line)
        return {};
    return lang::conversion(node.type.unit, lang::named_unit(sheet.units, node.type.unit).unit);
}

class CostPage {
  public:
    CostPage(const BookJob& job, BookSheet& sheet)
        : job_(*job.job),
          lines_(*job.lines),
          out_(sheet) {}

    void write() {
        out_.text(row_++, what, "Costs, and from cost to price", Look::Title);
        out_.text(
            row_++, what,
            "A rate times a quantity each; rates and quantities are those of the sheet Lines.");
        ++row_;
        constexpr std::pair<const char*, Look> titles[] = {
            {"cost", Look::Heading},        {"rate", Look::FigureHeading},
            {"unit", Look::UnitHeading},    {"quantity", Look::FigureHeading},
            {"unit", Look::UnitHeading},    {"amount", Look::FigureHeading},
            {"share", Look::FigureHeading},
        };
        for (std::uint32_t column = 0; column < std::size(titles); ++column)
            out_.text(row_, column, titles[column].first, titles[column].second);
        ++row_;
        std::uint32_t part = none;
        for (const lang::Cost& cost : job_.sheet().costs) {
            if (cost.part != part && cost.part != none)
                out_.text(row_++, what, job_.sheet().parts[cost.part].title, Look::Part);
            part = cost.part;
            cost_row(cost);
        }
        const lang::LineId total = job_.sheet().cost_total;
        out_.text(row_, what, "All costs", Look::Total);
        value(amount, total, Look::Total);
        row_ += 2;
        for (const lang::PriceItem& item : job_.sheet().prices)
            steps(item);
        if (job_.sheet().profit_total != none) {
            out_.text(row_, what, "Profit, overhead paid");
            value(amount, job_.sheet().profit_total, Look::Total);
        }
    }

  private:
    enum Column : std::uint32_t { what, rate, rate_unit, quantity, quantity_unit, amount, share };

    void value(std::uint32_t column, lang::LineId line, Look look = Look::Figure) {
        if (line == none)
            return;
        const std::string unit = unit_text(job_.sheet(), job_.sheet().lines[line]);
        const double is = job_.value(line);
        out_.formula(row_, column, "=" + lines_.value_of(line), is, figure_format(unit, is), look);
    }
    std::string unit_of(lang::LineId line) const {
        const std::string unit = unit_text(job_.sheet(), job_.sheet().lines[line]);
        return unit == "1" ? std::string() : unit; // so many times
    }

    void cost_row(const lang::Cost& cost) {
        const lang::Line& line = job_.sheet().lines[cost.rate];
        out_.text(row_, what, line.label.empty() ? line.name : line.label, Look::Wrapped);
        value(rate, cost.rate);
        out_.text(row_, rate_unit, unit_of(cost.rate), Look::Unit);
        const double times = job_.value(cost.quantity);
        out_.formula(row_, quantity, "=" + lines_.value_of(cost.quantity), times, "#,##0.00");
        out_.text(row_, quantity_unit, unit_of(cost.quantity), Look::Unit);
        value(amount, cost.amount);
        if (job_.sheet().cost_total != none) {
            const double total = job_.value(job_.sheet().cost_total);
            const std::string all = lines_.value_of(job_.sheet().cost_total);
            out_.formula(row_, share,
                         "=IF(" + all + "=0,0," + lines_.value_of(cost.amount) + "/" + all + ")",
                         total == 0 ? 0 : job_.value(cost.amount) / total, "0.0%");
        }
        ++row_;
    }

    void steps(const lang::PriceItem& item) {
        out_.text(row_, what, item.title, Look::Part);
        out_.text(row_, quantity, "added", Look::FigureHeading);
        out_.text(row_++, amount, "subtotal", Look::FigureHeading);
        out_.text(row_, what, "cost");
        value(amount, item.cost);
        ++row_;
        lang::LineId before = item.cost;
        for (const lang::PriceStep& step : item.steps) {
            out_.text(row_, what, source_text(job_.sources(), step.span), Look::Wrapped);
            const Slot by =
                step.value == none ? no_slot : job_.compiled().origins.slot_of_node[step.value];
            if (by != no_slot) {
                const std::string unit = unit_of_node(job_.sheet(), step.value);
                const lang::Conversion shown = to_named(job_.sheet(), step.value);
                const double is = shown.apply(job_.values().slot[by]);
                out_.formula(row_, rate,
                             "=" + lines_.formulas().elsewhere(by) +
                                 (shown.is_identity() ? ""
                                  : shown.divide      ? "/"
                                                      : "*") +
                                 (shown.is_identity() ? "" : formula_number(shown.factor)),
                             is, figure_format(unit, is));
                out_.text(row_, rate_unit, unit, Look::Unit);
            }
            out_.formula(row_, quantity,
                         "=" + lines_.value_of(step.line) + "-" + lines_.value_of(before),
                         job_.value(step.line) - job_.value(before), money_format());
            value(amount, step.line);
            ++row_;
            before = step.line;
        }
        const std::size_t index = static_cast<std::size_t>(&item - job_.sheet().prices.data());
        const std::uint32_t charged = lines_.checks().items[index].cents;
        out_.text(row_, what, "charged, to the cent", Look::Total);
        out_.formula(row_++, amount, "=" + lines_.at(charged),
                     static_cast<double>(charged_for(job_, item).cents) / 100, money_format(),
                     Look::Total);
        ++row_;
    }

    const PricedJob& job_;
    const JobLines& lines_;
    SheetWriter out_;
    std::uint32_t row_ = 0;
};

} // namespace

BookSheet costs_sheet(const BookJob& job) {
    BookSheet sheet;
    sheet.name = "Costs";
    sheet.widths = {36, 14, 10, 14, 10, 15, 8};
    sheet.frozen_rows = 4;
    sheet.landscape = true;
    CostPage(job, sheet).write();
    return sheet;
}

} // namespace acre::engine
