#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/risk/risk_page.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/clock.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

using engine::Measured;

std::string words_of(const Measured& measured) {
    return lang::terminal_text(measured.called);
}

// A share without a unit of its own is read as percent.
double scale(const Measured& measured) {
    return measured.is_share ? 100 : 1;
}
std::string estimate(const Measured& measured, double value, double error = 0) {
    return estimate_text(value * scale(measured), error * scale(measured),
                         measured.is_share ? "%" : measured.unit);
}
// How far values lie apart: of clock times in hours.
std::string spread_of(const Measured& measured, double value, double error = 0) {
    return estimate_text(value * scale(measured), error * scale(measured),
                         measured.is_share ? "%" : lang::unit_of_difference(measured.unit));
}
std::string error_of(const Measured& measured, double error) {
    return error_text(error * scale(measured));
}

// Estimates of shares can fall below zero.
std::string share_text(double share) {
    return percent_text(std::max(0.0, share));
}

class RiskPage {
  public:
    RiskPage(const engine::RiskAnswer& risk, bool color) : risk_(risk), color_(color) {}

    std::string draw() {
        out_ = heading("Risk of this job", color_) + not_for_the_customer(color_);
        if (!risk_.title.empty())
            line(lang::terminal_text(risk_.title));
        line(fmt::format("{} trials over {} and {}, seed {}; +- is the standard error",
                         lang::number_text(static_cast<double>(risk_.trials)),
                         count(risk_.factors.size() - events(), "swing"), count(events(), "event"),
                         risk_.seed));
        loss();
        moments();
        percentiles();
        for (const Histogram& histogram : risk_histograms(risk_))
            out_ += "\n" + histogram_text(histogram);
        shares();
        matters_most();
        refusals();
        faults();
        notes();
        return std::move(out_);
    }

  private:
    const engine::RiskAnswer& risk_;
    bool color_;
    std::string out_;

    void head(const std::string& text) { out_ += "\n" + heading(text, color_); }
    void line(const std::string& text) { out_ += remark(text); }
    static std::string count(std::size_t n, const char* what) {
        return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
    }
    std::size_t events() const {
        return static_cast<std::size_t>(std::count_if(
            risk_.factors.begin(), risk_.factors.end(),
            [](const engine::Factor& factor) { return factor.is_event(); }));
    }

    void loss() {
        if (!risk_.loss)
            return;
        out_ += "\n";
        line(bold(fmt::format("At {} the chance of a loss is {}", lang::money_text(risk_.paid),
                              percent_text(*risk_.loss, 2)),
                  color_) +
             fmt::format(" (+- {} %).", error_text(risk_.loss_error.value_or(NAN) * 100)));
        line(
            fmt::format("A loss is a profit below zero, after the {} of overhead that the price "
                        "carries. The chance that not even direct cost is covered is {} (+- {} %).",
                        lang::money_text(risk_.overhead), percent_text(*risk_.loss_direct, 2),
                        error_text(risk_.loss_direct_error.value_or(NAN) * 100)));
        line(risk_.lump
                 ? "It is paid in full whatever the quantities are."
                 : "Items with a rate are paid for the actual quantity, lump sums as quoted.");
    }

    void moments() {
        out_ += "\n";
        Table table({{"", Align::Left, true}, {"this job"}, {"mean"}, {"+-"}, {"spread"}, {"+-"}});
        for (const Measured& m : risk_.measured)
            row(table, m);
        out_ += table.text(color_);
    }
    void row(Table& table, const Measured& m) const {
        table.row({words_of(m), estimate(m, m.at_job), estimate(m, m.mean, m.mean_error),
                   error_of(m, m.mean_error), spread_of(m, m.spread, m.spread_error),
                   error_of(m, m.spread_error)});
    }
    void percentiles() {
        out_ += "\n";
        constexpr double shares[] = {0.05, 0.25, 0.50, 0.75, 0.95};
        std::vector<Column> heads = {{"percentile", Align::Left, true}};
        for (const double share : shares)
            heads.push_back({percent_text(share, 0)});
        Table table(heads);
        for (const Measured& m : risk_.measured) {
            std::vector<std::string> values = {words_of(m)};
            std::vector<std::string> errors = {"  +-"};
            for (const double share : shares)
                for (const engine::Percentile& p : m.percentiles)
                    if (p.share == share) {
                        values.push_back(estimate(m, p.value, p.error));
                        errors.push_back(error_of(m, p.error));
                    }
            table.row(std::move(values));
            table.row(std::move(errors));
        }
        out_ += table.text(color_);
    }

    void shares() {
        if (!risk_.shares)
            return;
        const Measured& of = risk_.measured[risk_.shares->measured];
        if (risk_.shares->shares.empty()) {
            head(fmt::format("What drives the spread of {}", words_of(of)));
            line("Nothing that was drawn moves it.");
            return;
        }
        head(fmt::format("What drives the spread of {}, {}", words_of(of),
                         spread_of(of, risk_.shares->spread)));
        Table table({{"", Align::Left, true}, {"alone"}, {"+-"}, {"with interactions"}, {"+-"}});
        constexpr std::size_t most = 12;
        const auto& list = risk_.shares->shares;
        for (std::size_t i = 0; i < std::min(most, list.size()); ++i)
            table.row({called(risk_.factors[list[i].factor].given), share_text(list[i].first),
                       share_text(list[i].first_error), share_text(list[i].total),
                       share_text(list[i].total_error)});
        out_ += table.text(color_);
        if (list.size() > most)
            line(fmt::format("and {} more, each {} or less", list.size() - most,
                             share_text(list[most].total)));
        if (const auto& aside = risk_.shares->aside; aside.factors > 0)
            line(fmt::format("The other {}, which do least, come to {} together, +- {}; they were "
                             "found in groups drawn anew, halved again and again",
                             lang::number_text(static_cast<double>(aside.factors)),
                             share_text(aside.total), share_text(aside.total_error)));
        line(fmt::format(
            "First-order and total Sobol' indices with their standard errors, from {} runs "
            "of the job",
            lang::number_text(static_cast<double>(risk_.shares->readings))));
        if (risk_.dependent)
            line("Some swings move together; what they share is counted for the one drawn first.");
    }

    static std::string name(const std::string& called) {
        return called.empty() ? "none" : lang::terminal_text(called);
    }
    void matters_most() {
        const engine::MattersMost& says = risk_.matters_most;
        if (says.by_share.empty())
            return;
        head("What matters most");
        if (says.agree) {
            line("Slope, swing and share of the spread agree: " + name(says.by_share) + ".");
            return;
        }
        Table table({{"", Align::Left}, {"", Align::Left, true}});
        table.row({"by slope, for 1 % more", name(says.by_slope)});
        table.row({"by swing, end to end", name(says.by_swing)});
        table.row({"by share of the spread", name(says.by_share)});
        out_ += table.text(color_);
        for (const std::string& why : says.why)
            line(lang::terminal_text(capital(why)));
    }

    void refusals() {
        if (risk_.refusals.empty())
            return;
        head("When work cannot go on");
        Table table({{"", Align::Left, true}, {"chance"}, {"costs"}});
        bool unsaid = false, in_entry = false;
        for (const engine::RefusalRisk& refusal : risk_.refusals) {
            const std::string where = refusal.entry.empty() ? "" : refusal.entry + ": ";
            table.row({lang::terminal_text(where + refusal.name), percent_text(refusal.chance, 2),
                       refusal.cost ? lang::money_text(*refusal.cost) : "not said"});
            unsaid |= !refusal.cost;
            in_entry |= !refusal.entry.empty();
        }
        out_ += table.text(color_);
        if (risk_.refused > 0)
            line("Then the job's own price and cost do not count: the contribution is what it "
                 "costs, below zero; overhead comes on top. Of several the largest counts.");
        if (in_entry)
            line("A refusal in one entry of a list counts for the whole job: on the safe side.");
        if (unsaid && risk_.loss)
            line("Where the cost is not said, the money figures leave the trial out.");
    }

    void faults() {
        if (risk_.without_answer == 0)
            return;
        head("Trials without an answer");
        line(fmt::format("! {} of {} ({} %); the figures above leave them out",
                         lang::number_text(static_cast<double>(risk_.without_answer)),
                         lang::number_text(static_cast<double>(risk_.trials)),
                         error_text(100 * static_cast<double>(risk_.without_answer) /
                                    static_cast<double>(risk_.trials))));
        constexpr std::size_t most = 2;
        for (std::size_t i = 0; i < std::min(most, risk_.first_without.size()); ++i) {
            const engine::WithoutAnswer& trial = risk_.first_without[i];
            std::string drawn;
            for (std::size_t f = 0; f < risk_.factors.size(); ++f)
                if (const engine::Factor& factor = risk_.factors[f]; !factor.is_event())
                    drawn += (drawn.empty() ? "" : ", ") + lang::terminal_text(factor.given.name) +
                             " " + shown(factor.given, trial.drawn[f]) +
                             (factor.of_it ? " of it" : "");
            line(fmt::format("{}: {}", trial.because, drawn));
        }
    }

    void listed(const std::string& what, engine::HeldReason reason) {
        std::string names;
        for (const engine::Held& held : risk_.held)
            if (held.reason == reason)
                names += (names.empty() ? "" : ", ") + lang::terminal_text(held.name);
        if (!names.empty())
            line(what + names);
    }

    void notes() {
        out_ += "\n";
        using engine::HeldReason;
        listed("Held as in this job, because they are chosen before work starts (--free draws "
               "one): ",
               HeldReason::Chosen);
        listed("Held as in this job, as asked: ", HeldReason::Asked);
        listed("Not drawn, because this job computes them: ", HeldReason::Computed);
        line("Choices and givens without a swing stay as in this job. The figures are only as good "
             "as "
             "the swings.");
    }
};

} // namespace

std::string risk_text(const engine::RiskAnswer& risk, bool color) {
    return RiskPage(risk, color).draw();
}

} // namespace acre::cli
