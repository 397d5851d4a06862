#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/grid/grid_page.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

class GridPage {
  public:
    GridPage(const engine::GridAnswer& grid, bool color) : grid_(grid), color_(color) {}

    std::string draw() {
        std::string over;
        for (std::size_t k = 0; k < grid_.along.size(); ++k)
            over += (k == 0 ? "" : k + 1 == grid_.along.size() ? " and " : ", ") + name(k);
        std::string lines;
        for (const engine::GridAnswer::Column& column : grid_.columns)
            lines += (lines.empty() ? "" : ", ") + called(column.line);
        out_ = heading(capital(lines) + " over " + over, color_) + not_for_the_customer(color_);
        if (!grid_.title.empty())
            line(lang::terminal_text(grid_.title));
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
    const engine::GridAnswer& grid_;
    bool color_;
    std::string out_;

    void line(const std::string& text) { out_ += remark(text); }
    std::string name(std::size_t k) const { return called(grid_.along[k].given); }
    std::string place(std::size_t k, std::size_t i) const {
        return shown(grid_.along[k].given, grid_.along[k].at[i]);
    }
    // As a command line takes it.
    std::string setting(std::size_t k, std::size_t cell) const {
        const engine::GridAnswer::Along& along = grid_.along[k];
        const double at = along.at[grid_.place(cell, k)];
        return along.given.is_choice() ? along.given.option(at) : along.given.text(at);
    }
    std::size_t places(std::size_t k) const { return grid_.along[k].at.size(); }
    // The third given, if there is one, is the first: it turns the pages.
    std::size_t pages() const { return grid_.along.size() == 3 ? places(0) : 1; }
    std::string value(std::size_t column, std::size_t cell) const {
        const double at = grid_.columns[column].value[cell];
        return std::isfinite(at) ? shown(grid_.columns[column].line, at) : "-";
    }

    void lines_across() {
        std::vector<Column> heads = {{"", Align::Left}};
        for (const engine::GridAnswer::Column& column : grid_.columns)
            heads.push_back({called(column.line)});
        Table table(heads);
        for (std::size_t cell = 0; cell < grid_.cells; ++cell) {
            std::vector<std::string> row = {place(0, cell)};
            for (std::size_t c = 0; c < grid_.columns.size(); ++c)
                row.push_back(value(c, cell));
            table.row(std::move(row));
        }
        out_ += "\n";
        line("down: " + name(0));
        out_ += table.text(color_);
    }

    void givens_across(std::size_t c, std::size_t p) {
        const std::size_t down = grid_.along.size() - 2;
        const std::size_t across = down + 1;
        out_ += "\n";
        if (grid_.columns.size() > 1)
            out_ += heading(called(grid_.columns[c].line), color_);
        if (pages() > 1)
            line(name(0) + ": " + place(0, p));
        line("down: " + name(down) + "; across: " + name(across));
        // As many columns side by side as a page holds; the rest below.
        const std::size_t first = p * places(down) * places(across);
        const std::size_t at_once = columns_at_once(c, down, across, first);
        for (std::size_t from = 0; from < places(across); from += at_once)
            out_ += (from == 0 ? "" : "\n") +
                    part(c, first, down, across, from, std::min(places(across), from + at_once));
    }
    std::size_t columns_at_once(std::size_t c, std::size_t down, std::size_t across,
                                std::size_t first) const {
        std::size_t widest = 1;
        for (std::size_t i = 0; i < places(across); ++i)
            widest = std::max(widest, lang::text_columns(place(across, i)));
        for (std::size_t i = 0; i < places(down) * places(across); ++i)
            widest = std::max(widest, lang::text_columns(value(c, first + i)));
        std::size_t head = 1;
        for (std::size_t i = 0; i < places(down); ++i)
            head = std::max(head, lang::text_columns(place(down, i)));
        const std::size_t room = page_width > head + 4 ? page_width - head - 4 : 0;
        return std::max<std::size_t>(1, room / (widest + 2));
    }
    std::string part(std::size_t c, std::size_t first, std::size_t down, std::size_t across,
                     std::size_t from, std::size_t to) const {
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
        return table.text(color_);
    }

    void without_answer() {
        if (grid_.without_answer == 0)
            return;
        out_ += "\n";
        line(fmt::format("{} of {} cells have no answer (-)",
                         lang::number_text(static_cast<double>(grid_.without_answer)),
                         lang::number_text(static_cast<double>(grid_.cells))));
        if (grid_.first_without.empty())
            return;
        std::string first;
        for (std::size_t k = 0; k < grid_.along.size(); ++k)
            first += fmt::format(" --set {}='{}'", lang::terminal_text(grid_.along[k].given.name),
                                 lang::terminal_text(setting(k, grid_.first_without.front())));
        line("for the first of them, `acrewright price` says why, with" + first);
    }
};

} // namespace

std::string grid_text(const engine::GridAnswer& grid, bool color) {
    return GridPage(grid, color).draw();
}

} // namespace acre::cli
