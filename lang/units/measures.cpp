#include "lang/units/measures.h"

#include <algorithm>

#include "lang/units/builtin_units.h"
#include "lang/units/catalog.h"
#include "lang/units/letters.h"
#include "lang/units/number_text.h"

namespace acre::lang {
namespace {

constexpr std::string_view made_of_others = "words for units made of others";

// The same letters, large or small: no other spelling.
bool is_name_itself(std::string_view word, std::string_view name) {
    return std::equal(
        word.begin(), word.end(), name.begin(), name.end(),
        [](char a, char b) { return to_lower(a) == to_lower(b); });
}

std::vector<std::string_view> spellings_of(std::string_view name) {
    std::vector<std::string_view> words;
    for (const std::string_view word : spelled_words())
        if (usual_spelling(word) == name && !is_name_itself(word, name))
            words.push_back(word);
    return words;
}

} // namespace

std::vector<Measure> measures() {
    std::vector<Measure> list;
    for (const BuiltinUnit& unit : builtin_units()) {
        const std::string is = unit.of.empty() ? "" : quantity_text(unit.times, unit.of);
        list.push_back({unit.name, unit.kind, is, spellings_of(unit.name)});
    }
    for (const std::string_view word : spelled_words()) {
        const std::string_view usual = usual_spelling(word);
        const bool listed = std::any_of(list.begin(), list.end(), [&](const Measure& measure) {
            return measure.name == usual;
        });
        if (!listed)
            list.push_back({usual, made_of_others, {}, spellings_of(usual)});
    }
    return list;
}

} // namespace acre::lang
