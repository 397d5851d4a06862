#include "engine/questions/block_prices.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string_view>

#include "engine/plan/operands.h"
#include "engine/readers/adjoint.h"
#include "engine/words/choice_label.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

// Which block a slot of the plan rests on alone.
class Owners {
  public:
    static constexpr std::uint32_t nobody = 0;
    static constexpr std::uint32_t several = std::numeric_limits<std::uint32_t>::max();

    Owners(const PricedJob& job, const std::vector<BlockName>& blocks)
        : owner_(job.plan().size(), nobody) {
        const Plan& plan = job.plan();
        for (Slot i = 0; i < plan.size(); ++i) {
            const Operation& op = plan.operations[i];
            if (op.code == OpCode::Input)
                owner_[i] = owner_of(blocks, job.sheet().lines[plan.inputs[op.a].line].name);
            else
                for_each_operand(plan, op, [&](Slot operand) { join(i, owner_[operand]); });
        }
    }

    // 0: none; else the block's number and one.
    std::uint32_t of(Slot slot) const { return owner_[slot]; }

    std::vector<char> single() const {
        std::vector<char> is(owner_.size());
        for (std::size_t i = 0; i < is.size(); ++i)
            is[i] = owner_[i] != nobody && owner_[i] != several;
        return is;
    }

  private:
    std::vector<std::uint32_t> owner_;

    static std::uint32_t owner_of(const std::vector<BlockName>& blocks, const std::string& name) {
        const std::size_t dot = name.find('.');
        if (dot == std::string::npos)
            return nobody;
        const std::string_view first = std::string_view(name).substr(0, dot);
        for (std::size_t i = 0; i < blocks.size(); ++i)
            if (blocks[i].name == first)
                return static_cast<std::uint32_t>(i + 1);
        return nobody;
    }
    void join(Slot slot, std::uint32_t other) {
        if (other == nobody || owner_[slot] == other)
            return;
        owner_[slot] = owner_[slot] == nobody ? other : several;
    }
};

// What a line has from each block: empty where it rests on none, or on one against another.
std::vector<double> shares_of(const PricedJob& job, const Owners& owners, std::size_t blocks,
                              Slot target) {
    std::vector<double> part(blocks, 0.0);
    const std::vector<double>& value = job.values().slot;
    if (const std::uint32_t owner = owners.of(target);
        owner != Owners::nobody && owner != Owners::several) {
        part[owner - 1] = 1;
        return part;
    }
    const std::vector<char> single = owners.single();
    std::vector<double> slope(job.plan().inputs.size(), 0.0);
    std::vector<double> bar;
    Adjoint(job.plan(), target, single).run(value, slope, bar);
    for (Slot i = 0; i < bar.size(); ++i)
        if (single[i] && bar[i] != 0)
            part[owners.of(i) - 1] += bar[i] * value[i];
    double sum = 0;
    for (const double p : part) {
        if (!(p >= 0))
            return {};
        sum += p;
    }
    if (!(sum > 1e-9 * std::abs(value[target])))
        return {};
    for (double& p : part)
        p /= sum;
    return part;
}

// Whole cents by these shares; the cents that are left over go to the largest remainders.
std::vector<std::int64_t> share_out(std::int64_t cents, const std::vector<double>& shares) {
    std::vector<std::int64_t> out(shares.size());
    std::vector<std::pair<double, std::size_t>> rest;
    std::int64_t left = cents;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const double exact = static_cast<double>(cents) * shares[i];
        out[i] = static_cast<std::int64_t>(std::floor(exact));
        left -= out[i];
        rest.emplace_back(std::floor(exact) - exact, i);
    }
    std::sort(rest.begin(), rest.end());
    for (std::size_t i = 0; left > 0; ++i, --left)
        ++out[rest[i % rest.size()].second];
    return out;
}

class Figures {
  public:
    explicit Figures(const PricedJob& job) : job_(job), sheet_(job.sheet()) {}

    BlockFigure of(const std::string& name) const {
        const lang::LineId id = sheet_.find(name);
        if (id == lang::none)
            return {};
        const lang::Line& line = sheet_.lines[id];
        BlockFigure figure;
        figure.value = job_.value(id);
        if (line.type.kind == lang::Type::Kind::Choice) {
            figure.text = choice_label(choice_text(sheet_, line.type, figure.value));
        } else {
            figure.unit = unit_text(sheet_, line);
            figure.text = value_text(sheet_, id, figure.value);
        }
        return figure;
    }

    // The same line as a share of it.
    BlockFigure share(const std::string& name, double share) const {
        const lang::LineId id = sheet_.find(name);
        if (id == lang::none || sheet_.lines[id].type.kind != lang::Type::Kind::Number)
            return {};
        const double value = job_.value(id) * share;
        return {value, unit_text(sheet_, sheet_.lines[id]), value_text(sheet_, id, value)};
    }

  private:
    const PricedJob& job_;
    const lang::Sheet& sheet_;
};

// By more than a cent that was left over may do.
bool differ_by_the_acre(const std::vector<BlockPrice>& blocks) {
    return std::any_of(
        blocks.begin(), blocks.end(),
        [&](const BlockPrice& block) {
            return std::abs(block.per_acre - blocks.front().per_acre) >= 0.01;
        });
}

void take_figures(const PricedJob& job, BlockPrices& prices) {
    const Figures figures(job);
    double hours = 0;
    for (BlockPrice& block : prices.blocks) {
        block.acres = figures.of(block.name + ".area");
        block.depth = figures.of(block.name + ".depth");
        block.soil = figures.of(block.name + ".soil");
        if (block.soil.text.empty())
            block.soil = figures.of(block.name + ".top.ground");
        block.pace = figures.of(block.name + ".acres_per_hour");
        block.hours = figures.of(block.name + ".block_hours");
        hours += block.hours.value;
    }
    for (BlockPrice& block : prices.blocks) {
        if (hours > 0)
            block.days = figures.share("days", block.hours.value / hours);
        if (block.acres.value > 0)
            block.per_acre = static_cast<double>(block.cents) / 100 / block.acres.value;
    }
}

} // namespace

std::vector<BlockName> blocks_of(const lang::Sheet& sheet) {
    std::vector<BlockName> blocks;
    for (const lang::Entry& entry : sheet.entries)
        if (!entry.name.empty() && entry.name.find('.') == std::string::npos &&
            sheet.find(entry.name + ".area") != lang::none)
            blocks.push_back({entry.name, entry.label.empty() ? entry.name : entry.label});
    return blocks;
}

BlockPrices block_prices(const PricedJob& job, const Estimate& estimate) {
    BlockPrices prices;
    const lang::Sheet& sheet = job.sheet();
    const std::vector<BlockName> blocks = blocks_of(sheet);
    if (blocks.empty())
        return prices;
    for (const BlockName& block : blocks) {
        BlockPrice& price = prices.blocks.emplace_back();
        price.name = block.name;
        price.label = block.label;
    }
    const Owners owners(job, blocks);
    for (std::size_t i = 0; i < sheet.prices.size(); ++i) {
        const ItemRow& item = estimate.items[i];
        const Slot slot = job.plan().line_slot[sheet.prices[i].cost];
        const std::vector<double> shares =
            slot == no_slot ? std::vector<double>() : shares_of(job, owners, blocks.size(), slot);
        prices.cost += item.cost;
        prices.cents += item.cents;
        if (shares.empty()) {
            prices.shared.push_back({item.title, item.cost, item.cents});
            continue;
        }
        const std::vector<std::int64_t> cents = share_out(item.cents, shares);
        for (std::size_t k = 0; k < prices.blocks.size(); ++k) {
            prices.blocks[k].cost += item.cost * shares[k];
            prices.blocks[k].cents += cents[k];
        }
        prices.one_rate.push_back({item.title, item.per, item.rate});
    }
    take_figures(job, prices);
    const bool differ = differ_by_the_acre(prices.blocks);
    std::erase_if(prices.one_rate, [&](const BlockPrices::OneRate& one) {
        return !differ || one.per.empty() || one.per != prices.blocks.front().acres.unit;
    });
    return prices;
}

} // namespace acre::engine
