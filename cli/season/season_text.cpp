#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/season/days_text.h"
#include "cli/season/season_words.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

constexpr std::size_t machines_by_month = 3; // those with most hours
constexpr std::size_t most_listed = 60;      // doubles, clashes, moved jobs
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
            fmt::format("Season: {}: {}, {} in prices, {} profit", terminal_text(names_.title),
                        job_count(s_.jobs.size()), whole_dollars(s_.sums.price),
                        whole_dollars(s_.sums.profit()));
        out_ = heading(title, color_) + not_for_the_customer(color_);
        what_counts();
        jobs();
        days();
        clashes();
        plan();
        chain();
        another();
        machines();
        months();
        machine_months();
        year();
        return std::move(out_);
    }

  private:
    const engine::Season& s_;
    const SeasonNames& names_;
    bool color_;
    std::string out_;

    void head(const std::string& text) { out_ += "\n" + heading(text, color_); }
    void sentence(const std::string& words) { out_ += remark(terminal_text(words)); }
    void further(std::size_t all, bool whole, const char* what) {
        if (all > most_listed || !whole)
            sentence(whole ? fmt::format("and {} more {}", count_text(all - most_listed), what)
                           : fmt::format("and more {} than are listed", what));
    }

    void what_counts() {
        out_ += paragraph(terminal_text(counted_words(s_, names_)), "");
        if (names_.counted != Counted::Folder || s_.doubles.listed.empty())
            return;
        head("One customer's work that may be told twice");
        for (std::size_t i = 0; i < std::min(most_listed, s_.doubles.listed.size()); ++i)
            sentence(double_words(s_, s_.doubles.listed[i]));
        further(s_.doubles.listed.size(), s_.doubles.all, "pairs");
        sentence("Each counts in full. Leave one out with --without JOB.");
    }

    // Of days that all lie in one year its head says which; it is not repeated.
    std::string one_year() const {
        std::string year;
        for (const engine::SeasonJob& job : s_.jobs)
            for (const long day : {job.dated.start, job.dated.finish}) {
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
        head(year.empty() ? "Jobs, least profit a day first"
                          : "Jobs of " + year + ", least profit a day first");
        Table table({{"", Align::Right},
                     {"start", Align::Left},
                     {"done", Align::Left},
                     {"job", Align::Left, true},
                     {"days"},
                     {"price"},
                     {"contribution"},
                     {"profit"},
                     {"a day"}});
        for (const std::size_t i : s_.by_day_pay) {
            const engine::SeasonJob& job = s_.jobs[i];
            table.row({count_text(i + 1), short_day(job.dated.start, year.empty()),
                       short_day(job.dated.finish, year.empty()), terminal_text(job_title(s_, i)),
                       lang::number_text(static_cast<double>(job.work_days())),
                       whole_dollars(job.price), whole_dollars(job.contribution()),
                       whole_dollars(job.profit()), whole_dollars(job.profit_a_day())});
        }
        out_ += table.text(color_);
    }
    void days() {
        head("Who is where, as dated");
        out_ += days_text(s_, s_.units, color_);
    }
    void clashes() {
        head("Wanted twice");
        const std::vector<ClashGroup> groups = clash_groups(s_);
        if (groups.empty())
            out_ += "  no machine is wanted by more jobs at once than there are of it\n";
        for (std::size_t i = 0; i < std::min(most_listed, groups.size()); ++i)
            sentence(clash_words(s_, groups[i]));
        further(groups.size(), s_.clashes.all, "clashes");
    }
    void plan() {
        head("A plan that fits");
        for (const std::string& words : plan_sentences(s_))
            sentence(words);
        if (!s_.plan || (s_.plan->moved == 0 && s_.plan->left_out == 0))
            return;
        Table table({{"", Align::Right},
                     {"job", Align::Left, true},
                     {"as dated", Align::Left},
                     {"as planned", Align::Left},
                     {"done", Align::Left},
                     {"later"}});
        for (std::size_t i = 0; i < s_.jobs.size(); ++i) {
            const engine::PlannedJob& job = s_.plan->jobs[i];
            if (job.fits && job.moved == 0)
                continue;
            table.row({count_text(i + 1), terminal_text(job_title(s_, i)),
                       short_day(s_.jobs[i].dated.start, false),
                       job.fits ? short_day(job.at.start, false) : "does not fit",
                       job.fits ? short_day(job.at.finish, false) : "",
                       job.fits ? day_count(job.moved) : ""});
        }
        out_ += table.text(color_);
    }
    void chain() {
        if (!names_.chain)
            return;
        head("Moves from ranch to ranch, by the plan");
        for (const std::string& words : chain_sentences(s_, *names_.chain))
            sentence(words);
        if (names_.chain->jobs.empty())
            return;
        Table table({{"", Align::Right},
                     {"job", Align::Left, true},
                     {"as quoted"},
                     {"then charged"},
                     {"direct cost saved"}});
        for (const engine::ChainedJob& job : names_.chain->jobs)
            table.row({count_text(job.job + 1), terminal_text(s_.jobs[job.job].title),
                       whole_dollars(job.quoted.price), whole_dollars(job.chained.price),
                       whole_dollars(job.quoted.cost - job.chained.cost)});
        out_ += table.text(color_);
    }
    void another() {
        if (!s_.another)
            return;
        const engine::OneMore& more = *s_.another;
        head("One more " + terminal_text(machine_words(s_, more.machine)) +
             (more.net() > 0 ? ": it pays" : ": it does not pay"));
        for (const std::string& words : another_sentences(s_))
            sentence(words);
        Table table({{"", Align::Left, true}, {""}});
        table.row({"days that jobs start late without it", day_count(more.days_moved_without)});
        table.row({"and with it", day_count(more.days_moved_with)});
        table.row({"what the jobs that fit with it alone leave", whole_dollars(more.gained)});
        table.row({"fixed cost of a year of it", whole_dollars(more.fixed)});
        table.row({"left after it", whole_dollars(more.net())}, true);
        if (more.acres > 0)
            table.row(
                {fmt::format("acres of such jobs, beyond these, at which it pays: each leaves {}",
                             lang::money_text(more.left_per_acre)),
                 whole_text(more.acres) + " ac"});
        out_ += table.text(color_);
    }
    void machines() {
        head("Machines owned, as dated");
        Table table({{"", Align::Left, true},
                     {"booked"},
                     {"assumed"},
                     {"share"},
                     {"fixed a year"},
                     {"priced at"},
                     {"at hours booked"},
                     {"not covered"}});
        for (const engine::MachineRow& row : s_.machines)
            for (std::size_t k = 0; k < row.units.size(); ++k) {
                const engine::UnitRow& unit = row.units[k];
                table.row({terminal_text(unit_words(row, k)), fixed_quantity(unit.booked, 0, "h"),
                           fixed_quantity(row.machine.hours_per_year, 0, "h"),
                           percent_text(unit.share, 0), whole_dollars(row.machine.fixed_per_year),
                           cents_per_hour(row.idle_hour),
                           unit.booked > 0 ? cents_per_hour(unit.fixed_at_booked) : "-",
                           whole_dollars(unit.not_covered)});
            }
        out_ += table.text(color_);
        sentence("Priced at: the fixed cost that an hour of a job's price carries. Each hour short "
                 "of those assumed leaves it uncovered.");
        if (const std::string hired = hired_words(s_); !hired.empty())
            sentence(terminal_text(hired));
        for (const engine::MachineRow& row : s_.machines) {
            if (row.share > 1)
                sentence(
                    fmt::format("{}: the jobs book {} h more than the hours assumed for a year.",
                                machine_words(row.machine),
                                whole_text(row.booked - row.machine.hours_per_year * row.owned)));
            if (row.machine.disputed)
                sentence(fmt::format("{}: jobs say different things of what a year of it costs; "
                                     "the dearest counts. A machine of its own wants a name of its "
                                     "own.",
                                     machine_words(row.machine)));
        }
    }
    void months() {
        head("Months");
        Table table({{"", Align::Left},
                     {"days"},
                     {"acres"},
                     {"gallons"},
                     {"spent"},
                     {"billed"},
                     {"received"}});
        for (const engine::MonthRow& month : s_.months)
            table.row({lang::month_text(month.year, month.month), whole_text(month.job_days),
                       whole_text(month.acres), whole_text(month.gallons),
                       whole_dollars(month.spent), whole_dollars(month.billed),
                       whole_dollars(month.received)});
        out_ += table.text(color_);
        sentence(fmt::format("Spent: direct cost of the work done. Billed: jobs done in the month. "
                             "Received: {} after a job's last day.",
                             day_count(names_.net_days)));
    }
    // The hours of the machines that work most; the first of them has a bar beside its figures.
    void machine_months() {
        std::vector<Column> heads = {{"", Align::Left}};
        std::vector<std::string> shown;
        for (const engine::MachineRow& row : s_.machines)
            if (row.booked > 0 && shown.size() < machines_by_month) {
                shown.push_back(row.machine.name);
                heads.push_back({terminal_text(machine_words(row.machine))});
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
    void year() {
        const engine::Cover& cover = s_.cover;
        head("What covers the year");
        Table money({{"", Align::Left, true}, {""}});
        money.row({"fixed cost of the machines owned, a year", whole_dollars(cover.fixed)});
        money.row({cover.carried ? "overhead, as these jobs carry it" : "overhead, a year",
                   whole_dollars(cover.overhead)});
        money.row({"together", whole_dollars(cover.need())}, true);
        money.row({"what these jobs leave for both: price less direct cost, without the fixed cost "
                   "in it",
                   whole_dollars(cover.left)});
        money.row({"of the year covered", percent_text(cover.share(), 0)}, true);
        out_ += money.text(color_);
        if (cover.left > 0) {
            Table needs({{"", Align::Left, true}, {"booked"}, {"needed"}});
            needs.row({"prices", whole_dollars(s_.sums.price), whole_dollars(cover.price)});
            if (s_.sums.acres > 0)
                needs.row(
                    {"acres", whole_text(s_.sums.acres) + " ac", whole_text(cover.acres) + " ac"});
            if (!cover.machine.empty())
                needs.row({"hours of " + terminal_text(machine_words(s_, cover.machine)),
                           fixed_quantity(s_.machines.front().booked, 0, "h"),
                           fixed_quantity(cover.hours, 0, "h")});
            out_ += "\n" + needs.text(color_);
        }
        for (const std::string& words : cover_sentences(s_))
            sentence(words);
        if (cover.left > 0 && s_.sums.acres > 0)
            sentence("Needed: of jobs like these, in the same mix. Acres are those that each job "
                     "counts: ground that is ripped and disced counts twice.");
        covered_by_month();
    }
    void covered_by_month() {
        head("Covered by month");
        Table table(
            {{"", Align::Left}, {"left by the work"}, {"so far"}, {"of the year"}, {"to go"}});
        for (const engine::MonthRow& month : s_.months) {
            if (month.left == 0 && month.job_days == 0)
                continue;
            const double need = s_.cover.need();
            table.row({lang::month_text(month.year, month.month), whole_dollars(month.left),
                       whole_dollars(month.left_so_far),
                       need > 0 ? percent_text(month.left_so_far / need, 0) : "-",
                       whole_dollars(std::max(0.0, need - month.left_so_far))});
        }
        out_ += table.text(color_);
    }
};

} // namespace

std::string season_text(const engine::Season& season, const SeasonNames& names, bool color) {
    return Page(season, names, color).draw();
}

} // namespace acre::cli
