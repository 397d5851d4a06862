#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/chart/bars.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {

using engine::Effect;
using engine::Nearby;

std::string SensitivityPage::name_of(const Effect& effect) const {
    if (names)
        return called(sheet(), effect.axis.line, true);
    const auto label = [&](const Effect& e) -> std::string_view {
        return sheet().lines[e.axis.line].label;
    };
    if (labels_.empty())
        for (const Effect& other : of.effects)
            labels_[label(other)] += other.reached ? 1 : 0;
    const auto same = labels_.find(label(effect));
    return called(sheet(), effect.axis.line, same != labels_.end() && same->second > 1);
}

std::vector<const Effect*> swinging(const SensitivityPage& page) {
    std::vector<const Effect*> list;
    for (const Effect& effect : page.of.effects)
        if (effect.reached && effect.width(page.of.value) > 0)
            list.push_back(&effect);
    return list;
}

std::vector<const Effect*> sloping(const SensitivityPage& page) {
    std::vector<const Effect*> list;
    for (const Effect& effect : page.slopes().effects)
        if (effect.reached && effect.axis.options == 0)
            list.push_back(&effect);
    const auto weight = [](const Effect* effect) {
        return std::isfinite(effect->elasticity) ? std::abs(effect->elasticity) : -1;
    };
    std::stable_sort(list.begin(), list.end(),
                     [&](const Effect* a, const Effect* b) { return weight(a) > weight(b); });
    return list;
}

namespace {

constexpr std::size_t most_shown = 15;

class Page {
  public:
    explicit Page(const SensitivityPage& page) : page_(page), sheet_(page.sheet()) {}

    std::string draw() {
        out_ =
            bold(fmt::format("What moves {}: {}", called_asked(sheet_, page_.of.line, page_.names),
                             shown(sheet_, page_.of.line, page_.of.value)),
                 page_.color) +
            "\n";
        if (const std::string title = title_of(sheet_); !title.empty())
            out_ += "  " + lang::terminal_text(title) + "\n";
        bars();
        slopes();
        interactions();
        troubles();
        rest();
        return std::move(out_);
    }

  private:
    const SensitivityPage& page_;
    const lang::Sheet& sheet_;
    std::string out_;

    std::size_t most() const { return page_.all ? page_.of.effects.size() : most_shown; }
    void head(const std::string& text) { out_ += "\n" + bold(text, page_.color) + "\n"; }
    void line(const std::string& text, std::size_t indent = 2) {
        out_ += std::string(indent, ' ') + wrap(text, page_width - 2, indent + 2) + "\n";
    }
    void more(std::size_t all, const char* what) {
        if (all > most())
            line(fmt::format("and {} more {}; --all shows them", all - most(), what));
    }

    void bars() {
        const std::vector<const Effect*> list = swinging(page_);
        if (list.empty()) {
            head("Over the swings");
            line("no given with a swing moves it");
            return;
        }
        head("Over each swing or choice, all else as it is");
        Bars bars{"", "", page_.of.unit, page_.of.value, {}};
        for (const Effect* effect : list) {
            if (bars.bars.size() == most())
                break;
            Bar bar{page_.name_of(*effect),
                    NAN,
                    NAN,
                    "",
                    "",
                    lang::quantity_text(effect->width(page_.of.value), page_.of.unit)};
            if (effect->axis.options == 0) {
                bar.low = effect->at_low.value_or(NAN);
                bar.high = effect->at_high.value_or(NAN);
            } else {
                for (const double at : effect->at_option) {
                    bar.low = std::fmin(bar.low, at);
                    bar.high = std::fmax(bar.high, at);
                }
            }
            bars.bars.push_back(std::move(bar));
        }
        out_ += bars_text(bars);
        line("- to the low end (of a choice: the cheapest), + to the high end, | as the job "
             "stands; at the right what lies between");
        out_ += "\n";
        Table table({{"", Align::Left, true}, {"from"}, {"makes"}, {"to"}, {"makes"}});
        for (std::size_t i = 0; i < std::min(most(), list.size()); ++i)
            ends(*list[i], table);
        out_ += table.text(page_.color);
        more(list.size(), "that move it");
    }
    void ends(const Effect& effect, Table& table) const {
        const auto makes = [&](std::optional<double> y) {
            return shown(sheet_, page_.of.line, y.value_or(NAN));
        };
        const auto x = [&](double value) { return shown(sheet_, effect.axis.line, value); };
        if (effect.axis.options == 0) {
            table.row({page_.name_of(effect), x(effect.axis.swing->low), makes(effect.at_low),
                       x(effect.axis.swing->high), makes(effect.at_high)});
            return;
        }
        // Of a choice: the option that makes the least, and the one that makes the most.
        std::size_t least = 0;
        std::size_t greatest = 0;
        const std::vector<double>& at = effect.at_option;
        for (std::size_t i = 0; i < at.size(); ++i) {
            least = !(at[i] >= at[least]) && std::isfinite(at[i]) ? i : least;
            greatest = !(at[i] <= at[greatest]) && std::isfinite(at[i]) ? i : greatest;
        }
        table.row({page_.name_of(effect), x(static_cast<double>(least)), makes(at[least]),
                   x(static_cast<double>(greatest)), makes(at[greatest])});
    }

    void slopes() {
        const std::vector<const Effect*> list = sloping(page_);
        const engine::Sensitivity& of = page_.slopes();
        head(fmt::format("Slopes of {}, where the job stands: {}",
                         called_asked(sheet_, of.line, page_.names),
                         shown(sheet_, of.line, of.value)));
        if (page_.of_cost)
            line("The price is rounded and stands still between its steps; these are the slopes of "
                 "the cost behind it.");
        if (list.empty())
            line("no given moves it");
        else
            out_ += "  " + padded("", 31) + right_aligned("now", 14) +
                    right_aligned("1 % more", 10) + "  slope\n";
        std::size_t shown_rows = 0;
        for (const Effect* effect : list) {
            if (shown_rows++ == most())
                break;
            const std::string percent = std::isfinite(effect->elasticity)
                                            ? fmt::format("{:+.2f} %", effect->elasticity)
                                            : "-";
            const std::string slope =
                std::isfinite(effect->slope)
                    ? lang::terminal_text(lang::quantity_text(effect->slope, of.unit) +
                                          effect->slope_unit.substr(of.unit.size()))
                    : "none here";
            out_ += "  " + padded(shortened(page_.name_of(*effect), 31), 31) +
                    right_aligned(shown(sheet_, effect->axis.line, effect->axis.value), 14) +
                    right_aligned(percent, 10) + "  " + slope + "\n";
            for (const Nearby& near : effect->nearby)
                line(nearby(*effect, near), 6);
        }
        more(list.size(), "with a slope");
        if (of.looked_near < of.effects.size())
            line(fmt::format("steps and kinks were looked for near {} givens, those that do most: "
                             "the model is too large for more",
                             of.looked_near));
    }
    std::string nearby(const Effect& effect, const Nearby& near) const {
        const engine::Sensitivity& of = page_.slopes();
        const std::string away =
            shown_change(std::abs(near.distance), sheet_.lines[effect.axis.line].unit_text)
                .substr(1);
        const std::string where =
            near.distance == 0
                ? "right here"
                : fmt::format("{} {} at {}", away, near.distance < 0 ? "below," : "above,",
                              shown(sheet_, effect.axis.line, near.at));
        const std::string by =
            near.line == lang::none ? "" : fmt::format(" ({})", called(sheet_, near.line, true));
        if (near.step)
            return fmt::format(
                "step {}: {} becomes {}{}{}", where, shown(sheet_, of.line, near.before),
                shown(sheet_, of.line, near.after),
                std::isfinite(near.after) ? ", " + shown_change(near.after - near.before, of.unit)
                                          : "",
                by);
        return fmt::format("kink {}: the slope {} becomes {}{}", where,
                           lang::quantity_text(near.before, of.unit),
                           lang::quantity_text(near.after, of.unit), by);
    }

    void interactions() {
        const auto swinging =
            std::count_if(page_.of.effects.begin(), page_.of.effects.end(), [](const Effect& e) {
                return e.at_low && e.at_high && std::isfinite(*e.at_low) &&
                       std::isfinite(*e.at_high);
            });
        if (const std::size_t tried = page_.of.looked_together;
            tried < static_cast<std::size_t>(swinging))
            line(fmt::format("two by two {} givens were tried, those that do most", tried));
        if (page_.of.interactions.empty())
            return;
        head("Givens that do not act alone");
        line("What the two ends together add to the sum of each by itself:");
        Table table({{""}, {"", Align::Left, true}}, 4);
        for (const engine::Interaction& pair : page_.of.interactions) {
            const auto end = [&](std::size_t i, bool high) {
                const Effect& effect = page_.of.effects[i];
                return fmt::format("{} at {}", page_.name_of(effect),
                                   shown(sheet_, effect.axis.line,
                                         high ? effect.axis.swing->high : effect.axis.swing->low));
            };
            table.row({shown_change(pair.amount, page_.of.unit),
                       end(pair.first, pair.first_high) + ", with " +
                           end(pair.second, pair.second_high)});
        }
        out_ += table.text(page_.color);
    }

    // Why a swing is missing above, or has one end only.
    std::vector<std::string> trouble_of(const Effect& effect) const {
        std::vector<std::string> list;
        if (!effect.swing_trouble.empty())
            list.push_back(lang::terminal_text(effect.swing_trouble));
        const auto end = [&](std::optional<double> answer, double x, const char* which) {
            if (answer && !std::isfinite(*answer))
                list.push_back(fmt::format("no answer at {}, the {} end of the swing of `{}`",
                                           shown(sheet_, effect.axis.line, x), which,
                                           called(sheet_, effect.axis.line, true)));
        };
        if (effect.axis.swing && effect.swing_trouble.empty()) {
            end(effect.at_low, effect.axis.swing->low, "low");
            end(effect.at_high, effect.axis.swing->high, "high");
        }
        return list;
    }
    void troubles() {
        bool first = true;
        for (const Effect& effect : page_.of.effects)
            for (const std::string& trouble : trouble_of(effect)) {
                if (first)
                    head("Swings that cannot be used, or not to the end");
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
            all += (all.empty() ? "" : ", ") + name;
        out_ += "  " + wrap(all, page_width - 2, 2) + "\n";
    }
    void rest() {
        std::vector<std::string> idle;
        for (const Effect& effect : page_.of.effects)
            if (!effect.reached)
                idle.push_back(called(sheet_, effect.axis.line, true));
        std::vector<std::string> computed;
        for (const lang::LineId id : page_.of.computed)
            computed.push_back(called(sheet_, id, true));
        const bool all_idle = idle.size() == page_.of.effects.size();
        list_names(all_idle ? "No given reaches it: every slope is zero"
                            : "Givens it does not rest on in this job",
                   std::move(idle));
        list_names("Givens that this job computes from others", std::move(computed));
    }
};

} // namespace

std::string sensitivity_text(const SensitivityPage& page) {
    return Page(page).draw();
}

std::string sensitivity_svg(const SensitivityPage& page) {
    const lang::Sheet& sheet = page.sheet();
    Bars bars{"What moves " + called_asked(sheet, page.of.line, page.names) + ": " +
                  title_of(sheet),
              called_asked(sheet, page.of.line, page.names),
              page.of.unit,
              page.of.value,
              {}};
    for (const Effect* effect : swinging(page)) {
        if (bars.bars.size() == (page.all ? page.of.effects.size() : most_shown))
            break;
        Bar bar{page.name_of(*effect),
                NAN,
                NAN,
                "",
                "",
                lang::quantity_text(effect->width(page.of.value), page.of.unit)};
        const auto x = [&](double value) { return shown(sheet, effect->axis.line, value); };
        if (effect->axis.options == 0) {
            bar.low = effect->at_low.value_or(NAN);
            bar.high = effect->at_high.value_or(NAN);
            bar.at_low = x(effect->axis.swing->low);
            bar.at_high = x(effect->axis.swing->high);
        } else {
            for (std::size_t i = 0; i < effect->at_option.size(); ++i) {
                const double at = effect->at_option[i];
                if (std::isfinite(at) && !(bar.low <= at)) {
                    bar.low = at;
                    bar.at_low = x(static_cast<double>(i));
                }
                if (std::isfinite(at) && !(bar.high >= at)) {
                    bar.high = at;
                    bar.at_high = x(static_cast<double>(i));
                }
            }
        }
        bars.bars.push_back(std::move(bar));
    }
    return bars_svg(bars);
}

} // namespace acre::cli
