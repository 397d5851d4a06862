// Finds a short text for a unit that nobody wrote: tries names for each base in turn until the
// scale comes out exactly.

#include <algorithm>
#include <array>
#include <cstdlib>

#include <fmt/format.h>

#include "lang/units/builtin_units.h"
#include "lang/units/catalog.h"

namespace acre::lang {
namespace {

// The order in which bases are written: money first, then what is moved, over time.
constexpr auto writing_order =
    std::to_array<Base>({Money, Mass, Length, Bank, Loose, Angle, Time, Day, Shift, Year});

struct Named {
    std::string_view name;
    Unit unit;
};

// One way to write a power of one base, as names with exponents.
struct Choice {
    UnitTerms terms;
    Unit unit;
};

int bases_in(const Dim& dim) {
    return static_cast<int>(std::count_if(
        dim.exponent.begin(), dim.exponent.end(), [](std::int8_t e) { return e != 0; }));
}

class Speller {
  public:
    Speller(std::vector<Named> names, const std::vector<std::string>& nouns)
        : names_(std::move(names)),
          nouns_(nouns) {}

    // Exactly, or else nothing. Compound names (hp, psi, a unit of the author's own) are tried
    // after plain ones.
    std::optional<std::string> exact(const Unit& unit) {
        target_ = unit;
        need_scale_ = true;
        if (const auto terms = search({}, one, 0))
            return to_text(*terms);
        for (const Named& named : names_) {
            if (bases_in(named.unit.dim) < 2)
                continue;
            for (const int exponent : {1, -1}) {
                // Only where the name takes bases away: lbf.s^2/ft for a mass helps nobody.
                const auto rest =
                    exponent == 1 ? divide(unit, named.unit) : multiply(unit, named.unit);
                if (!rest || bases_in(rest->dim) >= bases_in(unit.dim))
                    continue;
                UnitTerms terms;
                terms.terms[terms.count++] = {named.name, exponent, 0};
                if (const auto found = search(terms, power(named.unit, exponent).value(), 0))
                    return to_text(*found);
            }
        }
        return std::nullopt;
    }

    // The first unit of the kind, whatever its scale.
    std::string usual(const Unit& unit, Unit& found) {
        target_ = unit;
        need_scale_ = false;
        const auto terms = search({}, one, 0);
        found = found_;
        return terms ? to_text(*terms) : std::string("1");
    }

  private:
    // Chooses names for base number `step` of the writing order, then for the rest.
    std::optional<UnitTerms> search(const UnitTerms& terms, const Unit& so_far, std::size_t step) {
        const std::size_t built_in = std::size(writing_order);
        if (step == built_in + nouns_.size()) {
            found_ = so_far;
            return !need_scale_ || so_far == target_ ? std::optional(terms) : std::nullopt;
        }
        const std::size_t base =
            step < built_in ? std::size_t{writing_order[step]} : first_noun + (step - built_in);
        const int exponent = target_.dim.exponent[base] - so_far.dim.exponent[base];
        if (exponent == 0)
            return search(terms, so_far, step + 1);
        for (const Choice& choice : choices(base, exponent)) {
            const auto next = multiply(so_far, choice.unit);
            const auto joined = combine(terms, choice.terms, 1);
            if (!next || !joined)
                continue;
            if (const auto found = search(*joined, *next, step + 1))
                return found;
        }
        return std::nullopt;
    }

    std::vector<Choice> choices(std::size_t base, int exponent) const {
        std::vector<Choice> out;
        const int size = std::abs(exponent);
        const int sign = exponent < 0 ? -1 : 1;
        const auto add = [&](std::initializer_list<std::pair<const Named*, int>> parts) {
            Choice choice;
            std::optional<Unit> unit = one;
            for (const auto& [named, e] : parts) {
                choice.terms.terms[choice.terms.count++] = {named->name, sign * e, 0};
                const auto raised = power(named->unit, sign * e);
                unit = unit && raised ? multiply(*unit, *raised) : std::nullopt;
            }
            if (unit) {
                choice.unit = *unit;
                out.push_back(choice);
            }
        };
        const auto power_of_base = [base](const Named& named) {
            return bases_in(named.unit.dim) == 1 ? named.unit.dim.exponent[base] : 0;
        };
        for (const bool root : {false, true}) // one name: gal and ac before ft^3 and ft^2
            for (const Named& named : names_)
                if (const int e = power_of_base(named);
                    e > 0 && size % e == 0 && (size != e) == root)
                    add({{&named, size / e}});
        if (out.empty() || base == Length) // two names: mi.ft, ac.ft, gal/ac
            for (const Named& a : names_)
                for (const Named& b : names_) {
                    const int ea = power_of_base(a);
                    const int eb = power_of_base(b);
                    if (ea <= 0 || eb <= 0)
                        continue;
                    if (ea + eb == size && (ea != eb || a.name < b.name))
                        add({{&a, 1}, {&b, 1}});
                    for (const int times : {1, 3}) // m^3/ha
                        if (times * ea - eb == size && a.name != b.name)
                            add({{&a, times}, {&b, -1}});
                }
        return out;
    }

    std::vector<Named> names_;
    const std::vector<std::string>& nouns_;
    Unit target_;
    Unit found_;
    bool need_scale_ = true;
};

// Names as they are tried: the field's usual ones first.
std::vector<Named> usual_order(const std::vector<std::string>& added, const UnitCatalog& catalog) {
    static constexpr auto first = std::to_array<std::string_view>(
        {"$", "ac", "ft", "mi", "h", "min", "gal", "lb", "ton", "yr", "in", "cy"});
    std::vector<Named> out;
    out.reserve(first.size() + added.size());
    for (const std::string_view name : first)
        out.push_back(
            {name == "$" ? std::string_view(catalog.money()) : name, *catalog.find(name)});
    for (const std::string& name : added)
        out.push_back({name, *catalog.find(name)});
    for (const BuiltinUnit& unit : builtin_units())
        if (unit.shown &&
            std::find(std::begin(first), std::end(first), unit.name) == std::end(first))
            out.push_back({unit.name, unit.unit});
    return out;
}

} // namespace

std::string UnitCatalog::text(const Unit& unit) const {
    if (unit == one)
        return "1";
    const std::vector<Named> names = usual_order(added_names_, *this);
    for (const Named& named : names)
        if (named.unit == unit)
            return std::string(named.name);
    Speller speller(names, nouns_);
    if (!unit.is_plain())
        if (auto text = speller.exact(unit))
            return *std::move(text);
    Unit near;
    const std::string text = speller.usual(unit, near);
    const auto ratio = divide(unit.scale, near.scale);
    const double factor = ratio ? to_double(*ratio) : to_double(unit.scale) / to_double(near.scale);
    return unit.is_plain() ? fmt::format("{:.6g}", factor) : fmt::format("{:.6g} {}", factor, text);
}

std::string UnitCatalog::usual_text(const Dim& dim) const {
    Unit found;
    return Speller(usual_order(added_names_, *this), nouns_).usual(Unit{dim, {}}, found);
}

} // namespace acre::lang
