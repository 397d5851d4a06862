#include <algorithm>

#include "cli/grid/grid_page.h"
#include "cli/shared/chart/curves.h"
#include "cli/shared/chart/heat_map.h"
#include "cli/shared/words.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using engine::GridAnswer;
using lang::placeless;

std::string picture_title(const GridAnswer& grid) {
    return capital(grid.columns[0].line.called) + (grid.title.empty() ? "" : ": " + grid.title);
}

lang::Outcome<std::string> curves(const GridAnswer& grid) {
    constexpr std::size_t most = 8;
    const GridAnswer::Along& along = grid.along[0];
    if (!std::is_sorted(along.at.begin(), along.at.end()))
        return placeless(lang::Code::Q009, "a curve needs values in rising order");
    if (grid.columns.size() > most)
        return placeless(lang::Code::Q006, "a picture shows at most eight curves");
    const std::string& unit = grid.columns[0].line.unit;
    Curves curves{
        picture_title(grid), along.given.called, along.given.unit, unit, along.at, {}, {}};
    for (const GridAnswer::Column& column : grid.columns) {
        if (column.line.unit != unit)
            return placeless(lang::Code::Q009, "a picture shows lines of one unit: `" +
                                                   column.line.name + "` is in " +
                                                   column.line.unit + ", not " + unit);
        curves.curves.push_back({column.line.called, column.value});
    }
    return curves_svg(curves);
}

std::vector<std::string> shown_along(const GridAnswer::Along& along) {
    std::vector<std::string> all;
    for (const double at : along.at)
        all.push_back(along.given.text(at));
    return all;
}

lang::Outcome<std::string> shaded(const GridAnswer& grid) {
    if (grid.columns.size() > 1)
        return placeless(lang::Code::Q006,
                         "a picture over two givens shows one line: name it with `--of`");
    if (grid.cells > max_heat_cells)
        return placeless(lang::Code::Q006,
                         "a picture shows at most " + lang::number_text(max_heat_cells) + " cells");
    HeatMap map{picture_title(grid), grid.columns[0].line.unit, "", "", {}, {}, {}};
    const std::size_t across = grid.along.size() - 1;
    map.x_name = grid.along[across].given.called;
    map.x = shown_along(grid.along[across]);
    map.y = {""};
    if (across > 0) {
        map.y_name = grid.along[across - 1].given.called;
        map.y = shown_along(grid.along[across - 1]);
    }
    const std::size_t size = map.x.size() * map.y.size();
    for (std::size_t page = 0; page < grid.cells / size; ++page) {
        const double* from = grid.columns[0].value.data() + page * size;
        std::string name;
        if (across == 2)
            name = grid.along[0].given.called + ": " + shown_along(grid.along[0])[page];
        map.maps.push_back({std::move(name), {from, from + size}});
    }
    return heat_map_svg(map);
}

} // namespace

lang::Outcome<std::string> grid_svg(const GridAnswer& grid) {
    const bool curve = grid.along.size() == 1 && !grid.along[0].given.is_choice() && grid.cells > 1;
    return curve ? curves(grid) : shaded(grid);
}

} // namespace acre::cli
