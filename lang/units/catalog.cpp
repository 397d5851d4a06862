#include "lang/units/catalog.h"

#include <algorithm>
#include <array>

#include "lang/units/builtin_units.h"
#include "lang/units/letters.h"

namespace acre::lang {
namespace {

struct Spelling {
    std::string_view word, unit;
};

constexpr auto spellings = std::to_array<Spelling>({
#define ACRE_SPELLING(word, unit) {word, unit},
#include "lang/units/spelling.def"
#undef ACRE_SPELLING
});

std::string lower(std::string_view word) {
    std::string out(word);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return out;
}

struct Meaning {
    std::string_view usual;
    Unit unit;
};
using Spelled = std::unordered_map<std::string, Meaning>;

// Every word of the table with what it means.
const Spelled& spelled() {
    static const Spelled words = [] {
        Spelled made;
        for (const Spelling& spelling : spellings) {
            UnitError error; // the table is ours, and a test reads all of it
            Unit unit;
            const auto terms = read_terms(spelling.unit, error);
            for (const UnitTerm& term : *terms)
                unit = *multiply(unit, *power(*find_builtin_unit(term.name), term.exponent));
            made.emplace(spelling.word, Meaning{spelling.unit, unit});
        }
        return made;
    }();
    return words;
}

// A sign or a code of money.
bool is_money(std::string_view name) {
    return is_money_code(name) || (!name.empty() && money_sign_size(name) == name.size());
}

} // namespace

UnitCatalog::UnitCatalog() = default;

const Unit* UnitCatalog::find_named(std::string_view name) const {
    if (const Unit* const unit = find_builtin_unit(name))
        return unit;
    if (is_money(name))
        return find_builtin_unit("$");
    const auto at = added_.find(name);
    return at == added_.end() ? nullptr : &at->second;
}

const Unit* UnitCatalog::find(std::string_view name) const {
    if (const Unit* const unit = find_named(name))
        return unit;
    const auto is_noun = [this](std::string_view single) {
        return std::find(nouns_.begin(), nouns_.end(), single) != nouns_.end();
    };
    for (const std::string_view plural : {"s", "es"})
        if (name.ends_with(plural))
            if (const std::string_view single = name.substr(0, name.size() - plural.size());
                is_noun(single))
                return find_named(single);
    const Spelled& words = spelled();
    const auto at = words.find(lower(name));
    return at == words.end() ? nullptr : &at->second.unit;
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
    if (const Unit* const known = find_named(name))
        return *known == unit;
    added_.emplace(name, unit);
    added_names_.emplace_back(name);
    return true;
}

bool UnitCatalog::is_built_in(std::string_view name) const {
    return find_builtin_unit(name) != nullptr || is_money(name) || !usual_spelling(name).empty();
}

std::vector<std::string_view> UnitCatalog::names() const {
    std::vector<std::string_view> out;
    for (const BuiltinUnit& unit : builtin_units())
        out.push_back(unit.name);
    out.insert(out.end(), added_names_.begin(), added_names_.end());
    return out;
}

std::string UnitCatalog::in_own_money(std::string_view unit_text) const {
    std::string out;
    for (std::size_t at = 0; at < unit_text.size();) {
        std::size_t end = at + money_sign_size(unit_text.substr(at));
        const bool sign = end > at;
        while (!sign && end < unit_text.size() &&
               (is_letter(unit_text[end]) || unit_text[end] == '_' ||
                (end > at && is_digit(unit_text[end]))))
            ++end;
        end = std::max(end, at + 1);
        const std::string_view word = unit_text.substr(at, end - at);
        out += sign || is_money_code(word) ? std::string_view(money_) : word;
        at = end;
    }
    return out;
}

std::vector<std::string_view> spelled_words() {
    std::vector<std::string_view> out;
    for (const Spelling& spelling : spellings)
        out.push_back(spelling.word);
    return out;
}

std::string_view usual_spelling(std::string_view word) {
    const auto at = spelled().find(lower(word));
    return at == spelled().end() ? std::string_view{} : at->second.usual;
}

std::string with_usual_spelling(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at;
        while (end < text.size() &&
               (is_letter(text[end]) || text[end] == '_' || (end > at && is_digit(text[end]))))
            ++end;
        if (end == at) {
            out += text[at++];
            continue;
        }
        const std::string_view word = text.substr(at, end - at);
        const std::string_view usual = usual_spelling(word);
        const bool raised = end < text.size() && text[end] == '^';
        const bool of_many = usual.find('/') != std::string_view::npos;
        if ((of_many && (raised || at > 0)) ||
            (raised && usual.find('^') != std::string_view::npos))
            out.append("(").append(usual).append(")");
        else
            out += usual.empty() ? word : usual;
        at = end;
    }
    return out;
}

std::optional<Unit> read_unit(std::string_view text, const UnitCatalog& catalog, UnitError& error) {
    const auto terms = read_terms(text, error);
    if (!terms)
        return std::nullopt;
    Unit out;
    for (const UnitTerm& term : *terms) {
        const Unit* const unit = catalog.find(term.name);
        if (unit == nullptr) {
            error = {UnitError::Kind::Unknown, term.begin, term.begin + term.name.size(),
                     std::string(term.name)};
            return std::nullopt;
        }
        std::optional<Unit> next;
        if (term.exponent == 1)
            next = multiply(out, *unit);
        else if (term.exponent == -1)
            next = divide(out, *unit);
        else if (const auto raised = power(*unit, term.exponent))
            next = multiply(out, *raised);
        if (!next) {
            error = {UnitError::Kind::TooLarge, 0, text.size(), std::string(text)};
            return std::nullopt;
        }
        out = *next;
    }
    return out;
}

} // namespace acre::lang
