// Finds the number of an entry that is kept elsewhere, by its hash: four to eight bytes an entry,
// nothing allocated for each.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace acre::engine {

class IndexTable {
  public:
    static constexpr std::uint32_t none = 0xFFFFFFFF;

    // The index for which `same(index)` holds, or none.
    template <class Same> std::uint32_t find(std::uint64_t hash, Same same) const {
        if (buckets_.empty())
            return none;
        for (std::size_t at = home(hash); buckets_[at] != none;
             at = (at + 1) & (buckets_.size() - 1))
            if (same(buckets_[at]))
                return buckets_[at];
        return none;
    }

    // `index` must not be there yet; `hash_of(index)` gives the hash of any index that is.
    template <class HashOf> void add(std::uint64_t hash, std::uint32_t index, HashOf hash_of) {
        if (uses_ * 2 >= buckets_.size()) {
            const auto old = std::exchange(
                buckets_,
                std::vector<std::uint32_t>(buckets_.empty() ? 256 : buckets_.size() * 2, none));
            for (const std::uint32_t kept : old)
                if (kept != none)
                    place(hash_of(kept), kept);
        }
        place(hash, index);
        ++uses_;
    }

  private:
    std::size_t home(std::uint64_t hash) const {
        return static_cast<std::size_t>(hash) & (buckets_.size() - 1);
    }
    void place(std::uint64_t hash, std::uint32_t index) {
        std::size_t at = home(hash);
        while (buckets_[at] != none)
            at = (at + 1) & (buckets_.size() - 1);
        buckets_[at] = index;
    }

    std::vector<std::uint32_t> buckets_; // a power of two of them, half empty at least
    std::size_t uses_ = 0;
};

// Mixes one more word into a hash.
inline std::uint64_t mix(std::uint64_t hash, std::uint64_t word) {
    hash = (hash ^ word) * 0x9E3779B97F4A7C15ULL;
    return hash ^ (hash >> 29U);
}

} // namespace acre::engine
