#include "cli/grid/grid_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document grid_json(const engine::GridAnswer& grid) {
    Json out = {{"schema", "acrewright.grid/1"},
                {"money", money_json()},
                {"title", grid.title},
                {"along", Json::array()},
                {"lines", Json::array()}};
    for (const engine::GridAnswer::Along& along : grid.along) {
        Json places = Json::array();
        for (const double at : along.at)
            places.push_back(along.given.is_choice() ? Json(along.given.option(at)) : number(at));
        out["along"].push_back({{"name", along.given.name},
                                {"label", along.given.label},
                                {"unit", along.given.unit},
                                {"places", std::move(places)}});
    }
    for (const engine::GridAnswer::Column& column : grid.columns) {
        Json values = Json::array();
        for (const double value : column.value)
            values.push_back(number(value));
        out["lines"].push_back({{"name", column.line.name},
                                {"label", column.line.label},
                                {"unit", column.line.unit},
                                {"least", number(column.least)},
                                {"greatest", number(column.greatest)},
                                {"values", std::move(values)}});
    }
    out["cells"] = grid.cells;
    out["without_answer"] = grid.without_answer;
    return answered(std::move(out));
}

} // namespace acre::cli
