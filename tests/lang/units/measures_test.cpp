// The list of units for people against the catalog that reads them.
#include "lang/units/measures.h"

#include <algorithm>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "lang/units/catalog.h"

namespace measures_test {

using namespace acre::lang;

TEST_CASE("every word that is known stands once, at the unit that it means") {
    const std::vector<Measure> all = measures();
    std::set<std::string_view> listed;
    for (const Measure& measure : all)
        for (const std::string_view word : measure.spellings) {
            CAPTURE(std::string(word));
            CHECK(listed.insert(word).second);
            CHECK(usual_spelling(word) == measure.name);
        }
    std::size_t other_words = 0;
    for (const std::string_view word : spelled_words()) {
        CAPTURE(std::string(word));
        const bool is_itself = std::any_of(all.begin(), all.end(), [&](const Measure& measure) {
            return measure.name.size() == word.size() &&
                   std::equal(word.begin(), word.end(), measure.name.begin(), [](char a, char b) {
                       return a == b || a == (b >= 'A' && b <= 'Z' ? b - 'A' + 'a' : b);
                   });
        });
        CHECK((listed.contains(word) || is_itself));
        other_words += listed.contains(word) ? 1 : 0;
    }
    CHECK(other_words == listed.size());
    CHECK(listed.size() > 50);
}

TEST_CASE("what a unit is said to be is the same quantity in other units") {
    const UnitCatalog catalog;
    std::size_t said = 0;
    for (const Measure& measure : measures()) {
        if (measure.is.empty())
            continue;
        CAPTURE(std::string(measure.name));
        UnitError error{};
        const auto unit = read_unit(std::string(measure.name), catalog, error);
        // "43,560 ft^2"; money "$0.01", a share "0.01".
        const std::size_t blank = measure.is.rfind(' ');
        const bool is_money = measure.is.front() == '$';
        std::string number = measure.is.substr(is_money ? 1 : 0, blank);
        std::erase(number, ',');
        const auto of = read_unit(is_money                     ? "$"
                                  : blank == std::string::npos ? "1"
                                                               : measure.is.substr(blank + 1),
                                  catalog, error);
        REQUIRE(unit);
        REQUIRE(of);
        CHECK(unit->dim == of->dim);
        CHECK(conversion(*unit, *of).apply(1) ==
              doctest::Approx(std::stod(number)).epsilon(5e-4)); // four digits
        ++said;
    }
    CHECK(said > 20);
}

} // namespace measures_test
