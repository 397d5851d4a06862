#include "cli/compare/columns.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr double no_value = std::numeric_limits<double>::quiet_NaN();

double line_value(const engine::PricedJob& job, const std::string& name) {
    const lang::LineId id = job.sheet().find(name);
    if (id == lang::none || job.sheet().lines[id].type.kind != lang::Type::Kind::Number)
        return no_value;
    const engine::Slot slot = job.plan().line_slot[id];
    return slot == engine::no_slot ? no_value : job.values().slot[slot];
}

class Builder {
  public:
    explicit Builder(Comparison& comparison) : result_(comparison) {}

    void build() {
        prices();
        costs();
        quantities();
        differences();
        bridges();
    }

  private:
    Comparison& result_;

    std::size_t count() const { return result_.columns.size(); }
    CompareRow row(std::string name, std::string label, std::string unit) const {
        return {std::move(name),
                std::move(label),
                std::move(unit),
                std::vector<double>(count(), no_value),
                {}};
    }

    void prices() {
        CompareRow total = row("price.total", "price", "$");
        CompareRow per_unit =
            row("price.per_unit", "price, all in", "$/" + result_.columns[0].estimate.per);
        CompareRow per_tree = row("price.per_tree", "price for each tree planted", "$/tree");
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t c = 0; c < count(); ++c) {
            const engine::Estimate& estimate = result_.columns[c].estimate;
            total.value[c] = static_cast<double>(estimate.price_cents) / 100;
            if (estimate.per == result_.columns[0].estimate.per && !estimate.per.empty())
                per_unit.value[c] = estimate.price_per_unit;
            if (const double trees = line_value(*result_.columns[c].job, "planted_trees");
                trees > 0)
                per_tree.value[c] = total.value[c] / trees;
            const double judged =
                std::isfinite(per_unit.value[c]) ? per_unit.value[c] : total.value[c];
            if (judged < least) {
                least = judged;
                result_.cheapest = c;
            }
        }
        result_.prices.push_back(std::move(total));
        if (std::isfinite(per_unit.value[0]))
            result_.prices.push_back(std::move(per_unit));
        if (std::any_of(per_tree.value.begin(), per_tree.value.end(),
                        [](double value) { return std::isfinite(value); }))
            result_.prices.push_back(std::move(per_tree));
    }

    // The row of that name, made in the order in which names come up.
    CompareRow& row_of(std::vector<CompareRow>& rows, const std::string& name,
                       const std::string& label, const std::string& unit) const {
        const auto it = std::find_if(rows.begin(), rows.end(), [&](const CompareRow& one) {
            return one.name == name && one.unit == unit;
        });
        return it != rows.end() ? *it : rows.emplace_back(row(name, label, unit));
    }

    void costs() {
        for (std::size_t c = 0; c < count(); ++c)
            for (const engine::CostRow& cost : result_.columns[c].estimate.costs) {
                double& value = row_of(result_.costs, cost.name,
                                       cost.label.empty() ? cost.name : cost.label, "$")
                                    .value[c];
                value = (std::isfinite(value) ? value : 0) + cost.amount; // blocks have a row each
            }
        CompareRow all = row("cost.total", "all costs", "$");
        CompareRow left = row("profit.total", "left over", "$");
        for (std::size_t c = 0; c < count(); ++c) {
            all.value[c] = result_.columns[c].estimate.cost_total;
            left.value[c] =
                static_cast<double>(result_.columns[c].estimate.price_cents) / 100 - all.value[c];
        }
        result_.costs.push_back(std::move(all));
        result_.costs.push_back(std::move(left));
    }

    // The job's own lines, computed once for all blocks: those of blocks and used models would
    // drown them.
    static bool is_of_the_job(const engine::PricedJob& job, const std::string& name) {
        const lang::Sheet& sheet = job.sheet();
        const lang::LineId id = sheet.find(name);
        return name.find('.') == std::string::npos && id != lang::none &&
               (sheet.lines[id].part == lang::none ||
                !sheet.parts[sheet.lines[id].part].each_block);
    }
    void quantities() {
        for (std::size_t c = 0; c < count(); ++c)
            for (const engine::QuantityRow& quantity : result_.columns[c].estimate.quantities)
                if (quantity.choice.empty() &&
                    is_of_the_job(*result_.columns[c].job, quantity.name))
                    row_of(result_.quantities, quantity.name,
                           quantity.label.empty() ? quantity.name : quantity.label, quantity.unit)
                        .value[c] = quantity.value;
        for (const char* name : {"planted_trees", "pace", "gallons_per_acre"})
            for (std::size_t c = 0; c < count(); ++c)
                if (const double value = line_value(*result_.columns[c].job, name);
                    std::isfinite(value)) {
                    const lang::Line& line =
                        result_.columns[c].job->sheet().lines[result_.columns[c].job->sheet().find(
                            name)];
                    row_of(result_.quantities, name, line.label, line.unit_text).value[c] = value;
                }
    }

    // A given as each column has it, in words.
    void differences() {
        std::map<std::string, CompareRow> rows;
        std::vector<std::string> order;
        for (std::size_t c = 0; c < count(); ++c) {
            const engine::PricedJob& job = *result_.columns[c].job;
            const lang::Sheet& sheet = job.sheet();
            for (const lang::Given& given : sheet.givens) {
                const lang::Line& line = sheet.lines[given.line];
                const engine::Slot slot = job.plan().line_slot[given.line];
                // What a model computes follows from the rest.
                const bool computed =
                    job.plan().operations[slot == engine::no_slot ? 0 : slot].code !=
                    engine::OpCode::Input;
                if (slot == engine::no_slot || !std::isfinite(job.values().slot[slot]) ||
                    given.settings.empty() ||
                    (computed && given.settings.back().layer == lang::Layer::Model))
                    continue;
                auto [it, is_new] =
                    rows.emplace(line.name, row(line.name, line.label, line.unit_text));
                if (is_new) {
                    it->second.choice.resize(count(), "-");
                    order.push_back(line.name);
                }
                const double value = job.values().slot[slot];
                it->second.value[c] = value;
                it->second.choice[c] =
                    line.type.kind == lang::Type::Kind::Choice
                        ? sheet.choices[line.type.choice].options[static_cast<std::size_t>(value)]
                        : lang::quantity_text(value, line.unit_text);
            }
        }
        for (const std::string& name : order) {
            CompareRow& one = rows.at(name);
            const bool same =
                std::all_of(one.choice.begin(), one.choice.end(),
                            [&](const std::string& text) { return text == one.choice[0]; });
            if (!same)
                result_.differences.push_back(std::move(one));
        }
    }

    void bridges() {
        for (std::size_t c = 1; c < count(); ++c) {
            Comparison::Why& why = result_.why.emplace_back();
            why.column = c;
            const bool total = result_.columns[0].estimate.per.empty() ||
                               result_.columns[c].estimate.per != result_.columns[0].estimate.per;
            auto bridge = engine::bridge(*result_.columns[0].job, *result_.columns[c].job, total);
            if (bridge)
                why.bridge = std::move(*bridge);
            else
                why.why_not = bridge.said.diagnostics.all().front().title;
        }
    }
};

} // namespace

void compare(Comparison& comparison) {
    Builder(comparison).build();
}

} // namespace acre::cli
