#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "cli/grid/grid_page.h"
#include "cli/shared/chart/curves.h"
#include "cli/shared/chart/heat_map.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

class Page {
  public:
    explicit Page(const GridPage& page)
        : page_(page),
          grid_(page.grid),
          sheet_(page.job->sheet()) {}

    std::string draw() {
        std::string over;
        for (std::size_t k = 0; k < grid_.along.size(); ++k)
            over += (k == 0 ? "" : k + 1 == grid_.along.size() ? " and " : ", ") + name(k);
        std::string lines;
        for (const engine::Grid::Column& column : grid_.columns)
            lines += (lines.empty() ? "" : ", ") + called_asked(sheet_, column.line, page_.names);
        out_ = bold(wrap(capital(lines) + " over " + over, page_width), page_.color) + "\n";
        if (const std::string title = title_of(sheet_); !title.empty())
            out_ += "  " + lang::terminal_text(title) + "\n";
        if (grid_.along.size() == 1)
            lines_across();
        else
            for (std::size_t c = 0; c < grid_.columns.size(); ++c)
                for (std::size_t p = 0; p < pages(); ++p)
                    givens_across(c, p);
        without_answer();
        return std::move(out_);
    }

  private:
    const GridPage& page_;
    const engine::Grid& grid_;
    const lang::Sheet& sheet_;
    std::string out_;

    std::string name(std::size_t k) const {
        return called(sheet_, grid_.along[k].axis.line, page_.names);
    }
    std::string place(std::size_t k, std::size_t i) const {
        return lang::terminal_text(page_.axes[k].shown[i]);
    }
    std::size_t places(std::size_t k) const { return grid_.along[k].at.size(); }
    // The third given, if there is one, is the first: it turns the pages.
    std::size_t pages() const { return grid_.along.size() == 3 ? places(0) : 1; }
    std::string value(std::size_t column, std::size_t cell) const {
        const double at = grid_.columns[column].value[cell];
        return std::isfinite(at) ? shown(sheet_, grid_.columns[column].line, at) : "-";
    }

    void lines_across() {
        std::vector<Column> heads = {{"", Align::Left}};
        for (const engine::Grid::Column& column : grid_.columns)
            heads.push_back({called_asked(sheet_, column.line, page_.names)});
        Table table(heads);
        for (std::size_t cell = 0; cell < grid_.cells; ++cell) {
            std::vector<std::string> row = {place(0, cell)};
            for (std::size_t c = 0; c < grid_.columns.size(); ++c)
                row.push_back(value(c, cell));
            table.row(std::move(row));
        }
        out_ += "\n  down: " + name(0) + "\n" +
                table.text(page_.color, std::numeric_limits<std::size_t>::max() / 2);
    }

    void givens_across(std::size_t c, std::size_t p) {
        const std::size_t down = grid_.along.size() - 2;
        const std::size_t across = down + 1;
        out_ += "\n";
        if (grid_.columns.size() > 1)
            out_ +=
                bold(called_asked(sheet_, grid_.columns[c].line, page_.names), page_.color) + "\n";
        if (pages() > 1)
            out_ += "  " + name(0) + ": " + place(0, p) + "\n";
        out_ += "  " +
                wrap("down: " + name(down) + "; across: " + name(across), page_width - 2, 4) + "\n";
        // As many columns side by side as a page holds; the rest below.
        std::size_t widest = 1;
        for (std::size_t i = 0; i < places(across); ++i)
            widest = std::max(widest, lang::text_columns(place(across, i)));
        const std::size_t first = p * places(down) * places(across);
        for (std::size_t i = 0; i < places(down) * places(across); ++i)
            widest = std::max(widest, value(c, first + i).size());
        std::size_t head = 1;
        for (std::size_t i = 0; i < places(down); ++i)
            head = std::max(head, lang::text_columns(place(down, i)));
        const std::size_t room = page_width > head + 4 ? page_width - head - 4 : 0;
        const std::size_t at_once = std::max<std::size_t>(1, room / (widest + 2));
        for (std::size_t from = 0; from < places(across); from += at_once) {
            const std::size_t to = std::min(places(across), from + at_once);
            std::vector<Column> heads = {{"", Align::Left}};
            for (std::size_t i = from; i < to; ++i)
                heads.push_back({place(across, i)});
            Table table(heads);
            for (std::size_t r = 0; r < places(down); ++r) {
                std::vector<std::string> row = {place(down, r)};
                for (std::size_t i = from; i < to; ++i)
                    row.push_back(value(c, first + r * places(across) + i));
                table.row(std::move(row));
            }
            out_ += (from == 0 ? "" : "\n") +
                    table.text(page_.color, std::numeric_limits<std::size_t>::max() / 2);
        }
    }

    void without_answer() {
        if (grid_.without_answer == 0)
            return;
        out_ += "\n  " +
                wrap(fmt::format("{} of {} cells have no answer, shown as -",
                                 lang::number_text(static_cast<double>(grid_.without_answer)),
                                 lang::number_text(static_cast<double>(grid_.cells))),
                     page_width - 2, 4) +
                "\n";
        if (grid_.first_without.empty())
            return;
        std::string first;
        for (std::size_t k = 0; k < grid_.along.size(); ++k)
            first += fmt::format(" --set {}='{}'", page_.axes[k].given,
                                 place(k, grid_.place(grid_.first_without.front(), k)));
        out_ += "  " + wrap("the first; `acrewright price` says why:" + first, page_width - 2, 4) +
                "\n";
    }
};

std::string map_title(const lang::Sheet& sheet, lang::LineId line, bool names) {
    const std::string title = title_of(sheet);
    return capital(called_asked(sheet, line, names)) + (title.empty() ? "" : ": " + title);
}

} // namespace

std::string grid_text(const GridPage& page) {
    return Page(page).draw();
}

std::string grid_csv(const GridPage& page) {
    const lang::Sheet& sheet = page.job->sheet();
    std::string out;
    for (const AxisWords& axis : page.axes) {
        const lang::Line& line = sheet.lines[sheet.find(axis.given)];
        out += csv_field(axis.given + (line.unit_text.empty() || line.unit_text == "1"
                                           ? ""
                                           : " (" + line.unit_text + ")")) +
               ",";
    }
    for (std::size_t c = 0; c < page.grid.columns.size(); ++c) {
        const lang::Line& line = sheet.lines[page.grid.columns[c].line];
        out += (c == 0 ? "" : ",") +
               csv_field(line.name + (line.unit_text.empty() ? "" : " (" + line.unit_text + ")"));
    }
    out += "\r\n";
    for (std::size_t cell = 0; cell < page.grid.cells; ++cell) {
        for (std::size_t k = 0; k < page.axes.size(); ++k) {
            const std::size_t i = page.grid.place(cell, k);
            out += (page.grid.along[k].axis.options > 0
                        ? csv_field(page.axes[k].shown[i])
                        : fmt::format("{}", page.grid.along[k].at[i])) +
                   ",";
        }
        for (std::size_t c = 0; c < page.grid.columns.size(); ++c) {
            const double value = page.grid.columns[c].value[cell];
            out += (c == 0 ? "" : ",") + (std::isfinite(value) ? fmt::format("{}", value) : "");
        }
        out += "\r\n";
    }
    return out;
}

bool grid_svg(const GridPage& page, std::string& svg, std::string& reason) {
    const lang::Sheet& sheet = page.job->sheet();
    const engine::Grid& grid = page.grid;
    const auto name = [&](std::size_t k) {
        return called(sheet, grid.along[k].axis.line, page.names);
    };
    const std::string& unit = sheet.lines[grid.columns[0].line].unit_text;
    if (grid.along.size() == 1 && grid.along[0].axis.options == 0 && grid.cells > 1) {
        if (!std::is_sorted(grid.along[0].at.begin(), grid.along[0].at.end())) {
            reason = "a curve needs places that rise";
            return false;
        }
        if (grid.columns.size() > 8) {
            reason = "a picture shows eight curves at most";
            return false;
        }
        Curves curves{map_title(sheet, grid.columns[0].line, page.names),
                      name(0),
                      sheet.lines[grid.along[0].axis.line].unit_text,
                      unit,
                      grid.along[0].at,
                      {},
                      {}};
        for (const engine::Grid::Column& column : grid.columns) {
            if (sheet.lines[column.line].unit_text != unit) {
                reason = "a picture shows lines of one unit: `" + sheet.lines[column.line].name +
                         "` is in " + sheet.lines[column.line].unit_text + ", not " + unit;
                return false;
            }
            curves.curves.push_back({called_asked(sheet, column.line, page.names), column.value});
        }
        svg = curves_svg(curves);
        return true;
    }
    if (grid.columns.size() > 1 || grid.cells > max_heat_cells) {
        reason = grid.columns.size() > 1
                     ? "a picture over two givens shows one line: name it with `--of`"
                     : fmt::format("a picture shows {} cells at most",
                                   lang::number_text(max_heat_cells));
        return false;
    }
    HeatMap map{map_title(sheet, grid.columns[0].line, page.names), unit, "", "", {}, {}, {}};
    const std::size_t across = grid.along.size() - 1;
    map.x_name = name(across);
    map.x = page.axes[across].shown;
    map.y = across == 0 ? std::vector<std::string>{""} : page.axes[across - 1].shown;
    map.y_name = across == 0 ? "" : name(across - 1);
    const std::size_t size = map.x.size() * map.y.size();
    for (std::size_t p = 0; p < grid.cells / size; ++p) {
        const double* from = grid.columns[0].value.data() + p * size;
        map.maps.push_back(
            {across == 2 ? name(0) + ": " + page.axes[0].shown[p] : "", {from, from + size}});
    }
    svg = heat_map_svg(map);
    return true;
}

} // namespace acre::cli
