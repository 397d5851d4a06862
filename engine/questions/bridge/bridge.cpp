#include "engine/questions/bridge/bridge.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "engine/driver.h"
#include "engine/plan/effort.h"
#include "engine/questions/bridge/bridge_changes.h"
#include "engine/questions/bridge/bridge_sides.h"
#include "engine/questions/bridge/bridge_together.h"
#include "engine/questions/bridge/mixed_loader.h"
#include "engine/questions/bridge/shapley.h"
#include "engine/questions/one_money.h"
#include "engine/readers/lanes.h"
#include "engine/words/money.h"

namespace acre::engine {
namespace {

class Plans {
  public:
    Plans(const PricedJob& before, const PricedJob& after, std::vector<Change> changes, bool total)
        : before_(before),
          after_(after),
          changes_(std::move(changes)),
          total_(total) {}

    // More work than one answer may take: what is asked for since has no price.
    bool too_large() const { return too_large_; }

    // The price for each combination of changes.
    void operator()(std::span<const std::uint64_t> masks, std::span<double> results) {
        std::map<std::uint64_t, std::vector<std::size_t>> by_structure;
        for (std::size_t i = 0; i < masks.size(); ++i)
            by_structure[masks[i] & structure()].push_back(i);
        for (const auto& [bits, lanes] : by_structure)
            read(variant(bits), masks, lanes, results);
    }

  private:
    struct Variant {
        Job job; // null: no price
        Slot price = no_slot;
        std::vector<std::uint32_t> inputs, players; // which input each change moves
        std::optional<LaneReader> reader;
    };
    const PricedJob& before_;
    const PricedJob& after_;
    std::vector<Change> changes_;
    bool total_;
    std::map<std::uint64_t, std::unique_ptr<Variant>> variants_;
    std::uint64_t effort_ = 0, nodes_ = 0;
    bool too_large_ = false;

    std::uint64_t structure() const {
        std::uint64_t mask = 0;
        for (std::size_t i = 0; i < changes_.size(); ++i)
            mask |= changes_[i].structural ? std::uint64_t{1} << i : 0;
        return mask;
    }

    Variant& variant(std::uint64_t bits) {
        std::unique_ptr<Variant>& slot = variants_[bits];
        if (slot)
            return *slot;
        slot = std::make_unique<Variant>();
        too_large_ = too_large_ || variants_.size() > max_variants || nodes_ > max_variant_nodes;
        if (too_large_)
            return *slot;
        const auto is_new = [&](BridgeKind kind) {
            for (std::size_t i = 0; i < changes_.size(); ++i)
                if (changes_[i].kind == kind)
                    return (bits >> i & 1U) != 0;
            return true; // nothing changed: the new side is as good as the old
        };
        const PricedJob& side = is_new(BridgeKind::Model) ? after_ : before_;
        const PricedJob& library = is_new(BridgeKind::Library) ? after_ : before_;
        const PricedJob& other = is_new(BridgeKind::Library) ? before_ : after_;
        MixedLoader loader(side, library, other);
        lang::Request request = side.request();
        for (std::size_t i = 0; i < changes_.size(); ++i)
            set(request, changes_[i], (bits >> i & 1U) != 0);
        if (const lang::Outcome<Job> made = make_job(request, loader)) {
            slot->job = *made;
            nodes_ += slot->job->sheet().nodes.size();
            find_inputs(*slot);
        }
        return *slot;
    }

    // Every given that changed is set outright, or left to the model where the model computes it,
    // so that the files of one side cannot stand in for the other.
    static void set(lang::Request& request, const Change& change, bool is_new) {
        if (change.kind != BridgeKind::Given)
            return;
        const GivenValue& value = is_new ? *change.after : *change.before;
        std::erase_if(request.sets, [&](const auto& pair) { return pair.first == change.name; });
        if (value.text.empty())
            request.as_modeled.push_back(change.name);
        else
            request.sets.emplace_back(change.name, value.text);
    }

    void find_inputs(Variant& variant) {
        const lang::Sheet& sheet = variant.job->sheet();
        const lang::LineId line = total_ ? sheet.price_total : sheet.price_per_unit;
        variant.price = line == lang::none ? no_slot : variant.job->plan().line_slot[line];
        const auto inputs = inputs_by_line(variant.job->plan());
        for (std::uint32_t i = 0; i < changes_.size(); ++i) {
            const lang::LineId given =
                changes_[i].kind == BridgeKind::Given && !changes_[i].structural
                    ? sheet.find(changes_[i].name)
                    : lang::none;
            if (const auto input = inputs.find(given);
                given != lang::none && input != inputs.end()) {
                variant.inputs.push_back(input->second);
                variant.players.push_back(i);
            }
        }
        if (variant.price != no_slot) {
            const Slot wanted[] = {variant.price};
            effort_ += effort_of_plan * variant.job->plan().size();
            variant.reader.emplace(variant.job->plan(), variant.inputs, wanted);
        }
    }

    static void no_answer(const std::vector<std::size_t>& lanes, std::span<double> results) {
        for (const std::size_t lane : lanes)
            results[lane] = std::numeric_limits<double>::quiet_NaN();
    }

    void read(const Variant& variant, std::span<const std::uint64_t> masks,
              const std::vector<std::size_t>& lanes, std::span<double> results) {
        if (variant.price == no_slot)
            return no_answer(lanes, results);
        if (too_large_ ||
            (effort_ += variant.reader->size().of_a_run(lanes.size()) +
                        variant.reader->size().scratch_bytes / sizeof(double)) > max_effort) {
            too_large_ = true;
            return no_answer(lanes, results);
        }
        const LaneReader& reader = *variant.reader;
        const auto scratch = reader.scratch();
        std::vector<std::vector<double>> values(variant.inputs.size(),
                                                std::vector<double>(lanes_per_run));
        std::vector<const double*> in;
        for (const std::vector<double>& column : values)
            in.push_back(column.data());
        std::vector<double> prices(lanes_per_run);
        double* const out[] = {prices.data()};
        for (std::size_t begin = 0; begin < lanes.size(); begin += lanes_per_run) {
            const std::size_t size = std::min(lanes_per_run, lanes.size() - begin);
            for (std::size_t k = 0; k < variant.inputs.size(); ++k) {
                const Change& change = changes_[variant.players[k]];
                for (std::size_t i = 0; i < size; ++i)
                    values[k][i] =
                        ((masks[lanes[begin + i]] >> variant.players[k] & 1U) != 0 ? change.after
                                                                                   : change.before)
                            ->value;
            }
            reader.run(size, in.data(), out, *scratch);
            for (std::size_t i = 0; i < size; ++i)
                results[lanes[begin + i]] = prices[i];
        }
    }
};

// The rows in cents so that they and the rounding row add up to the difference of the prices as
// quoted.
void settle_cents(BridgeAnswer& bridge) {
    std::int64_t sum = 0;
    for (BridgeRow& row : bridge.rows) {
        row.cents = to_cents(row.share);
        sum += row.cents;
    }
    const std::int64_t all = bridge.after.cents - bridge.before.cents;
    if (all == sum)
        return;
    BridgeRow& rounding = bridge.rows.emplace_back();
    rounding.kind = BridgeKind::Rounding;
    rounding.share = static_cast<double>(all) / 100 - (bridge.after.value - bridge.before.value);
    rounding.cents = all - sum;
}

std::vector<BridgeRow> rows_of(const std::vector<Change>& changes, const Attribution& parts) {
    std::vector<BridgeRow> rows;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (parts.group[i] != i)
            continue;
        BridgeRow row;
        row.kind = changes[i].kind;
        row.share = parts.share[i];
        for (std::size_t k = i; k < changes.size(); ++k) {
            if (parts.group[k] != i || changes[k].kind != BridgeKind::Given)
                continue;
            const Change& change = changes[k];
            if (row.changes.empty())
                row.because = change.after->because;
            row.changes.push_back({change.name, change.after->label, change.before->shown,
                                   change.after->shown, change.after->is_choice});
        }
        if (row.changes.size() > 1 ||
            (changes[i].kind != BridgeKind::Given && !row.changes.empty()))
            row.kind = BridgeKind::Together;
        rows.push_back(std::move(row));
    }
    std::stable_sort(rows.begin(), rows.end(), [](const BridgeRow& a, const BridgeRow& b) {
        return std::abs(a.share) > std::abs(b.share);
    });
    return rows;
}

lang::Diagnostic refused(std::string title, std::vector<std::string> helps = {}) {
    return lang::placeless(lang::Code::Q007, std::move(title), {}, std::move(helps));
}

} // namespace

lang::Said of_side(lang::Said said, std::string_view side, std::string_view what) {
    if (said.diagnostics.left_out() > 0) // as it is: how many were left out must not be lost
        return said;
    lang::Said noted;
    noted.sources = std::move(said.sources);
    for (lang::Diagnostic diagnostic : said.diagnostics.all()) {
        diagnostic.notes.push_back(
            fmt::format("of the {} price{}{}", side, what.empty() ? "" : ", ", what));
        noted.diagnostics.add(std::move(diagnostic));
    }
    return noted;
}

lang::Outcome<BridgeAnswer> ask(const PricedJob& before, const PricedJob& after,
                                const BridgeQuestion& question) {
    const bool total = question.total;
    lang::Outcome<SidePrice> old_price = price_of(before, total);
    if (!old_price)
        return of_side(std::move(old_price.said), "old", question.before);
    lang::Outcome<SidePrice> new_price = price_of(after, total);
    if (!new_price)
        return of_side(std::move(new_price.said), "new", question.after);
    if (auto other = in_other_money(before.sheet().firm.money, after))
        return std::move(*other);
    if (old_price->unit != new_price->unit)
        return refused(
            fmt::format("one price is in {}, the other in {}", old_price->unit, new_price->unit),
            {"compare the whole prices (`--total`)"});
    const GivenValues old_givens = givens_of(before);
    const GivenValues new_givens = givens_of(after);
    const std::vector<Change> changes = changes_between(before, after, old_givens, new_givens);
    if (changes.size() > max_players)
        return refused(fmt::format("{} values changed; a bridge takes {} at most", changes.size(),
                                   max_players));
    Plans plans(before, after, changes, total);
    const Attribution parts = attribute(
        changes.size(),
        [&](std::span<const std::uint64_t> masks, std::span<double> results) {
            plans(masks, results);
        },
        changes_together(before, after, changes, total));
    if (plans.too_large())
        return refused("the two prices differ in too much for one bridge",
                       {"bridge prices with fewer changes between them"});
    const auto near = [](double a, double b) {
        return std::abs(a - b) <= 1e-9 * std::max(1.0, std::abs(b));
    };
    if (!parts.answered || !near(parts.before, old_price->price) ||
        !near(parts.after, new_price->price))
        return refused("one price cannot be changed into the other value by value");
    if (!std::all_of(parts.share.begin(), parts.share.end(), has_cents))
        return refused("a step between the two prices is too large to be told in cents");
    BridgeAnswer result;
    result.unit = new_price->unit;
    result.before = side_of(before, question.before, question.before_label, *old_price);
    result.after = side_of(after, question.after, question.after_label, *new_price);
    tell_apart(result);
    result.exact = parts.exact;
    result.rows = rows_of(changes, parts);
    result.kept = kept_price(*old_price, *new_price);
    settle_cents(result);
    return result;
}

} // namespace acre::engine
