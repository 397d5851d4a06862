#include "cli/season/days_svg.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/season/days_grid.h"
#include "cli/season/season_words.h"
#include "cli/shared/chart/paper.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

constexpr std::size_t columns_across = 3;
constexpr double least_row = 20, day_height = 3, most_row = 60; // of a row
constexpr double most_height = 520;                             // of the rows of one picture
constexpr double dates_width = 66, space = 8, type_above = 14;

double height_of(const DaysGrid::Row& row) {
    return std::clamp(day_height * static_cast<double>(row.last - row.first + 1), least_row,
                      most_row) +
           (row.after_gap ? space : 0);
}

std::string short_date(long day) {
    const std::string text = lang::short_day_text(lang::date_text(day));
    return text.substr(0, text.find(','));
}

// Rows from `first` to `last`, columns from `left` to `right`; the last of each left out.
struct Panel {
    std::size_t first = 0, last = 0, left = 0, right = 0;
};

class DaysPicture {
  public:
    DaysPicture(const engine::Season& season, const DaysGrid& grid, const Panel& panel,
                const std::string& title)
        : s_(season),
          grid_(grid),
          panel_(panel),
          paper_(title) {
        const double all = paper_width - paper_edge - left();
        width_ = all / static_cast<double>(panel.right - panel.left);
        top_ = paper_.below_title() + line_height + 6;
        double y = top_;
        for (std::size_t r = panel.first; r < panel.last; ++r) {
            y_.push_back(y + (grid.rows[r].after_gap ? space : 0));
            y += height_of(grid.rows[r]);
        }
        bottom_ = y;
    }

    std::string draw() {
        heads();
        dates();
        for (std::size_t c = panel_.left; c < panel_.right; ++c)
            column(c);
        double y = bottom_ + 2 * line_height;
        if (twice_) {
            paper_.box(paper_edge, y - 12, 24, 13, Ink::Paper, Ink::Fault);
            paper_.text(paper_edge + 32, y, "wanted twice");
            y += line_height;
        }
        return std::move(paper_).finish(y);
    }

  private:
    const engine::Season& s_;
    const DaysGrid& grid_;
    Panel panel_;
    Paper paper_;
    double width_ = 0, top_ = 0, bottom_ = 0;
    std::vector<double> y_; // of the rows of the panel
    bool twice_ = false;

    static double left() { return paper_edge + dates_width; }
    double x(std::size_t column) const {
        return left() + width_ * static_cast<double>(column - panel_.left);
    }
    double row_bottom(std::size_t row) const {
        const double top = y_[row - panel_.first];
        return top + height_of(grid_.rows[row]) - (grid_.rows[row].after_gap ? space : 0);
    }

    void heads() {
        for (std::size_t c = panel_.left; c < panel_.right; ++c) {
            const DaysGrid::Column& column = grid_.columns[c];
            paper_.text(x(c) + 4, top_ - 8,
                        fitting(unit_words(s_.machines[column.machine], column.unit), width_ - 8,
                                Weight::Bold),
                        Anchor::Start, Ink::Ink, Weight::Bold);
        }
        paper_.path(
            fmt::format("M{:.1f} {:.1f}H{:.1f}", paper_edge, top_, paper_width - paper_edge),
            Ink::Ink);
    }
    void dates() {
        for (std::size_t r = panel_.first; r < panel_.last; ++r) {
            const double top = y_[r - panel_.first];
            paper_.path(
                fmt::format("M{:.1f} {:.1f}H{:.1f}", paper_edge, top, paper_width - paper_edge),
                Ink::Rule);
            paper_.text(paper_edge, top + type_above, short_date(grid_.rows[r].first),
                        Anchor::Start, Ink::Soft);
        }
        paper_.path(
            fmt::format("M{:.1f} {:.1f}H{:.1f}", paper_edge, bottom_, paper_width - paper_edge),
            Ink::Rule);
        paper_.text(paper_edge, bottom_ + type_above,
                    "to " + short_date(grid_.rows[panel_.last - 1].last), Anchor::Start, Ink::Soft);
    }
    void column(std::size_t c) {
        for (std::size_t r = panel_.first; r < panel_.last;) {
            const std::vector<std::size_t>& jobs = grid_.rows[r].jobs[c];
            std::size_t end = r + 1;
            while (end < panel_.last && grid_.rows[end].jobs[c] == jobs &&
                   !grid_.rows[end].after_gap)
                ++end;
            if (!jobs.empty())
                bar(c, y_[r - panel_.first], row_bottom(end - 1), jobs);
            r = end;
        }
    }
    void bar(std::size_t c, double top, double bottom, const std::vector<std::size_t>& jobs) {
        const bool twice = jobs.size() > 1;
        twice_ = twice_ || twice;
        paper_.box(x(c) + 1, top + 1, width_ - 4, bottom - top - 2, twice ? Ink::Paper : Ink::Tint,
                   twice ? Ink::Fault : Ink::Ground);
        std::string words;
        for (const std::size_t job : jobs)
            words += (words.empty() ? "" : " and ") + count_text(job + 1);
        if (!twice)
            words += " " + s_.jobs[jobs[0]].title;
        const auto room = static_cast<std::size_t>((bottom - top - 4) / 16);
        const std::vector<std::string> lines = drawn_lines(words, width_ - 14);
        if (room <= 1 || lines.size() <= 1) {
            paper_.text(x(c) + 6, top + type_above + 1, fitting(words, width_ - 14));
            return;
        }
        for (std::size_t i = 0; i < std::min(room, lines.size()); ++i)
            paper_.text(x(c) + 6, top + type_above + 1 + 16 * static_cast<double>(i), lines[i]);
    }
};

} // namespace

std::string days_svg(const engine::Season& season, const engine::UnitsOfJobs& units,
                     const std::string& title) {
    const DaysGrid grid = days_grid(season, units);
    std::string out;
    for (std::size_t left = 0; left < grid.columns.size(); left += columns_across) {
        const std::size_t right = std::min(left + columns_across, grid.columns.size());
        // Rows in which one of these machines is out.
        DaysGrid part{grid.columns, {}, grid.all};
        for (const DaysGrid::Row& row : grid.rows) {
            const bool any = std::any_of(row.jobs.begin() + static_cast<std::ptrdiff_t>(left),
                                         row.jobs.begin() + static_cast<std::ptrdiff_t>(right),
                                         [](const auto& jobs) { return !jobs.empty(); });
            if (!any)
                continue;
            part.rows.push_back(row);
            part.rows.back().after_gap =
                part.rows.size() > 1 && part.rows[part.rows.size() - 2].last + 1 < row.first;
        }
        for (std::size_t first = 0; first < part.rows.size();) {
            std::size_t last = first;
            double height = 0;
            while (last < part.rows.size() &&
                   (last == first || height + height_of(part.rows[last]) <= most_height))
                height += height_of(part.rows[last++]);
            part.rows[first].after_gap = false;
            out += DaysPicture(season, part, {first, last, left, right},
                               out.empty() ? title : title + ", continued")
                       .draw();
            first = last;
        }
    }
    return out;
}

} // namespace acre::cli
