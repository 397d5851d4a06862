#include "lang/check/near_units.h"

#include <algorithm>

#include "lang/diag/suggest.h"

namespace acre::lang {

std::vector<NearUnit> near_units(std::string_view word, const UnitCatalog& catalog) {
    std::vector<std::string_view> known = catalog.names();
    const std::vector<std::string_view> words = spelled_words();
    known.insert(known.end(), words.begin(), words.end());
    std::vector<NearUnit> out;
    for (const std::string_view name : near_names(word, known)) {
        const std::string_view usual = usual_spelling(name);
        const std::string_view unit = usual.empty() ? name : usual;
        if (std::none_of(out.begin(), out.end(),
                         [unit](const NearUnit& n) { return n.unit == unit; }))
            out.push_back({unit, same_letters(word, name)});
    }
    return out;
}

} // namespace acre::lang
