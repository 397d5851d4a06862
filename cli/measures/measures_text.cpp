#include "cli/measures/measures_page.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/wrap.h"

namespace acre::cli {

namespace {

constexpr std::size_t name_columns = 8;
constexpr std::size_t is_columns = 22;
constexpr std::size_t spelling_column = 2 + name_columns + is_columns;

} // namespace

std::string measures_text(const engine::MeasuresAnswer& answer, bool color) {
    std::string text;
    std::string_view kind;
    for (const lang::Measure& unit : answer.units) {
        if (unit.kind != kind) {
            kind = unit.kind;
            text += (text.empty() ? "" : "\n") + heading(kind, color);
        }
        std::string also;
        for (const std::string_view spelling : unit.spellings)
            also.append(also.empty() ? "also " : ", ").append(spelling);
        std::string line = "  " + padded(unit.name, name_columns) +
                           padded(unit.is.empty() ? "" : "= " + unit.is, is_columns) +
                           wrap(also, page_width, spelling_column);
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

} // namespace acre::cli
