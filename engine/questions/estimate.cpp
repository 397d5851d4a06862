#include "engine/questions/estimate.h"
#include "engine/faults/faults.h"
#include "engine/job/priced_job.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <unordered_set>

#include <fmt/format.h>

#include "engine/plan/plan_roots.h"
#include "engine/questions/carrying_quantities.h"
#include "engine/questions/charged.h"
#include "engine/words/money.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {

using lang::none;

namespace {

class Estimator {
  public:
    explicit Estimator(const PricedJob& job)
        : job_(job),
          sheet_(job.sheet()),
          compiled_(job.compiled()),
          values_(job.values()),
          sources_(job.sources()) {
        for (const lang::Entry& entry : sheet_.entries)
            entries_.insert(entry.name);
    }

    Estimate make() const {
        Estimate estimate;
        estimate.cost_total = value(sheet_.cost_total);
        for (const lang::PriceItem& item : sheet_.prices) {
            if (item.per_text.empty() || !estimate.per.empty())
                continue;
            estimate.per = item.per_text;
            estimate.per_quantity = value(item.quantity);
        }
        for (const lang::Cost& cost : sheet_.costs)
            estimate.costs.push_back(cost_row(cost, estimate));
        for (const lang::PriceItem& item : sheet_.prices) {
            estimate.items.push_back(item_row(item));
            estimate.price_cents += estimate.items.back().cents;
        }
        estimate.earnings = earnings(sheet_, compiled_.plan, values_,
                                     static_cast<double>(estimate.price_cents) / 100);
        estimate.target_margin = target_margin();
        if (!estimate.per.empty() && estimate.per_quantity != 0) { // of nothing there is none
            estimate.price_per_unit =
                static_cast<double>(estimate.price_cents) / 100 / estimate.per_quantity;
            estimate.line_per_unit = value(sheet_.price_per_unit);
        }
        for (const lang::LineId line : carrying_quantities(job_)) {
            const lang::Line& l = sheet_.lines[line];
            estimate.quantities.push_back({l.name, l.label, unit_text(sheet_, l), value(line),
                                           choice_text(sheet_, l.type, value(line)),
                                           is_of_the_job(l.name)});
        }
        add_cautions(estimate.cautions);
        return estimate;
    }

  private:
    double value(lang::LineId line) const {
        const Slot slot = line == none ? no_slot : slot_of(compiled_, line);
        return slot == no_slot ? 0 : values_.slot[slot];
    }

    // "acres", or "north.acres" of an entry.
    bool is_of_the_job(std::string_view name) const {
        const auto dot = name.find('.');
        return dot == std::string_view::npos ||
               (name.find('.', dot + 1) == std::string_view::npos &&
                entries_.contains(name.substr(0, dot)));
    }

    static const std::string& called(const lang::Entry& entry) {
        return entry.label.empty() ? entry.name : entry.label;
    }
    // "Lisk County: county permits": of the lines of several entries, whose it is.
    std::string with_entry(const lang::Line& line) const {
        if (line.entry == none)
            return line.label;
        const lang::Entry& entry = sheet_.entries[line.entry];
        return line.label.empty() ? line.label : fmt::format("{}: {}", called(entry), line.label);
    }

    CostRow cost_row(const lang::Cost& cost, const Estimate& estimate) const {
        const lang::Line& rate = sheet_.lines[cost.rate];
        CostRow row;
        row.name = rate.name;
        row.label = with_entry(rate);
        row.part = cost.part == none ? "" : sheet_.parts[cost.part].title;
        row.rate_unit = unit_text(sheet_, rate);
        row.quantity_unit = unit_text(sheet_, sheet_.lines[cost.quantity]);
        row.rate = value(cost.rate);
        row.quantity = value(cost.quantity);
        row.amount = value(cost.amount);
        row.per_unit = estimate.per_quantity == 0 ? 0 : row.amount / estimate.per_quantity;
        row.share = estimate.cost_total == 0 ? 0 : row.amount / estimate.cost_total;
        return row;
    }

    ItemRow item_row(const lang::PriceItem& item) const {
        ItemRow row;
        row.title = item.title;
        row.name = item.name;
        row.per = item.per_text;
        row.cost = value(item.cost);
        double before = row.cost;
        for (const lang::PriceStep& step : item.steps) {
            const double after = value(step.line);
            row.steps.push_back(
                {source_text(sources_, step.span), after - before, after, shown(step)});
            before = after;
        }
        charge(item, row);
        return row;
    }

    // What the customer is charged; where the quantity is rounded, as a step of its own.
    void charge(const lang::PriceItem& item, ItemRow& row) const {
        const Billed billed =
            charged(sheet_, compiled_.plan, values_, item, job_.request().notation);
        row.quantity = billed.quantity;
        row.rate = billed.rate;
        row.cents = billed.cents;
        const double amount = value(item.amount);
        if (billed.cents == to_cents(amount, sheet_.firm.money.step))
            return;
        const double sum = static_cast<double>(billed.cents) / 100;
        const std::string text =
            "charged for " + lang::quantity_text(billed.quantity, item.per_text);
        row.steps.push_back({text, sum - amount, sum, text});
    }

    std::string target_margin() const {
        std::string shown;
        for (const lang::PriceItem& item : sheet_.prices)
            for (const lang::PriceStep& step : item.steps) {
                if (step.kind != lang::ast::StepKind::Margin)
                    continue;
                const Slot slot = compiled_.origins.slot_of_node[step.value];
                std::string text =
                    slot == no_slot ? "" : value_of_node(sheet_, step.value, values_.slot[slot]);
                if (!shown.empty() && text != shown)
                    return {};
                shown = std::move(text);
            }
        return shown;
    }

    // The step with the value of its formula in the formula's place.
    std::string shown(const lang::PriceStep& step) const {
        const Slot slot = compiled_.origins.slot_of_node[step.value];
        const lang::Span formula = sheet_.nodes[step.value].span;
        if (slot == no_slot || formula.begin < step.span.begin)
            return source_text(sources_, step.span);
        return source_text(sources_, {step.span.file, step.span.begin, formula.begin}) + " " +
               value_of_node(sheet_, step.value, values_.slot[slot]);
    }

    void add_cautions(std::vector<CautionRow>& rows) const {
        std::unordered_set<std::string> seen;
        const auto add = [&](std::string text, bool tested) {
            if (seen.insert(text).second)
                rows.push_back({std::move(text), tested});
        };
        for (std::size_t i = 0; i < sheet_.cautions.size(); ++i) {
            const lang::Condition& caution = sheet_.cautions[i];
            // One that cannot be told is shown: silence must not come from a missing answer.
            if (values_.slot[compiled_.plan.caution_slot[i]] == 0)
                continue;
            std::string text = caution.message;
            if (caution.entry != none) {
                const lang::Entry& entry = sheet_.entries[caution.entry];
                text = fmt::format("{}: {}", called(entry), text);
            }
            add(std::move(text), false);
        }
        const std::vector<char> asked =
            asked_for(compiled_.plan, values_, root_slots(sheet_, compiled_, {}));
        for (const Plan::TestedRange& range : compiled_.plan.tested)
            if (asked[range.call] != 0 && is_outside(range))
                add(tested_text(range), true);
    }

    bool is_outside(const Plan::TestedRange& range) const {
        const auto below = [](double a, double b) {
            return a < b - 1e-12 * std::fmax(std::fabs(a), std::fabs(b));
        };
        const double is = values_.slot[range.value];
        return (range.low != no_slot && below(is, values_.slot[range.low])) ||
               (range.high != no_slot && below(values_.slot[range.high], is));
    }

    std::string tested_text(const Plan::TestedRange& range) const {
        const lang::Function& function = sheet_.functions[range.function];
        const auto text = [&](Slot slot) {
            return lang::quantity_text(values_.slot[slot],
                                       function.parameter_texts[range.parameter]);
        };
        const std::string bounds = range.low == no_slot ? "up to " + text(range.high)
                                   : range.high == no_slot
                                       ? "from " + text(range.low)
                                       : text(range.low) + " .. " + text(range.high);
        return fmt::format("{}: {} {} is outside its tested range {}", function.name,
                           function.parameters[range.parameter], text(range.value), bounds);
    }

    const PricedJob& job_;
    const lang::Sheet& sheet_;
    const Compiled& compiled_;
    const Values& values_;
    const lang::SourceMap& sources_;
    std::unordered_set<std::string_view> entries_; // names
};

bool report_no_price(const lang::Sheet& sheet, lang::Diagnostics& diagnostics) {
    if (!sheet.prices.empty())
        return false;
    lang::Diagnostic diagnostic{lang::Code::I609, {}, {}, {}, {}, {}};
    diagnostic.title =
        sheet.job.model_title.empty()
            ? "the model has no price, so it cannot price a job"
            : fmt::format("\"{}\" has no price, so it cannot price a job", sheet.job.model_title);
    diagnostic.primary = {sheet.job.model_span, "no price in it"};
    diagnostic.helps.push_back({"add to the model:  price \"…\" per ac of area", {}});
    diagnostics.add(std::move(diagnostic));
    return true;
}

bool report_too_large(const PricedJob& job, lang::Diagnostics& diagnostics) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    bool found = false;
    for (const lang::PriceItem& item : sheet.prices) {
        if (std::fabs(values.slot[slot_of(compiled, item.amount)]) <
            most_dollars / static_cast<double>(sheet.prices.size()))
            continue;
        lang::Diagnostic diagnostic{lang::Code::E502, {}, {}, {}, {}, {}};
        diagnostic.title =
            fmt::format("the price of \"{}\" is too large to be kept to the cent", item.title);
        diagnostic.primary = {item.span, ""};
        diagnostics.add(std::move(diagnostic));
        found = true;
    }
    return found;
}

} // namespace

lang::Outcome<Estimate> estimate(const PricedJob& job) {
    lang::Said said{job.diagnostics(), job.shared_sources()};
    if (report_no_price(job.sheet(), said.diagnostics))
        return said;
    return estimate_without_price(job);
}

lang::Outcome<Estimate> estimate_without_price(const PricedJob& job) {
    lang::Outcome<Estimate> outcome(lang::Said{job.diagnostics(), job.shared_sources()});
    lang::Diagnostics& diagnostics = outcome.said.diagnostics;
    report_faults(job, {}, diagnostics);
    if (!diagnostics.has_errors() && !report_too_large(job, diagnostics))
        outcome.value = Estimator(job).make();
    return outcome;
}

std::optional<double> charged_otherwise(const PricedJob& job, lang::LineId line) {
    const lang::Sheet& sheet = job.sheet();
    if (line == lang::none || (line != sheet.price_total && line != sheet.price_per_unit))
        return std::nullopt;
    const lang::Outcome<Estimate> priced = estimate(job);
    if (!priced)
        return std::nullopt;
    const double charged = line == sheet.price_total
                               ? static_cast<double>(priced->price_cents) / 100
                               : priced->price_per_unit;
    const bool same = std::round(charged * 100) == std::round(job.value(line) * 100);
    return same ? std::nullopt : std::optional(charged);
}

} // namespace acre::engine
