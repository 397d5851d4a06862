// Names to numbers without an allocation a name: open addressing over hashes; the names stay where
// they are.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <string_view>
#include <vector>

namespace acre::lang {

// `name_of(id)` gives the name of a number already in the table; it is asked only when hashes are
// equal.
class NameTable {
  public:
    static constexpr std::uint32_t absent = 0xFFFFFFFF;

    void reserve(std::size_t names) {
        if (const std::size_t wanted = std::bit_ceil(names * 2 + 8); wanted > slots_.size())
            grow(wanted);
    }

    template <class NameOf> std::uint32_t find(std::string_view name, NameOf&& name_of) const {
        if (slots_.empty())
            return absent;
        const std::uint32_t hash = hash_of(name);
        for (std::size_t at = hash & (slots_.size() - 1);; at = (at + 1) & (slots_.size() - 1)) {
            const Slot& slot = slots_[at];
            if (slot.id == absent || (slot.hash == hash && name_of(slot.id) == name))
                return slot.id;
        }
    }

    // Adds the name, or gives the number that has it already.
    template <class NameOf>
    std::uint32_t insert(std::string_view name, std::uint32_t id, NameOf&& name_of) {
        reserve(count_ + 1);
        const std::uint32_t hash = hash_of(name);
        for (std::size_t at = hash & (slots_.size() - 1);; at = (at + 1) & (slots_.size() - 1)) {
            Slot& slot = slots_[at];
            if (slot.id == absent) {
                slot = {hash, id};
                ++count_;
                return absent;
            }
            if (slot.hash == hash && name_of(slot.id) == name)
                return slot.id;
        }
    }

  private:
    struct Slot {
        std::uint32_t hash = 0;
        std::uint32_t id = absent;
    };

    static std::uint32_t hash_of(std::string_view name) {
        const std::uint64_t full = std::hash<std::string_view>{}(name); // 32 bits on some machines
        return static_cast<std::uint32_t>(full ^ (full >> 32U));
    }

    void grow(std::size_t size) {
        std::vector<Slot> old(size);
        old.swap(slots_);
        for (const Slot& slot : old) {
            if (slot.id == absent)
                continue;
            std::size_t at = slot.hash & (size - 1);
            while (slots_[at].id != absent)
                at = (at + 1) & (size - 1);
            slots_[at] = slot;
        }
    }

    std::vector<Slot> slots_; // a power of two; at most half of them taken
    std::size_t count_ = 0;
};

} // namespace acre::lang
