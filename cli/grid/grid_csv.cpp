#include "cli/grid/grid_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"

namespace acre::cli {
namespace {

std::string column_head(const engine::Subject& subject) {
    const bool plain = subject.unit.empty() || subject.unit == "1";
    return csv_field(subject.name + (plain ? "" : " (" + subject.unit + ")"));
}

} // namespace

std::string grid_csv(const engine::GridAnswer& grid) {
    std::string out;
    for (const engine::GridAnswer::Along& along : grid.along)
        out += column_head(along.given) + ",";
    for (std::size_t c = 0; c < grid.columns.size(); ++c)
        out += (c == 0 ? "" : ",") + column_head(grid.columns[c].line);
    out += "\r\n";
    for (std::size_t cell = 0; cell < grid.cells; ++cell) {
        for (std::size_t k = 0; k < grid.along.size(); ++k) {
            const engine::GridAnswer::Along& along = grid.along[k];
            const double at = along.at[grid.place(cell, k)];
            out +=
                (along.given.is_choice() ? csv_field(along.given.option(at)) : bare_text(at)) + ",";
        }
        for (std::size_t c = 0; c < grid.columns.size(); ++c) {
            const double value = grid.columns[c].value[cell];
            out += (c == 0 ? "" : ",") + bare_text(value);
        }
        out += "\r\n";
    }
    return out;
}

} // namespace acre::cli
