#include "engine/faults/price_steps.h"

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "engine/plan/plan_roots.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"
#include "lang/units/ratio.h"

namespace acre::engine {

using lang::Code;
using lang::none;
using lang::ast::StepKind;

namespace {

constexpr auto step_kinds = static_cast<std::size_t>(StepKind::RoundTo) + 1;

bool is_share(StepKind kind) {
    return kind <= StepKind::Margin;
}
bool is_rounding(StepKind kind) {
    return kind == StepKind::RoundUp || kind == StepKind::RoundTo;
}

class Steps {
  public:
    Steps(const PricedJob& job, lang::Diagnostics& diagnostics)
        : job_(job),
          sheet_(job.sheet()),
          diagnostics_(diagnostics) {}

    void look_at(const lang::PriceItem& item) {
        std::array<const lang::PriceStep*, 2 * step_kinds> before{}; // by kind and per unit
        lang::LineId sum = item.cost;
        for (std::size_t i = 0; i < item.steps.size(); ++i) {
            step_ = &item.steps[i];
            if (step_->value == none || step_->line == none)
                return; // reported: a step that went wrong
            before_ = job_.value(sum);
            after_ = job_.value(step_->line);
            sum = step_->line;
            if (is_share(step_->kind))
                share();
            else
                money(item);
            const std::size_t same =
                2 * static_cast<std::size_t>(step_->kind) + (step_->per_unit ? 1 : 0);
            if (before[same] != nullptr)
                twice(*before[same]);
            before[same] = step_;
            order(item, i);
        }
    }

  private:
    // In the unit of the step's own value.
    double value() const {
        const Slot slot = job_.compiled().origins.slot_of_node[step_->value];
        return slot == no_slot ? NAN : job_.values().slot[slot];
    }
    double base_value() const {
        return value() * lang::to_double(sheet_.nodes[step_->value].type.unit.scale);
    }

    double in_base_units(lang::LineId line) const {
        return job_.value(line) * lang::to_double(sheet_.lines[line].type.unit.scale);
    }

    // "`markup 150 %`", "`markup profit`, 1,200 %,": as written, and what it comes to.
    std::string words() const {
        std::string text = fmt::format("`{}`", source_text(job_.sources(), step_->span));
        const lang::Node* node = &sheet_.nodes[step_->value];
        if (node->op == lang::Op::Negate)
            node = &sheet_.nodes[node->a];
        if (node->op == lang::Op::Number || !std::isfinite(value()))
            return text;
        return text + ", " +
               (is_share(step_->kind) ? lang::quantity_text(base_value() * 100, "%")
                                      : value_of_node(sheet_, step_->value, value())) +
               ",";
    }

    void warn(Code code, std::string title, std::string label, std::string help,
              std::optional<lang::Edit> edit = {}) {
        lang::Diagnostic d{code, std::move(title), {step_->span, std::move(label)}, {}, {}, {}};
        if (std::isfinite(before_) && std::isfinite(after_))
            d.notes.push_back(fmt::format("this step makes {} of {}: {} {}",
                                          lang::money_text(after_), lang::money_text(before_),
                                          lang::money_text(std::abs(after_ - before_)),
                                          after_ < before_ ? "less" : "more"));
        d.helps.push_back({std::move(help), std::move(edit)});
        diagnostics_.add(std::move(d));
    }

    void share() {
        const double share = base_value();
        if (share < 0)
            return warn(Code::L815, fmt::format("{} takes off the price", words()), "below zero",
                        "a discount is better seen as a line of the bill; if it is meant, accept "
                        "this warning");
        if (share > 0 && share < smallest_usual)
            return warn(Code::L815,
                        fmt::format("{} is less than {}, which is unusual", words(),
                                    lang::quantity_text(smallest_usual * 100, "%")),
                        "a share in percent",
                        fmt::format("look at its decimal point: {} times as much is  {}", 100,
                                    lang::quantity_text(share * 10000, "%")));
        const double usual = step_->kind == StepKind::Markup   ? usual_markup
                             : step_->kind == StepKind::Margin ? usual_margin
                                                               : usual_overhead;
        if (share > usual && !(step_->kind == StepKind::Margin && share >= 1)) // that is E507
            warn(Code::L815,
                 fmt::format("{} is past {}, more than is usual", words(),
                             lang::quantity_text(usual * 100, "%")),
                 step_->kind == StepKind::Margin ? "a share of the price" : "a share of the sum",
                 "look at its decimal point; if it is meant, accept this warning");
    }

    void money(const lang::PriceItem& item) {
        const double is = value();
        if (is < 0)
            return warn(Code::L816, fmt::format("{} is below zero", words()), "below zero",
                        "take the minus sign off");
        if (!std::isfinite(before_) || !(before_ > 0) || !std::isfinite(after_))
            return;
        if (!is_rounding(step_->kind)) {
            if (step_->per_unit && after_ > usual_minimum * before_)
                warn(Code::L819,
                     fmt::format("{} makes {} times as much of the price", words(),
                                 lang::number_text(std::round(after_ / before_ * 10) / 10)),
                     fmt::format("for each {}", item.per_text),
                     "for a minimum of the whole price, leave out the unit after the money");
            return;
        }
        const double quantity = step_->per_unit ? in_base_units(item.quantity) : 1;
        if (base_value() * quantity > usual_rounding * before_)
            return warn(Code::L819,
                        fmt::format("{} is no rounding: the step is more than a quarter of what "
                                    "it rounds",
                                    words()),
                        "a large step",
                        "round to smaller steps, or write  at least  for a minimum");
        if (item.rate != none && !step_->per_unit && base_value() <= smallest_whole_step)
            whole(item);
    }

    // "$0.50" of a whole price per hour: its author had $0.50/h in mind.
    void whole(const lang::PriceItem& item) {
        const std::string& unit = sheet_.lines[item.rate].unit_text;
        const lang::Span span = sheet_.nodes[step_->value].span;
        const std::string text = source_text(job_.sources(), span);
        const std::string per = unit.substr(lang::money_in(unit));
        const bool plain =
            lang::money_sign_size(text) > 0 && text.find_first_of("/ ") == std::string::npos;
        warn(Code::L819,
             fmt::format("{} rounds the whole price, not the price per {}", words(), item.per_text),
             "of the whole price",
             plain ? fmt::format("to round the rate, write  {}{}", text, per)
                   : fmt::format("to round the rate, give a step in {}", unit),
             plain ? std::optional(lang::Edit{span, text + per}) : std::nullopt);
    }

    void twice(const lang::PriceStep& first) {
        lang::Diagnostic d{Code::L817,
                           fmt::format("{} is the second step of its kind", words()),
                           {step_->span, "the second"},
                           {{first.span, "the first"}},
                           {},
                           {{"take one of the two out, or make one of them", {}}}};
        if (std::isfinite(after_) && std::isfinite(before_))
            d.notes.push_back(
                fmt::format("the second adds {}", lang::money_text(after_ - before_)));
        diagnostics_.add(std::move(d));
    }

    // A minimum or a rounding is the last word on a price: a share after it undoes it.
    void order(const lang::PriceItem& item, std::size_t at) {
        if (is_share(step_->kind))
            return;
        for (std::size_t i = at + 1; i < item.steps.size(); ++i) {
            if (!is_share(item.steps[i].kind))
                continue;
            const std::string later = source_text(job_.sources(), item.steps[i].span);
            return warn(Code::L818, fmt::format("{} stands before `{}`", words(), later),
                        fmt::format("before `{}`", later),
                        is_rounding(step_->kind)
                            ? "write it behind the shares, so that the price comes out round"
                            : "write it behind the shares, so that it is the minimum of the price");
        }
    }

    const PricedJob& job_;
    const lang::Sheet& sheet_;
    lang::Diagnostics& diagnostics_;
    const lang::PriceStep* step_ = nullptr; // that is looked at
    double before_ = NAN, after_ = NAN;     // the sum before and after it, in $
};

} // namespace

void report_price_steps(const PricedJob& job, std::span<const char> asked,
                        lang::Diagnostics& diagnostics) {
    Steps steps(job, diagnostics);
    for (const lang::PriceItem& item : job.sheet().prices)
        if (item.amount != none && (asked.empty() || asked[item.amount] != 0))
            steps.look_at(item);
}

void report_price_steps(const PricedJob& job, lang::Diagnostics& diagnostics) {
    report_price_steps(job, {}, diagnostics);
}

} // namespace acre::engine
