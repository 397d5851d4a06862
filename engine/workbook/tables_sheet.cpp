#include <utility>

#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"

namespace acre::engine {

namespace {

constexpr const char* tables_sheet_name = "Tables";
constexpr std::uint32_t tables_first_row = 3;
constexpr std::uint32_t x_column = 0, y_column = 1, list_column = 3;

std::string outside(const lang::Table& table) {
    const auto says = [](bool holds) { return holds ? "held" : "no answer"; };
    std::string text = table.staircase ? "each row holds until the next" : "between rows in line";
    text += "; below the first row: ";
    text += says(table.hold_below);
    text += "; above the last: ";
    return text + says(table.hold_above);
}

TablePlace put_table(const lang::Table& table, std::uint32_t row, SheetWriter& out) {
    out.text(row, x_column, table.name, Look::Part);
    out.text(row + 1, x_column, (table.label.empty() ? "" : table.label + "; ") + outside(table),
             Look::Small);
    out.span(2);
    out.text(row + 2, x_column, table.parameter_name + " (" + table.parameter_text + ")",
             Look::FigureHeading);
    out.text(row + 2, y_column, table.result_text, Look::FigureHeading);
    const std::uint32_t first = row + 3;
    const auto last = first + static_cast<std::uint32_t>(table.x.size()) - 1;
    for (std::uint32_t i = 0; i < table.x.size(); ++i) {
        out.number(first + i, x_column, table.x[i], "General");
        out.number(first + i, y_column, table.y[i], "General");
    }
    const auto cell = [](std::uint32_t at) {
        return on_sheet(tables_sheet_name, fixed_address(at, x_column));
    };
    return {on_sheet(tables_sheet_name, fixed_range(first, x_column, last, x_column)),
            on_sheet(tables_sheet_name, fixed_range(first, y_column, last, y_column)), cell(first),
            cell(last), table.x.size()};
}

} // namespace

TablesSheet tables_sheet(const PricedJob& job) {
    TablesSheet made;
    made.sheet.name = tables_sheet_name;
    made.sheet.widths = {24, 16, 4, 28};
    made.sheet.frozen_rows = 2;
    SheetWriter out(made.sheet);
    out.text(0, 0, "Tables and choices", Look::Title);
    out.text(1, 0, "What the formulas look up. They are the model's: change them there.");
    std::uint32_t row = tables_first_row;
    for (const lang::Table& table : job.sheet().tables) {
        made.tables.push_back(put_table(table, row, out));
        row += 5 + static_cast<std::uint32_t>(table.x.size());
    }
    row = tables_first_row;
    for (const lang::ChoiceType& choice : job.sheet().choices) {
        if (choice.options.empty()) { // a list that no job has filled
            made.lists.emplace_back();
            continue;
        }
        out.text(row, list_column, choice.name, Look::Heading);
        const std::uint32_t first = ++row;
        for (const std::string& option : option_words(choice))
            out.text(row++, list_column, option);
        made.lists.push_back(
            on_sheet(tables_sheet_name, fixed_range(first, list_column, row - 1, list_column)));
        ++row;
    }
    return made;
}

} // namespace acre::engine
