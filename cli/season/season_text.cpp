#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/season/report.h"
#include "cli/shared/clock.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

std::string whole(double dollars) {
    return lang::quantity_text(std::round(dollars), "$");
}
std::string hours(double value) {
    return fmt::format("{:.0f}", value);
}

class Page {
  public:
    Page(const engine::Season& season, const SeasonNames& names, bool color)
        : s_(season),
          names_(names),
          color_(color) {}

    std::string draw() {
        out_ = bold(fmt::format("The season of {}: {} jobs, {} billed, {} left over",
                                terminal_text(names_.title), s_.jobs.size(), whole(s_.price),
                                whole(s_.price - s_.cost)),
                    color_) +
               "\n";
        jobs();
        machines();
        months();
        clashes();
        year();
        return std::move(out_);
    }

  private:
    const engine::Season& s_;
    const SeasonNames& names_;
    bool color_;
    std::string out_;

    void heading(const char* text) { out_ += "\n" + bold(text, color_) + "\n"; }

    void jobs() {
        heading("Jobs, those that leave least for a day first");
        Table table({{"start", Align::Left},
                     {"job", Align::Left, true},
                     {"days"},
                     {"price"},
                     {"left over"},
                     {"a day"}});
        for (const std::size_t i : s_.by_day_pay) {
            const engine::SeasonJob& job = s_.jobs[i];
            table.row({date_text(job.start), terminal_text(job.title), hours(job.days),
                       whole(job.price), whole(job.price - job.cost),
                       whole((job.price - job.cost) / std::max(1.0, job.days))});
        }
        out_ += table.text(color_);
    }
    void machines() {
        heading("Machines");
        Table table({{"", Align::Left, true},
                     {"h booked"},
                     {"h assumed"},
                     {"share"},
                     {"own, assumed"},
                     {"own, booked"},
                     {"not earned"}});
        for (const engine::MachineRow& row : s_.machines)
            table.row({terminal_text(row.machine.name), hours(row.booked),
                       hours(row.machine.hours_per_year), fmt::format("{:.0f} %", 100 * row.share),
                       lang::quantity_text(row.machine.own_per_hour, "$/h"),
                       row.booked > 0
                           ? lang::quantity_text(std::round(row.own_at_booked * 100) / 100, "$/h")
                           : "-",
                       whole(row.not_earned)});
        out_ += table.text(color_);
        for (const engine::MachineRow& row : s_.machines) {
            if (row.share > 1)
                out_ += "  " +
                        wrap(fmt::format("{} is short: booked {:.0f} h more than a year of it was "
                                         "taken to give.",
                                         terminal_text(row.machine.name),
                                         row.booked - row.machine.hours_per_year),
                             page_width - 2, 2) +
                        "\n";
            else if (row.booked > 0)
                out_ += "  " +
                        wrap(fmt::format(
                                 "{}: each hour it stands leaves {} of fixed cost unearned.",
                                 terminal_text(row.machine.name),
                                 lang::quantity_text(std::round(row.idle_hour * 100) / 100, "$/h")),
                             page_width - 2, 2) +
                        "\n";
        }
    }
    void months() {
        heading("Months");
        std::vector<Column> heads = {{"", Align::Left}, {"days"},  {"acres"},
                                     {"gallons"},       {"spent"}, {"billed"}};
        std::vector<std::string> shown;
        for (const engine::MachineRow& row : s_.machines)
            if (row.booked > 0 && shown.size() < 3) {
                shown.push_back(row.machine.name);
                heads.push_back({terminal_text(row.machine.name) + " h"});
            }
        // A bar for the hours of the machine that works most.
        double most = 1e-9;
        for (const engine::MonthRow& month : s_.months)
            if (const auto it = shown.empty() ? month.hours.end() : month.hours.find(shown[0]);
                it != month.hours.end())
                most = std::max(most, it->second);
        heads.push_back({"", Align::Left});
        Table table(heads);
        for (const engine::MonthRow& month : s_.months) {
            std::vector<std::string> cells = {fmt::format("{}-{:02}", month.year, month.month),
                                              hours(month.job_days),
                                              hours(month.acres),
                                              hours(month.gallons),
                                              whole(month.spent),
                                              whole(month.billed)};
            for (const std::string& name : shown) {
                const auto it = month.hours.find(name);
                cells.push_back(hours(it == month.hours.end() ? 0 : it->second));
            }
            const auto first = shown.empty() ? month.hours.end() : month.hours.find(shown[0]);
            cells.push_back(
                first == month.hours.end()
                    ? ""
                    : std::string(static_cast<std::size_t>(std::lround(8 * first->second / most)),
                                  '#'));
            table.row(std::move(cells));
        }
        out_ += table.text(color_);
        out_ += "  " +
                wrap(fmt::format("Billed: paid {} days after the last day of the job.",
                                 names_.net_days),
                     page_width - 2, 2) +
                "\n";
    }
    void clashes() {
        heading("Booked twice");
        if (s_.clashes.empty())
            out_ += "  no machine is wanted by two jobs on one day\n";
        for (const engine::Clash& clash : s_.clashes)
            out_ += "  " +
                    wrap(fmt::format("{}, {} to {}: \"{}\" and \"{}\"",
                                     terminal_text(clash.machine), date_text(clash.from),
                                     date_text(clash.to), terminal_text(s_.jobs[clash.first].title),
                                     terminal_text(s_.jobs[clash.second].title)),
                         page_width - 2, 4) +
                    "\n";
    }
    void year() {
        heading("What carries the year");
        Table table({{"", Align::Left, true}, {""}});
        table.row({"fixed cost of all machines, a year", whole(s_.fixed)});
        table.row(
            {"what these jobs bring towards it, everything else paid", whole(s_.contribution)});
        if (s_.break_even_acres > 0) {
            table.row({"acres booked", hours(s_.acres)});
            table.row({"acres like these that carry the year", hours(s_.break_even_acres)}, true);
        }
        out_ += table.text(color_);
    }
};

} // namespace

std::string season_text(const engine::Season& season, const SeasonNames& names, bool color) {
    return Page(season, names, color).draw();
}

} // namespace acre::cli
