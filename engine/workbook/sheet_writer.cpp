#include "engine/workbook/sheet_writer.h"

#include <cmath>
#include <utility>

#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::engine {

namespace {

constexpr double least_shown = 1e-3;

// In quotes, as a number format has words of its own.
std::string sign_format() {
    return '"' + lang::sign_before() + '"';
}

} // namespace

std::string money_format() {
    const std::string plain =
        sign_format() + (lang::shown_money().decimals() == 0 ? "#,##0" : "#,##0.00");
    return plain + ";-" + plain;
}

std::string rate_format() {
    return sign_format() + "#,##0.00#######";
}

std::string figure_format(std::string_view unit, double value) {
    const bool small = value != 0 && std::fabs(value) < least_shown;
    if (lang::money_in(unit) > 0)
        return small ? sign_format() + "0.00E+00" : money_format();
    if (small)
        return "0.00E+00";
    return value == std::floor(value) && std::fabs(value) < 1000 ? "General" : "#,##0.00##";
}

void SheetWriter::text(std::uint32_t row, std::uint32_t column, std::string_view text, Look look) {
    BookCell cell{row, column, CellKind::Text, std::string(text), 0, {}, look, {}, 1};
    if (cell.text.empty() && look == Look::Plain)
        return;
    sheet_.cells.push_back(std::move(cell));
}

void SheetWriter::number(std::uint32_t row, std::uint32_t column, double value, std::string format,
                         Look look) {
    sheet_.cells.push_back(
        {row, column, CellKind::Number, {}, value, {}, look, std::move(format), 1});
}

void SheetWriter::formula(std::uint32_t row, std::uint32_t column, std::string formula,
                          double value, std::string format, Look look) {
    sheet_.cells.push_back({row,
                            column,
                            CellKind::Formula,
                            std::move(formula),
                            value,
                            {},
                            look,
                            std::move(format),
                            1});
}

void SheetWriter::words(std::uint32_t row, std::uint32_t column, std::string formula,
                        std::string_view shown, Look look) {
    sheet_.cells.push_back({row,
                            column,
                            CellKind::Formula,
                            std::move(formula),
                            std::nan(""),
                            std::string(shown),
                            look,
                            {},
                            1});
}

void SheetWriter::blank(std::uint32_t row, std::uint32_t column, Look look) {
    sheet_.cells.push_back({row, column, CellKind::Blank, {}, 0, {}, look, {}, 1});
}

void SheetWriter::headings(std::uint32_t row, std::initializer_list<std::string_view> titles) {
    std::uint32_t column = 0;
    for (const std::string_view title : titles)
        text(row, column++, title, Look::Heading);
}

} // namespace acre::engine
