#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/clock.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using engine::Effect;
using engine::Nearby;

// "$1,980 per $/gal". What one dollar of a machine's price does is less than a cent: then of more
// of them.
std::string slope_text(double slope, const std::string& unit, const std::string& per) {
    const auto is_shown = [](const std::string& text) {
        return text.find_first_of("123456789") != std::string::npos;
    };
    std::string text = lang::quantity_text(slope, unit);
    if (slope == 0 || is_shown(text) || !per.starts_with(" per "))
        return text + per;
    for (const double many : {1'000.0, 1'000'000.0})
        if (text = lang::quantity_text(slope * many, unit); is_shown(text))
            return text + " per " + lang::number_text(many) + per.substr(4);
    return text + per;
}

class SensitivityPage {
  public:
    SensitivityPage(const engine::SensitivityAnswer& answer, SensitivityLook look)
        : answer_(answer),
          look_(look) {}

    std::string draw() {
        out_ = heading(fmt::format("What moves {}: {}", called(answer_.line),
                                   shown(answer_.line, answer_.value)),
                       look_.color) +
               not_for_the_customer(look_.color);
        if (!answer_.title.empty())
            line(lang::terminal_text(answer_.title));
        if (answer_.charged)
            line(charged_words(answer_.line, *answer_.charged));
        swings();
        if (look_.by_block)
            blocks();
        slopes();
        interactions();
        troubles();
        rest();
        return std::move(out_);
    }

  private:
    const engine::SensitivityAnswer& answer_;
    SensitivityLook look_;
    std::string out_;

    void head(const std::string& text) { out_ += "\n" + heading(text, look_.color); }
    void line(const std::string& text) { out_ += remark(text); }
    std::size_t rows(std::size_t all) const { return sensitivity_rows(all, look_); }
    void more(std::size_t all, const char* what) {
        if (all > rows(all))
            line(fmt::format("and {} more {}; --all shows them", all - rows(all), what));
    }

    void swings() {
        const std::size_t all = answer_.by_swing.size();
        if (all == 0) {
            head("Over the swings");
            line("no given with a swing or range of choice moves it");
            return;
        }
        head("Over each swing or choice, everything else unchanged");
        out_ += bars_text(sensitivity_bars(answer_, look_), look_.color);
        line("- to the low end (of a choice: the cheapest), + to the high end, | this job");
        out_ += "\n";
        Table table({{"", Align::Left, true}, {"low"}, {"gives"}, {"high"}, {"gives"}});
        for (std::size_t i = 0; i < rows(all); ++i)
            ends(answer_.effects[answer_.by_swing[i]], table);
        out_ += table.text(look_.color);
        more(all, "that move it");
    }
    void ends(const Effect& effect, Table& table) const {
        const auto row = [&](double low, double at_low, double high, double at_high) {
            table.row({called(effect.given), shown(effect.given, low), shown(answer_.line, at_low),
                       shown(effect.given, high), shown(answer_.line, at_high)});
        };
        if (!effect.given.is_choice()) {
            row(effect.swing->low, effect.at_low.value_or(NAN), effect.swing->high,
                effect.at_high.value_or(NAN));
            return;
        }
        const std::size_t least = effect.least_option();
        const std::size_t greatest = effect.greatest_option();
        row(static_cast<double>(least), effect.at_option[least], static_cast<double>(greatest),
            effect.at_option[greatest]);
    }

    void slopes() {
        head(fmt::format("Slopes of {} for this job: {}", called(answer_.slopes_of),
                         shown(answer_.slopes_of, answer_.slopes_value)));
        if (answer_.rounded)
            line("The price is rounded and does not move between its steps; these are the slopes "
                 "of the cost before rounding.");
        const std::size_t all = answer_.by_slope.size();
        if (all == 0)
            line("no given moves it");
        Table table({{"", Align::Left, true}, {"now"}, {"1 % more"}, {"slope", Align::Left}});
        for (std::size_t i = 0; i < rows(all); ++i)
            slope(answer_.effects[answer_.by_slope[i]], table);
        if (!table.empty())
            out_ += table.text(look_.color);
        more(all, "with a slope");
        if (answer_.looked_near < answer_.effects.size())
            line(fmt::format(
                "Steps and kinks were searched near the {} givens with the most effect; the "
                "model is too large to search more.",
                answer_.looked_near));
    }
    void slope(const Effect& effect, Table& table) const {
        const std::string unit(lang::unit_of_difference(answer_.slopes_of.unit));
        const std::string percent =
            std::isfinite(effect.elasticity) ? percent_change(effect.elasticity / 100) : "-";
        const std::string slope =
            std::isfinite(effect.slope)
                ? lang::terminal_text(
                      slope_text(effect.slope, unit, effect.slope_unit.substr(unit.size())))
                : "none here";
        table.row({called(effect.given), shown(effect.given, effect.value), percent, slope});
        for (const Nearby& near : effect.nearby)
            table.note(nearby(effect, near));
    }
    std::string nearby(const Effect& effect, const Nearby& near) const {
        const engine::Subject& of = answer_.slopes_of;
        const std::string away = shown_change(std::abs(near.distance), effect.given.unit).substr(1);
        const std::string where =
            near.distance == 0
                ? "right here"
                : fmt::format("{} {} at {}", away, near.distance < 0 ? "below," : "above,",
                              shown(effect.given, near.at));
        const std::string by = near.line.empty() ? "" : " (" + lang::terminal_text(near.line) + ")";
        if (near.step)
            return fmt::format(
                "step {}: from {} to {}{}{}", where, shown(of, near.before), shown(of, near.after),
                std::isfinite(near.after) ? ", " + shown_change(near.after - near.before, of.unit)
                                          : "",
                by);
        return fmt::format("kink {}: slope from {} to {}{}", where,
                           lang::terminal_text(lang::quantity_text(near.before, of.unit)),
                           lang::terminal_text(lang::quantity_text(near.after, of.unit)), by);
    }

    void interactions() {
        const auto swinging = static_cast<std::size_t>(
            std::count_if(answer_.effects.begin(), answer_.effects.end(), [](const Effect& e) {
                return e.at_low && e.at_high && std::isfinite(*e.at_low) &&
                       std::isfinite(*e.at_high);
            }));
        if (answer_.looked_together < swinging)
            line(fmt::format("The {} givens with the most effect were tried in pairs.",
                             answer_.looked_together));
        if (answer_.interactions.empty())
            return;
        head("Inputs that interact");
        line("What two ends do together, beyond the sum of what each does alone:");
        Table table({{""}, {"", Align::Left, true}}, 4);
        for (const engine::Interaction& pair : answer_.interactions) {
            const auto end = [&](std::size_t i, bool high) {
                const Effect& effect = answer_.effects[i];
                return fmt::format(
                    "{} at {}", called(effect.given),
                    shown(effect.given, high ? effect.swing->high : effect.swing->low));
            };
            table.row({shown_change(pair.amount, answer_.line.unit),
                       end(pair.first, pair.first_high) + ", with " +
                           end(pair.second, pair.second_high)});
        }
        out_ += table.text(look_.color);
    }

    // Why a swing is missing above, or has one end only.
    static std::vector<std::string> trouble_of(const Effect& effect) {
        std::vector<std::string> list;
        if (!effect.swing_trouble.empty() && !effect.relaid)
            list.push_back(lang::terminal_text(effect.swing_trouble));
        const auto end = [&](std::optional<double> answer, double x, const char* which) {
            if (answer && !std::isfinite(*answer))
                list.push_back(fmt::format("no answer at {}, the {} end of the {} of `{}`",
                                           shown(effect.given, x), which,
                                           effect.chosen ? "range of choice" : "swing",
                                           lang::terminal_text(effect.given.name)));
        };
        if (effect.swing && effect.swing_trouble.empty()) {
            end(effect.at_low, effect.swing->low, "low");
            end(effect.at_high, effect.swing->high, "high");
        }
        return list;
    }
    void troubles() {
        bool first = true;
        for (const Effect& effect : answer_.effects)
            for (const std::string& trouble : trouble_of(effect)) {
                if (first)
                    head("Ranges not used, or only in part");
                first = false;
                line("! " + trouble);
            }
    }

    void list_names(const std::string& title, std::vector<std::string> list) {
        if (list.empty())
            return;
        head(title);
        std::sort(list.begin(), list.end());
        std::string all;
        for (const std::string& name : list)
            all += (all.empty() ? "" : ", ") + lang::terminal_text(name);
        line(all);
    }
    // What the givens of each block do, added up.
    void blocks() {
        head("By block, the effects of its own givens added up");
        if (answer_.blocks.empty()) {
            line("no given of a block moves it");
            return;
        }
        Table table({{"block", Align::Left, true},
                     {"moves it by"},
                     {"givens"},
                     {"most of all", Align::Left, true}});
        for (const engine::BlockSwings& block : answer_.blocks)
            table.row({lang::terminal_text(block.label), shown(answer_.line, block.widths),
                       count_text(block.givens), called(answer_.effects[block.most].given)});
        out_ += table.text(look_.color);
    }
    void rest() {
        std::vector<std::string> idle, relaid;
        for (const Effect& effect : answer_.effects)
            if (effect.relaid)
                relaid.push_back(effect.given.name);
            else if (!effect.reached)
                idle.push_back(effect.given.name);
        const bool all_idle = idle.size() == answer_.effects.size();
        list_names(all_idle ? "No given affects it: every slope is zero"
                            : "Inputs with no effect in this job",
                   std::move(idle));
        list_names(
            "Inputs that the boundary was laid out by, not moved here: `price --set` lays it "
            "out anew",
            std::move(relaid));
        list_names("Inputs that this job computes", answer_.computed);
    }
};

} // namespace

std::string sensitivity_text(const engine::SensitivityAnswer& answer, SensitivityLook look) {
    return SensitivityPage(answer, look).draw();
}

} // namespace acre::cli
