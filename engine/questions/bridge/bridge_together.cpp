#include "engine/questions/bridge/bridge_together.h"

#include <optional>

#include "engine/readers/value.h"

namespace acre::engine {
namespace {

// One side of the bridge, and what its price asks for when one change is made on it.
class Side {
  public:
    Side(const PricedJob& job, std::span<const Change> changes, bool is_before, bool total)
        : job_(job),
          changes_(changes),
          is_before_(is_before) {
        const lang::Sheet& sheet = job.sheet();
        price_ = job.plan().line_slot[total ? sheet.price_total : sheet.price_per_unit];
        const auto inputs = inputs_by_line(job.plan());
        for (const Change& change : changes) {
            const bool plain = change.kind == BridgeKind::Given && !change.structural;
            const lang::LineId line = plain ? sheet.find(change.name) : lang::none;
            const auto input = inputs.find(line);
            input_.push_back(line == lang::none || input == inputs.end()
                                 ? std::nullopt
                                 : std::optional(input->second));
        }
        asked_ = asked_for(job.plan(), job.values(), std::span(&price_, 1));
    }

    bool has(std::size_t change) const { return input_[change].has_value(); }
    bool uses(std::size_t change) const { return uses(asked_, change); }
    // Once that other change is made too.
    std::vector<char> asked_with(std::size_t change) const {
        std::vector<double> inputs;
        for (const Input& input : job_.plan().inputs)
            inputs.push_back(input.value);
        const Change& made = changes_[change];
        inputs[*input_[change]] = (is_before_ ? made.after : made.before)->value;
        return asked_for(job_.plan(), evaluate(job_.plan(), inputs), std::span(&price_, 1));
    }
    bool uses(const std::vector<char>& asked, std::size_t change) const {
        return asked[job_.plan().inputs[*input_[change]].slot] != 0;
    }

  private:
    const PricedJob& job_;
    std::span<const Change> changes_;
    bool is_before_;
    Slot price_ = no_slot;
    std::vector<std::optional<std::uint32_t>> input_; // by change
    std::vector<char> asked_;
};

class JoinedChanges {
  public:
    explicit JoinedChanges(std::size_t size) {
        for (std::size_t i = 0; i < size; ++i)
            masks_.push_back(std::uint64_t{1} << i);
    }
    void unite(std::size_t a, std::size_t b) {
        const std::uint64_t both = masks_[a] | masks_[b];
        for (std::size_t i = 0; i < masks_.size(); ++i)
            if ((both >> i & 1U) != 0)
                masks_[i] = both;
    }
    std::vector<std::uint64_t> each_once() const {
        std::vector<std::uint64_t> out;
        std::uint64_t taken = 0;
        for (const std::uint64_t mask : masks_) {
            if ((taken & mask) == 0)
                out.push_back(mask);
            taken |= mask;
        }
        return out;
    }

  private:
    std::vector<std::uint64_t> masks_; // by change: its group
};

// Changes whose value this side does not use, while the other does: each joins the first change
// that makes it used here.
void join_unused(const Side& here, const Side& other, std::size_t changes, JoinedChanges& groups) {
    std::vector<std::size_t> unused;
    for (std::size_t i = 0; i < changes; ++i)
        if (here.has(i) && other.has(i) && !here.uses(i) && other.uses(i))
            unused.push_back(i);
    for (std::size_t j = 0; j < changes && !unused.empty(); ++j) {
        if (!here.has(j))
            continue;
        const std::vector<char> asked = here.asked_with(j);
        std::erase_if(unused, [&](std::size_t i) {
            if (i == j || !here.uses(asked, i))
                return false;
            groups.unite(i, j);
            return true;
        });
    }
}

} // namespace

std::vector<std::uint64_t> changes_together(const PricedJob& before, const PricedJob& after,
                                            std::span<const Change> changes, bool total) {
    const Side old_side(before, changes, true, total), new_side(after, changes, false, total);
    JoinedChanges groups(changes.size());
    join_unused(old_side, new_side, changes.size(), groups);
    join_unused(new_side, old_side, changes.size(), groups);
    return groups.each_once();
}

} // namespace acre::engine
