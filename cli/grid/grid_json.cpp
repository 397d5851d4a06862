#include "cli/grid/grid_page.h"
#include "cli/shared/json/value.h"
#include "cli/shared/words.h"
#include "engine/words/words.h"

namespace acre::cli {

std::string grid_json(const GridPage& page) {
    const lang::Sheet& sheet = page.job->sheet();
    Json out = {{"schema", "acrewright.grid/1"},
                {"title", title_of(sheet)},
                {"along", Json::array()},
                {"lines", Json::array()}};
    for (std::size_t k = 0; k < page.axes.size(); ++k) {
        const engine::Grid::Along& along = page.grid.along[k];
        const lang::Line& line = sheet.lines[along.axis.line];
        Json places = Json::array();
        for (std::size_t i = 0; i < along.at.size(); ++i)
            places.push_back(along.axis.options > 0 ? Json(page.axes[k].shown[i])
                                                    : number(along.at[i]));
        out["along"].push_back({{"name", line.name},
                                {"label", line.label},
                                {"unit", engine::unit_text(sheet, line)},
                                {"places", std::move(places)}});
    }
    for (const engine::Grid::Column& column : page.grid.columns) {
        const lang::Line& line = sheet.lines[column.line];
        Json values = Json::array();
        for (const double value : column.value)
            values.push_back(number(value));
        out["lines"].push_back({{"name", line.name},
                                {"label", line.label},
                                {"unit", engine::unit_text(sheet, line)},
                                {"least", number(column.least)},
                                {"greatest", number(column.greatest)},
                                {"values", std::move(values)}});
    }
    out["cells"] = page.grid.cells;
    out["without_answer"] = page.grid.without_answer;
    return document(out);
}

} // namespace acre::cli
