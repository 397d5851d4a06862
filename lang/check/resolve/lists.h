// The lists of a job (`list leg`), their entries, and in which of them a line stands.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <string_view>
#include <vector>

#include "lang/check/sheet.h"

namespace acre::lang::resolving {

// Some lists, each once, the outermost first: `each layer of block` is block, layer.
class Lists {
  public:
    void add(std::uint32_t list) {
        if (!contains(list))
            list_[count_++] = static_cast<std::uint8_t>(list);
    }
    bool contains(std::uint32_t list) const {
        for (const std::uint32_t other : *this)
            if (other == list)
                return true;
        return false;
    }
    bool empty() const { return count_ == 0; }
    std::uint32_t size() const { return count_; }
    std::uint32_t innermost() const { return list_[count_ - 1U]; }
    const std::uint8_t* begin() const { return list_.data(); }
    const std::uint8_t* end() const { return list_.data() + count_; }

  private:
    std::array<std::uint8_t, max_lists> list_{};
    std::uint8_t count_ = 0;
};

// The entry of each list that a place stands in.
class Entries {
  public:
    Entries() { entry_.fill(open); }
    bool has(std::uint32_t list) const { return entry_[list] != open; }
    std::uint32_t operator[](std::uint32_t list) const { return entry_[list]; } // where it has one
    void put(std::uint32_t list, std::uint32_t entry) {
        entry_[list] = static_cast<std::uint16_t>(entry);
    }
    bool none_at_all() const { return *this == Entries(); }
    bool contains(const Entries& other) const {
        for (std::uint32_t l = 0; l < max_lists; ++l)
            if (other.has(l) && entry_[l] != other.entry_[l])
                return false;
        return true;
    }
    friend bool operator==(const Entries&, const Entries&) = default;
    friend bool operator<(const Entries& a, const Entries& b) { return a.entry_ < b.entry_; }

  private:
    static constexpr std::uint16_t open = 0xFFFF;
    std::array<std::uint16_t, max_lists> entry_;
};

struct List {
    std::string_view name;
    Span span;
    std::vector<std::string_view> entries; // none: there is one, without a name
    bool by_job = false;                   // the job lists them
    bool is_read = false;                  // a part is computed for each of them
    ChoiceId choice = none;                // the entries that the model names, for `layer is pan`

    std::uint32_t count() const {
        return entries.empty() ? 1 : static_cast<std::uint32_t>(entries.size());
    }
};

struct EntrySaid {
    const ast::Entry* entry = nullptr;
    std::uint32_t module = 0;
};

// An entry with a name.
struct ListEntry {
    std::string_view name;
    Span span;
    std::uint32_t list = 0, entry = 0;
    // Where the job says it, and the files of values that it takes before; none: the model gives
    // it.
    std::vector<EntrySaid> said;
};

} // namespace acre::lang::resolving
