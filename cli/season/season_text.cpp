#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/season/report.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "engine/words/choice_label.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

constexpr std::size_t machines_by_month = 3; // those with most hours
constexpr double bar_columns = 8;

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
        const std::string title =
            fmt::format("Season in {}: {} jobs, {} billed, {} profit", terminal_text(names_.title),
                        s_.jobs.size(), whole_dollars(s_.price),
                        whole_dollars(s_.price - s_.cost - s_.overhead));
        out_ = heading(title, color_) + not_for_the_customer(color_);
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

    void head(const char* text) { out_ += "\n" + heading(text, color_); }
    void sentence(const std::string& words) { out_ += remark(terminal_text(words)); }

    // Of days that all lie in one year its head says which; it is not repeated.
    std::string one_year() const {
        std::string year;
        for (const engine::SeasonJob& job : s_.jobs)
            for (const long day : {job.start, job.finish}) {
                const std::string of = lang::date_text(day).substr(0, 4);
                if (!year.empty() && of != year)
                    return {};
                year = of;
            }
        return year;
    }
    static std::string short_day(long day, bool with_year) {
        std::string text = lang::short_day_text(lang::date_text(day));
        return with_year ? text : text.substr(0, text.find(','));
    }

    void jobs() {
        const std::string year = one_year();
        head((year.empty() ? "Jobs, least profit a day first"
                           : "Jobs of " + year + ", least profit a day first")
                 .c_str());
        Table table({{"start", Align::Left},
                     {"done", Align::Left},
                     {"job", Align::Left, true},
                     {"days"},
                     {"price"},
                     {"contribution"},
                     {"profit"},
                     {"a day"}});
        for (const std::size_t i : s_.by_day_pay) {
            const engine::SeasonJob& job = s_.jobs[i];
            table.row({short_day(job.start, year.empty()), short_day(job.finish, year.empty()),
                       terminal_text(job.title), whole_text(job.days), whole_dollars(job.price),
                       whole_dollars(job.price - job.cost), whole_dollars(job.profit()),
                       whole_dollars(job.profit_a_day())});
        }
        out_ += table.text(color_);
    }
    void hours() {
        head("Machine hours");
        Table table({{"", Align::Left, true}, {"booked"}, {"assumed"}, {"share"}});
        for (const engine::MachineRow& row : s_.machines)
            table.row(
                {terminal_text(machine_words(row.machine.name)), fixed_quantity(row.booked, 0, "h"),
                 fixed_quantity(row.machine.hours_per_year, 0, "h"), percent_text(row.share, 0)});
        out_ += table.text(color_);
        for (const engine::MachineRow& row : s_.machines)
            if (row.share > 1)
                sentence(
                    fmt::format("{}: the jobs book {} h more than the hours assumed for a year.",
                                machine_words(row.machine.name),
                                whole_text(row.booked - row.machine.hours_per_year)));
    }
    void ownership() {
        head("Fixed cost of owning");
        Table table({{"", Align::Left, true},
                     {"at hours assumed"},
                     {"at hours booked"},
                     {"not covered this year"}});
        for (const engine::MachineRow& row : s_.machines)
            table.row({terminal_text(machine_words(row.machine.name)),
                       cents_per_hour(row.idle_hour),
                       row.booked > 0 ? cents_per_hour(row.fixed_at_booked) : "-",
                       whole_dollars(row.not_earned)});
        out_ += table.text(color_);
        for (const engine::MachineRow& row : s_.machines)
            if (const std::string words = idle_words(row); !words.empty())
                sentence(words + ".");
    }
    void months() {
        head("Months");
        Table table({{"", Align::Left}, {"days"}, {"acres"}, {"gallons"}, {"spent"}, {"billed"}});
        for (const engine::MonthRow& month : s_.months)
            table.row({lang::month_text(month.year, month.month), whole_text(month.job_days),
                       whole_text(month.acres), whole_text(month.gallons),
                       whole_dollars(month.spent), whole_dollars(month.billed)});
        out_ += table.text(color_);
        sentence(fmt::format("Billed: due {} days after a job's last day.", names_.net_days));
    }
    // The hours of the machines that work most; the first of them has a bar beside its figures.
    void machine_months() {
        std::vector<Column> heads = {{"", Align::Left}};
        std::vector<std::string> shown;
        for (const engine::MachineRow& row : s_.machines)
            if (row.booked > 0 && shown.size() < machines_by_month) {
                shown.push_back(row.machine.name);
                heads.push_back({terminal_text(machine_words(row.machine.name))});
                if (shown.size() == 1)
                    heads.push_back({"", Align::Left});
            }
        if (shown.empty())
            return;
        head("Machine hours by month");
        const auto booked = [](const engine::MonthRow& month, const std::string& name) {
            const auto it = month.hours.find(name);
            return it == month.hours.end() ? 0 : it->second;
        };
        double most = 1e-9;
        for (const engine::MonthRow& month : s_.months)
            most = std::max(most, booked(month, shown[0]));
        Table table(heads);
        for (const engine::MonthRow& month : s_.months) {
            std::vector<std::string> cells = {lang::month_text(month.year, month.month)};
            for (const std::string& name : shown) {
                const double hours = booked(month, name);
                cells.push_back(fixed_quantity(hours, 0, "h"));
                if (cells.size() == 2)
                    cells.emplace_back(
                        static_cast<std::size_t>(std::lround(bar_columns * hours / most)), '#');
            }
            table.row(std::move(cells));
        }
        out_ += table.text(color_);
    }
    void clashes() {
        head("Booked twice");
        if (s_.clashes.empty())
            out_ += "  no machine is needed by two jobs on the same day\n";
        for (const engine::Clash& clash : s_.clashes) {
            const std::string days = clash.from == clash.to ? lang::day_text(clash.from)
                                                            : lang::day_text(clash.from) + " to " +
                                                                  lang::day_text(clash.to);
            sentence(fmt::format("{}, {}: \"{}\" and \"{}\"", machine_words(clash.machine), days,
                                 s_.jobs[clash.first].title, s_.jobs[clash.second].title));
        }
    }
    void year() {
        head("Acres needed to cover the year");
        Table money({{"", Align::Left, true}, {""}});
        money.row({"fixed cost of all machines for a year", whole_dollars(s_.fixed)});
        money.row({"what these jobs leave for it after overhead and all other costs",
                   whole_dollars(s_.left_for_machines)});
        if (s_.break_even_acres > 0) {
            money.row({"acres booked", whole_text(s_.acres) + " ac"});
            money.row(
                {"acres of such jobs that cover the year", whole_text(s_.break_even_acres) + " ac"},
                true);
        }
        out_ += money.text(color_);
    }
};

} // namespace

std::string machine_words(const std::string& name) {
    return engine::choice_label(name);
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
