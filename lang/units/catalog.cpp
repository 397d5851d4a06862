#include "lang/units/catalog.h"

#include <algorithm>

#include "lang/units/builtin_units.h"

namespace acre::lang {
namespace {

struct Spelling {
    std::string_view word, unit;
};

constexpr Spelling spellings[] = {
#define ACRE_SPELLING(word, unit) {word, unit},
#include "lang/units/spelling.def"
#undef ACRE_SPELLING
};

} // namespace

UnitCatalog::UnitCatalog() = default;

const Unit* UnitCatalog::find(std::string_view name) const {
    if (const Unit* const unit = find_builtin_unit(name))
        return unit;
    const auto at = added_.find(name);
    return at == added_.end() ? nullptr : &at->second;
}

bool UnitCatalog::add_noun(std::string_view name) {
    if (std::find(nouns_.begin(), nouns_.end(), name) != nouns_.end())
        return true;
    if (first_noun + nouns_.size() == max_bases ||
        !add_unit(name, base_unit(first_noun + nouns_.size())))
        return false;
    nouns_.emplace_back(name);
    return true;
}

bool UnitCatalog::add_unit(std::string_view name, const Unit& unit) {
    if (const Unit* const known = find(name))
        return *known == unit;
    added_.emplace(name, unit);
    added_names_.emplace_back(name);
    return true;
}

bool UnitCatalog::is_built_in(std::string_view name) const {
    return find_builtin_unit(name) != nullptr;
}

std::vector<std::string_view> UnitCatalog::names() const {
    std::vector<std::string_view> out;
    for (const BuiltinUnit& unit : builtin_units())
        out.push_back(unit.name);
    out.insert(out.end(), added_names_.begin(), added_names_.end());
    return out;
}

std::vector<std::string_view> spelled_words() {
    std::vector<std::string_view> out;
    for (const Spelling& spelling : spellings)
        out.push_back(spelling.word);
    return out;
}

std::string_view usual_spelling(std::string_view word) {
    std::string lower(word);
    std::transform(
        lower.begin(), lower.end(), lower.begin(),
        [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    const auto* const at = std::find_if(std::begin(spellings), std::end(spellings),
                                        [&](const Spelling& s) { return s.word == lower; });
    return at == std::end(spellings) ? std::string_view{} : at->unit;
}

std::optional<Unit> read_unit(std::string_view text, const UnitCatalog& catalog, UnitError& error) {
    const auto terms = read_terms(text, error);
    if (!terms)
        return std::nullopt;
    Unit out;
    bool first = true;
    for (const UnitTerm& term : *terms) {
        const Unit* const unit = catalog.find(term.name);
        if (unit == nullptr) {
            error = {UnitError::Kind::Unknown, term.begin, term.begin + term.name.size(),
                     std::string(term.name)};
            return std::nullopt;
        }
        std::optional<Unit> next;
        if (term.exponent == 1)
            next = first ? std::optional(*unit) : multiply(out, *unit);
        else if (term.exponent == -1)
            next = divide(out, *unit);
        else if (const auto raised = power(*unit, term.exponent))
            next = multiply(out, *raised);
        if (!next) {
            error = {UnitError::Kind::TooLarge, 0, text.size(), std::string(text)};
            return std::nullopt;
        }
        out = *next;
        first = false;
    }
    return out;
}

} // namespace acre::lang
