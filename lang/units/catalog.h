// The units a text can name: the built-in catalog, and the nouns and units that models declare.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "lang/units/unit.h"

namespace acre::lang {

class UnitCatalog {
  public:
    UnitCatalog(); // with the built-in units

    const Unit* find(std::string_view name) const;
    // A noun is a base of its own; the same noun twice is the same base. False when all bases are taken.
    bool add_noun(std::string_view name);
    // False when the name means another unit already.
    bool add_unit(std::string_view name, const Unit& unit);
    bool is_built_in(std::string_view name) const;
    std::vector<std::string_view> names() const; // for near-name suggestions

    // A short text for a unit nobody wrote: "$/ac", "h/yr", "lb.ft/s^2". Prefers the names in `hints` (unit texts the
    // author used), then common ones.
    std::string text(const Unit& unit) const;
    // The unit with its usual spelling where the exact scale has a name, else the dimension in base names with its factor.

  private:
    struct Entry {
        Unit unit;
        bool built_in;
    };
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view s) const { return std::hash<std::string_view>{}(s); }
    };
    std::unordered_map<std::string, Entry, Hash, std::equal_to<>> entries_;
    std::vector<std::string> base_names_;
};

// What went wrong in a unit text, and where in it.
struct UnitError {
    enum class Kind { Unknown, Malformed, TooLarge } kind;
    std::size_t begin = 0;
    std::size_t end = 0;
    std::string word;
};

// Reads a unit text: names joined by '.', '/' and '^' whole number, brackets, "1". `text` has no blanks.
std::optional<Unit> read_unit(std::string_view text, const UnitCatalog& catalog, UnitError& error);

} // namespace acre::lang
