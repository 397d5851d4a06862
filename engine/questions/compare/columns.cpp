#include "engine/questions/compare/columns.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "engine/questions/block_prices.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr double no_value = std::numeric_limits<double>::quiet_NaN();

// NaN: no such line, no number, or no answer.
double line_value(const PricedJob& job, const std::string& name) {
    const lang::LineId id = job.sheet().find(name);
    return id == lang::none || job.sheet().lines[id].type.kind != lang::Type::Kind::Number
               ? no_value
               : job.value(id);
}

class Builder {
  public:
    Builder(std::span<const PricedSide> sides, CompareAnswer& answer)
        : sides_(sides),
          result_(answer) {}

    void build() {
        prices();
        costs();
        quantities();
        differences();
        bridges();
    }

  private:
    std::span<const PricedSide> sides_;
    CompareAnswer& result_;

    std::size_t count() const { return sides_.size(); }
    const PricedJob& job(std::size_t column) const { return *sides_[column].job; }
    const Estimate& estimate(std::size_t column) const { return sides_[column].estimate; }
    const std::string& money() const { return job(0).sheet().units.money(); }
    CompareRow row(std::string name, std::string label, std::string unit) const {
        return {std::move(name),
                std::move(label),
                std::move(unit),
                std::vector<double>(count(), no_value),
                {},
                false};
    }

    void prices() {
        CompareRow total = row("price.total", "price", money());
        CompareRow per_unit =
            row("price.per_unit", "price, all in", money() + "/" + estimate(0).per);
        CompareRow per_tree =
            row("price.per_tree", "price for each tree planted", money() + "/tree");
        std::vector<double> judged(count());
        for (std::size_t c = 0; c < count(); ++c) {
            const Estimate& priced = estimate(c);
            total.value[c] = static_cast<double>(priced.price_cents) / 100;
            if (priced.per == estimate(0).per && priced.per_quantity != 0)
                per_unit.value[c] = priced.price_per_unit;
            if (const double trees = line_value(job(c), "planted_trees"); trees > 0)
                per_tree.value[c] = total.value[c] / trees;
            judged[c] = std::round(
                100 * (std::isfinite(per_unit.value[c]) ? per_unit.value[c] : total.value[c]));
        }
        find_cheapest(judged);
        result_.prices.push_back(std::move(total));
        if (std::isfinite(per_unit.value[0]))
            result_.prices.push_back(std::move(per_unit));
        if (std::any_of(per_tree.value.begin(), per_tree.value.end(),
                        [](double value) { return std::isfinite(value); }))
            result_.prices.push_back(std::move(per_tree));
    }

    void find_cheapest(const std::vector<double>& cents) {
        const auto [least, most] = std::minmax_element(cents.begin(), cents.end());
        if (least == cents.end() || !(*least < *most))
            return;
        result_.cheapest = static_cast<std::size_t>(least - cents.begin());
        for (std::size_t c = 0; c < count(); ++c)
            result_.columns[c].cheapest = cents[c] == *least;
    }

    // The row of that name, made in the order in which names come up.
    CompareRow& row_of(std::vector<CompareRow>& rows, const std::string& name,
                       const std::string& label, const std::string& unit) const {
        const auto it = std::find_if(rows.begin(), rows.end(), [&](const CompareRow& one) {
            return one.name == name && one.unit == unit;
        });
        return it != rows.end() ? *it : rows.emplace_back(row(name, label, unit));
    }

    // A cost is the same in two jobs if the same statement of the same model makes it, whatever
    // the model is called there: the ripping of a whole job beside a job that only rips.
    struct CostKey {
        std::string file, local, entry, unit;
        bool operator==(const CostKey&) const = default;
    };
    CostKey key_of(std::size_t column, const CostRow& cost) const {
        const lang::Sheet& sheet = job(column).sheet();
        const lang::LineId id = sheet.find(cost.name);
        if (id == lang::none)
            return {{}, cost.name, {}, cost.rate_unit};
        const lang::Line& line = sheet.lines[id];
        const std::string& path = job(column).sources().file(line.name_span.file).name();
        return {path.substr(path.rfind('/') + 1), cost.name.substr(cost.name.rfind('.') + 1),
                line.entry == lang::none ? "" : sheet.entries[line.entry].name, cost.rate_unit};
    }
    // Jobs of different models: a cost is called by the service it belongs to.
    bool services_differ() const {
        for (std::size_t c = 1; c < count(); ++c)
            if (job(c).sheet().job.model_title != job(0).sheet().job.model_title)
                return true;
        return false;
    }
    void costs() {
        std::vector<CostKey> keys;                   // of the rows
        std::vector<std::vector<std::string>> names; // of the cost in each row, by column
        const bool by_service = services_differ();
        for (std::size_t c = 0; c < count(); ++c)
            for (const CostRow& cost : estimate(c).costs) {
                const CostKey key = key_of(c, cost);
                std::size_t i = 0; // a model used twice has its costs twice
                while (i < keys.size() &&
                       !(keys[i] == key && (names[i][c].empty() || names[i][c] == cost.name)))
                    ++i;
                if (i == keys.size()) {
                    keys.push_back(key);
                    names.emplace_back(count());
                    const std::string& label = cost.label.empty() ? cost.name : cost.label;
                    result_.costs.push_back(
                        row(cost.name,
                            by_service && !cost.part.empty() ? cost.part + ": " + label : label,
                            money()));
                }
                names[i][c] = cost.name;
                double& value = result_.costs[i].value[c];
                value = (std::isfinite(value) ? value : 0) + cost.amount; // entries have a row each
            }
        earned();
    }

    // Each column is a price of its own, with the overhead that it carries.
    void earned() {
        const auto add = [&](const char* name, const char* label, auto part) {
            CompareRow& one = result_.costs.emplace_back(row(name, label, money()));
            for (std::size_t c = 0; c < count(); ++c)
                one.value[c] = part(estimate(c).earnings);
        };
        add(
            "cost.total", "direct cost", [](const Earnings& e) { return e.direct_cost; });
        add(
            "contribution.total", "contribution",
            [](const Earnings& e) { return e.contribution(); });
        add(
            "overhead.total", "overhead carried", [](const Earnings& e) { return e.overhead; });
        add("profit.total", "profit", [](const Earnings& e) { return e.profit(); });
    }

    // The job's own lines, computed once for all entries: those of entries and used models would
    // drown them.
    static bool is_of_the_job(const PricedJob& job, const std::string& name) {
        const lang::Sheet& sheet = job.sheet();
        const lang::LineId id = sheet.find(name);
        return name.find('.') == std::string::npos && id != lang::none &&
               (sheet.lines[id].part == lang::none ||
                !sheet.parts[sheet.lines[id].part].each_entry);
    }
    void quantities() {
        for (std::size_t c = 0; c < count(); ++c)
            for (const QuantityRow& quantity : estimate(c).quantities)
                if (quantity.choice.empty() && is_of_the_job(job(c), quantity.name))
                    row_of(result_.quantities, quantity.name,
                           quantity.label.empty() ? quantity.name : quantity.label, quantity.unit)
                        .value[c] = quantity.value;
        for (const char* name : {"planted_trees", "pace", "gallons_per_acre"})
            for (std::size_t c = 0; c < count(); ++c)
                if (const double value = line_value(job(c), name); std::isfinite(value)) {
                    const lang::Sheet& sheet = job(c).sheet();
                    const lang::Line& line = sheet.lines[sheet.find(name)];
                    row_of(result_.quantities, name, line.label, line.unit_text).value[c] = value;
                }
    }

    // What is set and not computed: what a model computes follows from the rest.
    static bool is_set(const PricedJob& job, const lang::Given& given) {
        const Slot slot = job.plan().line_slot[given.line];
        if (slot == no_slot || !std::isfinite(job.values().slot[slot]) || given.settings.empty())
            return false;
        return job.plan().operations[slot].code == OpCode::Input ||
               given.settings.back().layer != lang::Layer::Model;
    }

    // A given as each column has it, in words.
    void differences() {
        std::map<std::string, CompareRow> rows;
        std::vector<std::string> order;
        for (std::size_t c = 0; c < count(); ++c) {
            const lang::Sheet& sheet = job(c).sheet();
            for (const lang::Given& given : sheet.givens) {
                if (!is_set(job(c), given))
                    continue;
                const lang::Line& line = sheet.lines[given.line];
                auto [it, is_new] =
                    rows.emplace(line.name, row(line.name, line.label, line.unit_text));
                if (is_new) {
                    it->second.choice.resize(count(), "-");
                    it->second.is_choice = line.type.kind == lang::Type::Kind::Choice;
                    order.push_back(line.name);
                }
                const double value = job(c).value(given.line);
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
            CompareWhy& why = result_.why.emplace_back();
            why.column = c;
            BridgeQuestion question;
            question.before = question.before_label = result_.columns[0].name;
            question.after = question.after_label = result_.columns[c].name;
            question.total = estimate(0).per.empty() || estimate(c).per != estimate(0).per;
            lang::Outcome<BridgeAnswer> bridge = ask(job(0), job(c), question);
            if (bridge)
                why.bridge = std::move(*bridge);
            else
                why.why_not = bridge.said.diagnostics.all().front().title;
        }
    }
};

} // namespace

void fill_blocks(std::span<const PricedSide> sides, CompareAnswer& answer) {
    std::map<std::string, std::size_t> row_of;
    const std::string& money = sides[0].job->sheet().units.money();
    for (std::size_t c = 0; c < sides.size(); ++c) {
        const auto put = [&](const std::string& name, const std::string& label,
                             std::int64_t cents) {
            const auto [at, added] = row_of.try_emplace(name, answer.blocks.size());
            if (added)
                answer.blocks.push_back(
                    {name, label, money, std::vector<double>(sides.size(), no_value), {}, false});
            answer.blocks[at->second].value[c] = static_cast<double>(cents) / 100;
        };
        const BlockPrices prices = block_prices(*sides[c].job, sides[c].estimate);
        for (const BlockPrice& block : prices.blocks)
            put(block.name, block.label, block.cents);
        for (const BlockPrices::Shared& shared : prices.shared)
            if (shared.cents != 0)
                put(shared.title, shared.title + ", all blocks", shared.cents);
    }
}

void fill_columns(std::span<const PricedSide> sides, CompareAnswer& answer) {
    Builder(sides, answer).build();
}

} // namespace acre::engine
