#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>
#include <memory>
#include <random>
#include <string>

#include <fmt/format.h>

#include "lang/units/catalog.h"
#include "lang/units/named_unit.h"

namespace catalog_test {

using namespace acre::lang;

namespace {

std::optional<Unit> read(std::string_view text) {
    static const UnitCatalog catalog;
    UnitError error;
    return read_unit(text, catalog, error);
}

UnitError error_of(std::string_view text) {
    static const UnitCatalog catalog;
    UnitError error;
    REQUIRE_FALSE(read_unit(text, catalog, error));
    return error;
}

} // namespace

TEST_CASE("the catalog has the values that standards print") {
    struct {
        std::string_view from, to;
        double factor;
    } const rows[] = {
        // NIST SP 811 (2008) appendix B.8, from memory; all exact but the last digits.
        {"ac", "m^2", 4046.8564224},
        {"ha", "ac", 2.4710538146717},
        {"gal", "L", 3.785411784},
        {"lb", "kg", 0.45359237},
        {"ton", "kg", 907.18474},
        {"lbf", "N", 4.4482216152605},
        {"hp", "W", 745.69987158227022},
        {"mi/h", "km/h", 1.609344},
        {"cy", "m^3", 0.764554857984},
        {"lbf/ft", "N/m", 14.593902937206},
        {"gal/ac", "L/ha", 9.3539562289562},
        {"gal/(hp.h)", "L/(kW.h)", 5.0763208205573},
        {"psi", "kPa", 6.894757293168},
    };
    for (const auto& row : rows) {
        CAPTURE(row.from);
        CHECK(conversion(*read(row.from), *read(row.to)).apply(1) ==
              doctest::Approx(row.factor).epsilon(1e-13));
    }
}

TEST_CASE("unit texts are read as the reference says") {
    struct {
        std::string_view text, same_as;
    } const rows[] = {{"$/(ac.ft)", "$/ac/ft"},
                      {"lb.ft/s^2", "lb.ft/(s.s)"},
                      {"ac/ft^2.ft^2", "ac"},
                      {"1/h", "h^-1"},
                      {"(mi/h)^2", "mi^2/h^2"},
                      {"a", ""},
                      {"1", "h/h"},
                      {"((ft))", "ft"},
                      {"1/(1/h)", "h"},
                      {"ft^0", "1"},
                      {"%/yr", "1/(yr.1)/1.%"}};
    for (const auto& row : rows) {
        CAPTURE(row.text);
        if (row.same_as.empty())
            CHECK_FALSE(read(row.text));
        else
            CHECK((read(row.text) && read(row.text) == read(row.same_as)));
    }
}

TEST_CASE("a unit text that cannot be read says what and where") {
    struct {
        std::string_view text;
        UnitError::Kind kind;
        std::size_t begin, end;
        std::string_view word;
    } const rows[] = {{"gal/acer", UnitError::Kind::Unknown, 4, 8, "acer"},
                      {"", UnitError::Kind::Malformed, 0, 0, ""},
                      {"gal/", UnitError::Kind::Malformed, 4, 4, ""},
                      {"(ac", UnitError::Kind::Malformed, 0, 3, "(ac"},
                      {"ac)", UnitError::Kind::Malformed, 2, 3, ")"},
                      {"ft^", UnitError::Kind::Malformed, 2, 3, "^"},
                      {"ft^x", UnitError::Kind::Malformed, 2, 3, "^"},
                      {"ft*in", UnitError::Kind::Malformed, 2, 3, "*"},
                      {"2", UnitError::Kind::Malformed, 0, 1, "2"},
                      {"11", UnitError::Kind::Malformed, 0, 1, "1"},
                      {"ft^128", UnitError::Kind::TooLarge, 2, 6, "^128"},
                      {"(ft^100)^2", UnitError::Kind::TooLarge, 0, 10, "(ft^100)^2"},
                      {"mi^12", UnitError::Kind::TooLarge, 0, 5, "mi^12"},
                      {"s^100.s^100", UnitError::Kind::TooLarge, 0, 11, "s^100.s^100"}};
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const UnitError error = error_of(row.text);
        CHECK(error.kind == row.kind);
        CHECK(error.begin == row.begin);
        CHECK(error.end == row.end);
        CHECK(error.word == row.word);
    }
    CHECK(error_of(std::string(100000, '(')).kind == UnitError::Kind::Malformed);
    std::string many = "s";
    for (int i = 0; i < 40; ++i)
        many += ".s";
    CHECK(error_of(many).kind == UnitError::Kind::TooLarge);
}

TEST_CASE("a noun is a base of its own, and there is room for a fixed number") {
    UnitCatalog catalog;
    CHECK(catalog.add_noun("tree"));
    CHECK(catalog.add_noun("tree"));
    CHECK(catalog.add_noun("move"));
    CHECK(catalog.find("tree")->dim != catalog.find("move")->dim);
    CHECK_FALSE(catalog.add_noun("ac"));
    CHECK_FALSE(catalog.is_built_in("tree"));
    CHECK(catalog.is_built_in("ac"));
    std::size_t more = 0;
    while (catalog.add_noun("noun" + std::to_string(more)))
        ++more;
    CHECK(more + 2 == max_bases - first_noun);
    CHECK_FALSE(UnitCatalog().find("tree"));
}

TEST_CASE("a unit of the author's own is exact, and may be said again but not changed") {
    UnitCatalog catalog;
    const Unit tank{read("gal")->dim, *multiply(*read_ratio("1,100"), read("gal")->scale)};
    CHECK(catalog.add_unit("tank", tank));
    CHECK(catalog.add_unit("tank", tank));
    CHECK_FALSE(catalog.add_unit("tank", *read("gal")));
    CHECK_FALSE(catalog.add_unit("gal", tank));
    CHECK(conversion(*catalog.find("tank"), *read("gal")).apply(2) == 2200);
    CHECK(catalog.text(tank) == "tank");
    CHECK(catalog.text(*divide(tank, *read("shift"))) == "tank/shift");
    CHECK(catalog.names().back() == "tank");
    // One of two bases: it is named where it takes bases away.
    const Unit crew{read("$/h")->dim, *multiply(Ratio{85, 1}, read("$/h")->scale)};
    CHECK(catalog.add_unit("crew", crew));
    CHECK(catalog.text(*divide(crew, *read("ac"))) == "crew/ac");
    CHECK(catalog.text(*divide(*read("ac"), crew)) == "ac/crew");
}

TEST_CASE("a unit nobody wrote gets its usual spelling") {
    struct {
        std::string_view unit, text;
    } const rows[] = {{"$/ac", "$/ac"},
                      {"ac/h", "ac/h"},
                      {"h/yr", "h/yr"},
                      {"$/h.h/ac", "$/ac"},
                      {"lb.ft/s^2", "lb.ft/s^2"},
                      {"mi/h.ft", "ft.mi/h"},
                      {"mph", "mi/h"},
                      {"bcy/h", "bcy/h"},
                      {"$/lcy", "$/lcy"},
                      {"lbf", "lbf"},
                      {"lbf/ft", "lbf/ft"},
                      {"lbf.mi/h", "lbf.mi/h"},
                      {"ft/ft", "1"},
                      {"%", "%"},
                      {"1/yr", "1/yr"},
                      {"gal/(hp.h)", "gal/(hp.h)"},
                      {"$/(ac.ft)", "$/(ac.ft)"},
                      {"ac.ft/day", "ac.ft/day"},
                      {"gal/ac", "gal/ac"},
                      {"in.in", "in^2"},
                      {"cy/h", "cy/h"},
                      {"lb/ft^3", "lb/ft^3"},
                      {"$/mo", "$/mo"},
                      {"m^3/ha", "m^3/ha"},
                      {"ft/in", "12"}};
    const UnitCatalog catalog;
    for (const auto& row : rows) {
        CAPTURE(row.unit);
        CHECK(catalog.text(*read(row.unit)) == row.text);
    }
    CHECK(catalog.text(Unit{read("ac/h")->dim, *multiply(read("ac/h")->scale, Ratio{15, 2})}) ==
          "7.5 ac/h");
    // 32.174 ft/s^2 (NIST SP 811, from memory): a mass is no force by seconds and feet.
    CHECK(catalog.text(*read("lbf.s^2/ft")) == "32.174 lb");
    // 2^-128 in / 12, where the exact ratio does not fit.
    CHECK(catalog.text(Unit{read("in")->dim, {1, std::numeric_limits<Wide>::max()}}) ==
          "2.44895e-40 ft");
}

TEST_CASE("the money of a unit text is written as the firm's") {
    UnitCatalog catalog;
    CHECK(catalog.in_own_money("EUR/h") == "$/h");
    catalog.write_money("CHF");
    for (const auto& [text, own] : {std::pair{"$/(ac.ft)", "CHF/(ac.ft)"}, std::pair{"$", "CHF"},
                                    std::pair{"1/\u20AC", "1/CHF"}, std::pair{"h/USD^2", "h/CHF^2"},
                                    std::pair{"USD2.aUSD.US", "USD2.aUSD.US"},
                                    std::pair{"m_3/USD", "m_3/CHF"}, std::pair{"", ""}})
        CHECK(catalog.in_own_money(text) == own);
}

TEST_CASE("a unit that no names make is shown as the usual one of its kind") {
    const UnitCatalog catalog;
    const Unit pace = *read("ac/h");
    CHECK(named_unit(catalog, pace).text == "ac/h");
    CHECK(named_unit(catalog, pace).unit == pace);
    const Unit share_of_it{pace.dim, *multiply(pace.scale, Ratio{1, 100})}; // 5 % * 40 ac/h
    CHECK(named_unit(catalog, share_of_it).text == "ac/h");
    CHECK(named_unit(catalog, share_of_it).unit == pace);
    CHECK(named_unit(catalog, *read("%")).text == "%");
    CHECK(named_unit(catalog, Unit{{}, Ratio{1, 7}}).text == "1");
}

TEST_CASE("a kind of unit has a usual one") {
    const UnitCatalog catalog;
    for (const auto& [unit, usual] :
         {std::pair{"m^2/s", "ac/h"}, std::pair{"in", "ft"}, std::pair{"cent/km^2", "$/ac"},
          std::pair{"%", "1"}, std::pair{"s/mo", "h/yr"}, std::pair{"L/s", "gal/h"},
          std::pair{"kg", "lb"}}) {
        CAPTURE(unit);
        CHECK(catalog.usual_text(read(unit)->dim) == usual);
    }
}

TEST_CASE("a text made for a unit reads as that unit again") {
    std::mt19937_64 random(17);
    const UnitCatalog catalog;
    const auto names = catalog.names();
    for (int i = 0; i < 400; ++i) {
        std::string written(names[random() % names.size()]);
        if (random() % 4 != 0)
            written.append("/").append(names[random() % names.size()]);
        const Unit unit = *read(written);
        const std::string text = catalog.text(unit);
        CAPTURE(written);
        CAPTURE(text);
        if (const std::size_t blank = text.find(' '); blank != std::string::npos)
            CHECK(read(text.substr(blank + 1))->dim == unit.dim);
        else if (!unit.is_plain())
            CHECK(read(text) == unit);
    }
}

TEST_CASE("words that people use lead to a unit") {
    CHECK(usual_spelling("Acres") == "ac");
    CHECK(usual_spelling("hrs") == "h");
    CHECK(usual_spelling("l") == "L");
    CHECK(usual_spelling("tree").empty());
    // The table names units that exist, and no word that is one.
    for (const std::string_view row : {
#define ACRE_SPELLING(word, unit) std::string_view(word "\0" unit, sizeof(word) + sizeof(unit) - 1),
#include "lang/units/spelling.def"
#undef ACRE_SPELLING
         }) {
        const std::string_view word = row.substr(0, row.find('\0'));
        CAPTURE(word);
        CHECK(usual_spelling(word) == row.substr(word.size() + 1));
        CHECK(read(word));
        CHECK(read(word) == read(row.substr(word.size() + 1)));
        CHECK(UnitCatalog().is_built_in(word));
    }
}

TEST_CASE("a text is written with the usual words") {
    const std::pair<std::string_view, std::string_view> rows[] = {{"acres", "ac"},
                                                                  {"$/hour", "$/h"},
                                                                  {"$4.35/gallon", "$4.35/gal"},
                                                                  {"gal/sqft", "gal/ft^2"},
                                                                  {"$5/gph", "$5/(gal/h)"},
                                                                  {"mph", "mi/h"},
                                                                  {"bcy/h", "bcy/h"},
                                                                  {"$/lcy", "$/lcy"},
                                                                  {"kph^2", "(km/h)^2"},
                                                                  {"mph/sec", "mi/h/s"},
                                                                  {"tree/acre", "tree/ac"},
                                                                  {"feet^2", "ft^2"},
                                                                  {"$/(acre.foot)", "$/(ac.ft)"}};
    for (const auto& [word, usual] : rows)
        CHECK(with_usual_spelling(word) == usual);
}

TEST_CASE("nouns are known by their plural, and a spelling is nobody's own unit") {
    UnitCatalog catalog;
    REQUIRE(catalog.add_noun("tree"));
    REQUIRE(catalog.add_noun("pass"));
    REQUIRE(catalog.find("trees"));
    CHECK(*catalog.find("trees") == *catalog.find("tree"));
    REQUIRE(catalog.find("passes"));
    CHECK(*catalog.find("passes") == *catalog.find("pass"));
    CHECK_FALSE(catalog.find("treess"));
    CHECK_FALSE(catalog.find("fts"));
    CHECK(catalog.is_built_in("hours"));
}

} // namespace catalog_test
