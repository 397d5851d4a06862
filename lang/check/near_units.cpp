#include "lang/check/near_units.h"

#include <algorithm>

#include "lang/diag/suggest.h"

namespace acre::lang {

std::vector<std::string_view> near_units(std::string_view word, const UnitCatalog& catalog) {
    std::vector<std::string_view> known = catalog.names();
    const std::vector<std::string_view> words = spelled_words();
    known.insert(known.end(), words.begin(), words.end());
    std::vector<std::string_view> out;
    for (const std::string_view name : near_names(word, known)) {
        const std::string_view usual = usual_spelling(name);
        const std::string_view unit = usual.empty() ? name : usual;
        if (std::find(out.begin(), out.end(), unit) == out.end())
            out.push_back(unit);
    }
    return out;
}

} // namespace acre::lang
