#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/season/report.h"
#include "cli/shared/clock.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "engine/words/choice_label.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

constexpr std::size_t machines_by_month = 3; // those with most hours

std::string cents_per_hour(double value) {
    return lang::money_text(value) + "/h";
}

class Page {
  public:
    Page(const engine::Season& season, const SeasonNames& names, bool color)
        : s_(season),
          names_(names),
          color_(color) {}

    std::string draw() {
        const std::string title = fmt::format(
            "The season of {}: {} jobs, {} billed, {} left over", terminal_text(names_.title),
            s_.jobs.size(), whole_dollars(s_.price), whole_dollars(s_.price - s_.cost));
        out_ = bold(wrap(title, page_width), color_) + "\n";
        jobs();
        hours();
        ownership();
        months();
        machine_months();
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
    void sentence(const std::string& words, std::size_t indent = 2) {
        out_ += "  " + wrap(terminal_text(words), page_width, indent) + "\n";
    }

    void jobs() {
        heading("Jobs, those that leave the least for a day first");
        Table table({{"start", Align::Left},
                     {"job", Align::Left, true},
                     {"days"},
                     {"price"},
                     {"left over"},
                     {"a day"}});
        for (const std::size_t i : s_.by_day_pay) {
            const engine::SeasonJob& job = s_.jobs[i];
            table.row({day_text(job.start), terminal_text(job.title), whole_text(job.days),
                       whole_dollars(job.price), whole_dollars(job.price - job.cost),
                       whole_dollars(day_pay(job))});
        }
        out_ += table.text(color_);
    }
    void hours() {
        heading("Machine hours");
        Table table({{"", Align::Left, true}, {"booked"}, {"assumed"}, {"share"}});
        for (const engine::MachineRow& row : s_.machines)
            table.row({terminal_text(machine_words(row.machine.name)),
                       whole_text(row.booked) + " h", whole_text(row.machine.hours_per_year) + " h",
                       fmt::format("{:.0f} %", 100 * row.share)});
        out_ += table.text(color_);
        for (const engine::MachineRow& row : s_.machines)
            if (row.share > 1)
                sentence(fmt::format(
                    "{} is short: the jobs book {} h more than a year of it was assumed to give.",
                    machine_words(row.machine.name),
                    whole_text(row.booked - row.machine.hours_per_year)));
    }
    void ownership() {
        heading("What owning costs");
        Table table({{"", Align::Left, true},
                     {"at the hours assumed"},
                     {"at those booked"},
                     {"not covered this year"}});
        for (const engine::MachineRow& row : s_.machines)
            table.row({terminal_text(machine_words(row.machine.name)),
                       cents_per_hour(row.machine.own_per_hour),
                       row.booked > 0 ? cents_per_hour(row.own_at_booked) : "-",
                       whole_dollars(row.not_earned)});
        out_ += table.text(color_);
        for (const engine::MachineRow& row : s_.machines)
            if (const std::string words = idle_words(row); !words.empty())
                sentence(words + ".");
    }
    void months() {
        heading("Months");
        Table table({{"", Align::Left}, {"days"}, {"acres"}, {"gallons"}, {"spent"}, {"billed"}});
        for (const engine::MonthRow& month : s_.months)
            table.row({month_text(month.year, month.month), whole_text(month.job_days),
                       whole_text(month.acres), whole_text(month.gallons),
                       whole_dollars(month.spent), whole_dollars(month.billed)});
        out_ += table.text(color_);
        sentence(
            fmt::format("Billed: paid {} days after the last day of the job.", names_.net_days));
    }
    // The hours of the machines that work most, with a bar for the first.
    void machine_months() {
        std::vector<Column> heads = {{"", Align::Left}};
        std::vector<std::string> shown;
        for (const engine::MachineRow& row : s_.machines)
            if (row.booked > 0 && shown.size() < machines_by_month) {
                shown.push_back(row.machine.name);
                heads.push_back({shortened(terminal_text(machine_words(row.machine.name)), 16)});
            }
        if (shown.empty())
            return;
        heading("Machine hours by month");
        const auto booked = [](const engine::MonthRow& month, const std::string& name) {
            const auto it = month.hours.find(name);
            return it == month.hours.end() ? 0 : it->second;
        };
        double most = 1e-9;
        for (const engine::MonthRow& month : s_.months)
            most = std::max(most, booked(month, shown[0]));
        heads.push_back({"", Align::Left});
        Table table(heads);
        for (const engine::MonthRow& month : s_.months) {
            std::vector<std::string> cells = {month_text(month.year, month.month)};
            for (const std::string& name : shown)
                cells.push_back(whole_text(booked(month, name)) + " h");
            const double bar = 8 * booked(month, shown[0]) / most;
            cells.push_back(std::string(static_cast<std::size_t>(std::lround(bar)), '#'));
            table.row(std::move(cells));
        }
        out_ += table.text(color_);
    }
    void clashes() {
        heading("Booked twice");
        if (s_.clashes.empty())
            out_ += "  no two jobs want one machine on the same day\n";
        for (const engine::Clash& clash : s_.clashes) {
            const std::string days = clash.from == clash.to
                                         ? day_text(clash.from)
                                         : day_text(clash.from) + " to " + day_text(clash.to);
            sentence(fmt::format("{}, {}: \"{}\" and \"{}\"", machine_words(clash.machine), days,
                                 s_.jobs[clash.first].title, s_.jobs[clash.second].title),
                     4);
        }
    }
    void year() {
        heading("Acres needed to cover the year");
        Table money({{"", Align::Left, true}, {""}});
        money.row({"fixed cost of all machines, a year", whole_dollars(s_.fixed)});
        money.row(
            {"what these jobs leave for it, all other costs paid", whole_dollars(s_.contribution)});
        if (s_.break_even_acres > 0) {
            money.row({"acres booked", whole_text(s_.acres) + " ac"});
            money.row(
                {"acres like these that cover the year", whole_text(s_.break_even_acres) + " ac"},
                true);
        }
        out_ += money.text(color_);
    }
};

} // namespace

std::string machine_words(const std::string& name) {
    return engine::choice_label(name);
}

double day_pay(const engine::SeasonJob& job) {
    return (job.price - job.cost) / std::max(1.0, job.days);
}

std::string idle_words(const engine::MachineRow& row) {
    if (row.booked <= 0 || row.share > 1)
        return {};
    return fmt::format("{}: each idle hour leaves {} uncovered", machine_words(row.machine.name),
                       lang::money_text(row.idle_hour));
}

std::string season_text(const engine::Season& season, const SeasonNames& names, bool color) {
    return Page(season, names, color).draw();
}

} // namespace acre::cli
