// The units a text can name: the built-in catalog, and the nouns and units that models declare.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "lang/units/money.h"
#include "lang/units/unit.h"
#include "lang/units/unit_text.h"

namespace acre::lang {

class UnitCatalog {
  public:
    UnitCatalog(); // with the built-in units (catalog.def)

    // By its name, as people spell it ("acres"), or by the plural of a noun ("trees"). All signs
    // and codes of money are one unit: whose money a figure is in, others ask
    // (check/resolve/money.h).
    const Unit* find(std::string_view name) const;
    // A noun is a base of its own; the same noun twice is the same base. False when all bases are
    // taken, or when the name means another unit already.
    bool add_noun(std::string_view name);
    // False when the name means another unit already.
    bool add_unit(std::string_view name, const Unit& unit);
    // Taken by the catalog, as a name or as a spelling of one: no model can give it a meaning of
    // its own.
    bool is_built_in(std::string_view name) const;
    std::vector<std::string_view> names() const; // for near-name suggestions

    // How texts write the unit of money: "$", "€", "CHF".
    void write_money(std::string_view word) { money_ = word; }
    const std::string& money() const { return money_; }
    // A text with money in it, as it is written here: "CHF/h" of "$/h".
    std::string in_own_money(std::string_view unit_text) const;

    // A short text for a unit nobody wrote: "$/ac", "h/yr", "lb.ft/s^2", "%", "1". Exact: reading
    // the text gives the unit again, but where no names make the scale: then a factor stands before
    // a usual unit of the kind: "7.5 ac/h".
    std::string text(const Unit& unit) const;
    // The field's usual unit of the kind, whatever its scale: "ac/h" for length squared over time.
    std::string usual_text(const Dim& dim) const;

  private:
    const Unit* find_named(std::string_view name) const;
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view s) const {
            return std::hash<std::string_view>{}(s);
        }
    };
    std::unordered_map<std::string, Unit, Hash, std::equal_to<>> added_;
    std::vector<std::string> added_names_; // in order
    std::string money_ = "$";
    std::vector<std::string> nouns_; // the base of nouns_[i] is first_noun + i
};

// How a unit is written here that people spell otherwise: "acres" -> "ac", "hour" -> "h". Empty
// when not known.
std::string_view usual_spelling(std::string_view word);
std::vector<std::string_view> spelled_words(); // all that it knows, lower case
// A text with a unit in it, with every such word as it is written here: "$/hour" -> "$/h",
// "gal/sqft" -> "gal/ft^2", "$5/gph" -> "$5/(gal/h)".
std::string with_usual_spelling(std::string_view text);

// Reads a unit text: names joined by '.', '/' and '^' whole number, brackets, "1". `text` has no
// blanks.
std::optional<Unit> read_unit(std::string_view text, const UnitCatalog& catalog, UnitError& error);

} // namespace acre::lang
