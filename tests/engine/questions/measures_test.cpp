#include "engine/questions/measures.h"

#include <doctest/doctest.h>

#include <set>

#include "lang/units/catalog.h"

namespace measures_test {

using namespace acre;

namespace {

double converted(const std::string& quantity, const std::string& unit) {
    const auto answer = engine::ask(engine::ConversionQuestion{quantity, unit});
    REQUIRE(answer.value.has_value());
    return answer->value;
}

} // namespace

TEST_CASE("a quantity is said in another unit of its kind") {
    // NIST Handbook 44, appendix C (from memory): a gallon is 3.785 411 784 L, an acre 4 046.856
    // m².
    CHECK(converted("45 gal/h", "L/h") == doctest::Approx(45 * 3.785411784).epsilon(1e-12));
    CHECK(converted("1 acre", "m^2") == doctest::Approx(4046.8564224).epsilon(1e-12));
    CHECK(converted("10 gallons/hour", "liters/hour") == doctest::Approx(37.85411784));
    CHECK(converted("-3 ft", "in") == -36);
    CHECK(engine::ask(engine::ConversionQuestion{"2 ac", "ft^2"})->text == "87,120 ft^2");
}

TEST_CASE("what cannot be said in it is refused") {
    const std::pair<const char*, const char*> cases[] = {
        {"45 gal/h", "ac"}, {"45 gal/h", "furlong"}, {"many gal", "L"}, {"45", "L"},
        {"", "L"},          {"1 gal", ""},           {"1 gal", "L//h"}, {"$3/yr", "$/h"}};
    for (const auto& one : cases)
        CHECK_MESSAGE(!engine::ask(engine::ConversionQuestion{one.first, one.second}).value,
                      std::string(one.first) << " in " << one.second);
}

TEST_CASE("every unit of the catalog is listed once, under what it measures") {
    const auto all = engine::ask(engine::MeasuresQuestion{});
    REQUIRE(all.value.has_value());
    std::set<std::string_view> names;
    for (const lang::Measure& unit : all->units) {
        CHECK(names.insert(unit.name).second);
        CHECK(!unit.kind.empty());
    }
    for (const std::string_view name : lang::UnitCatalog().names())
        CHECK_MESSAGE(names.contains(name), std::string(name));
}

TEST_CASE("a word finds a unit by its name, by a spelling or by its kind") {
    const auto found = [](const std::string& word) {
        std::string text;
        if (const auto answer = engine::ask(engine::MeasuresQuestion{word}))
            for (const lang::Measure& unit : answer->units)
                text += " " + std::string(unit.name);
        return text;
    };
    CHECK(found("acres") == " ac");
    CHECK(found("Gallons") == " gal");
    CHECK(found("area") == " ac ha");
    CHECK(found("mph") == " mi/h");
    CHECK(found("no such") == "");
}

} // namespace measures_test
