// Where a plan decides: whole numbers, conditions, the greater of two, the row of a table. Between
// two points at which every decision is the same, a line is smooth.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/plan/plan.h"

namespace acre::engine {

class Switches {
  public:
    // Those that `target` may rest on and some of `inputs` reach.
    Switches(const Plan& plan, Slot target, std::span<const std::uint32_t> inputs);

    // What must be read to know the decisions.
    const std::vector<Slot>& slots() const { return slots_; }

    // All decisions of each lane in one number; the same number for the same decisions (by hashing:
    // two unlike states of one plan will not meet in practice). column(k): the values of
    // slots()[k], lane by lane. A decision at a time, for all lanes: a line may have a hundred
    // thousand of them, each far in memory from the next.
    template <class Column> void states(Column column, std::span<std::uint64_t> all) const {
        std::fill(all.begin(), all.end(), 0x9E3779B97F4A7C15);
        for (const Watch& watch : watches_) {
            const double* const a = column(watch.first);
            const double* const b = watch.kind == Kind::Least || watch.kind == Kind::Most
                                        ? column(watch.first + 1)
                                        : nullptr;
            for (std::size_t i = 0; i < all.size(); ++i)
                all[i] = mix(all[i] ^ decide(watch, a[i], b == nullptr ? 0.0 : b[i]));
        }
    }

    // The first operation that decides otherwise in the second reading; no_slot if all decide the
    // same.
    template <class Read, class Other> Slot first_difference(Read read, Other other) const {
        for (const Watch& watch : watches_)
            if (decision(watch, read) != decision(watch, other))
                return watch.slot;
        return no_slot;
    }

    std::size_t size() const { return watches_.size(); }

  private:
    enum class Kind : std::uint8_t { Value, Least, Most, Sign, Row };
    struct Watch {
        Slot slot;
        Kind kind;
        std::uint32_t first; // into slots_; Least, Most: and the one after it
        std::uint32_t table;
    };
    template <class Read> std::uint64_t decision(const Watch& watch, Read read) const {
        return decide(watch, read(watch.first),
                      watch.kind == Kind::Least || watch.kind == Kind::Most ? read(watch.first + 1)
                                                                            : 0.0);
    }
    std::uint64_t decide(const Watch& watch, double a, double b) const;
    static std::uint64_t mix(std::uint64_t x) {
        x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9;
        x = (x ^ (x >> 27)) * 0x94D049BB133111EB;
        return x ^ (x >> 31);
    }

    const Plan* plan_;
    std::vector<Watch> watches_;
    std::vector<Slot> slots_;
};

} // namespace acre::engine
