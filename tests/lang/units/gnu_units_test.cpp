// The units against GNU units, which shares nothing with this program.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string>

#include <fmt/format.h>

#include "lang/units/catalog.h"

namespace gnu_units_test {

using namespace acre::lang;

namespace {

std::optional<Unit> read(std::string_view text) {
    static const UnitCatalog catalog;
    UnitError error;
    return read_unit(text, catalog, error);
}

// GNU units 2.22 (Debian package `units`): how many of `to` one `from` is.
double gnu_units(const std::string& from, const std::string& to) {
    const std::string command = fmt::format("units -t -o %.17g '{}' '{}' 2>&1", from, to);
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    REQUIRE(pipe);
    std::array<char, 200> line{};
    REQUIRE_MESSAGE(std::fgets(line.data(), static_cast<int>(line.size()), pipe.get()) != nullptr,
                    command);
    char* end = nullptr;
    const double value = std::strtod(line.data(), &end);
    REQUIRE_MESSAGE(end != line.data(), command << ": " << line.data());
    return value;
}

} // namespace

// Every built-in unit that has a physical size, against an independent program. Left out: $ and
// cent, day, shift, yr and mo, deg and rad, bcy and lcy; they are bases of their own here (GNU
// units makes a year 365.24 days and a degree pi/180, on purpose differently). Where the two could
// differ by custom: its `acre` is the international one in this release (the survey acre, 4 parts
// in a million larger, is `USacre`), its `ton`, `gallon`, `quart` and `hundredweight` are the U.S.
// ones in the C locale.
TEST_CASE("the catalog agrees with GNU units") {
    struct {
        std::string_view ours;
        const char* theirs;
    } const rows[] = {{"in", "inch"},    {"ft", "foot"},       {"yd", "yard"},
                      {"mi", "mile"},    {"m", "m"},           {"cm", "cm"},
                      {"mm", "mm"},      {"km", "km"},         {"ac", "intacre"},
                      {"ha", "hectare"}, {"gal", "gallon"},    {"qt", "quart"},
                      {"L", "liter"},    {"cy", "yard^3"},     {"lb", "pound"},
                      {"oz", "ounce"},   {"cwt", "cwt"},       {"ton", "ton"},
                      {"kg", "kg"},      {"g", "gram"},        {"t", "tonne"},
                      {"s", "s"},        {"min", "minute"},    {"h", "hour"},
                      {"lbf", "lbf"},    {"N", "N"},           {"kN", "kN"},
                      {"hp", "hp"},      {"W", "W"},           {"kW", "kW"},
                      {"kWh", "kWh"},    {"psi", "psi"},       {"psf", "lbf/foot^2"},
                      {"Pa", "Pa"},      {"kPa", "kPa"},       {"MPa", "MPa"},
                      {"%", "percent"},  {"mL", "milliliter"}, {"MJ", "MJ"},
                      {"kgf", "kgf"}};
    std::size_t found = 0;
    for (const std::string_view name : UnitCatalog().names()) {
        CAPTURE(name);
        const Unit ours = *read(name);
        const auto row = std::find_if(std::begin(rows), std::end(rows),
                                      [&](const auto& r) { return r.ours == name; });
        if (row == std::end(rows)) {
            CHECK(std::string_view("$ cent day shift yr mo deg rad bcy lcy clock").find(name) !=
                  std::string_view::npos);
            continue;
        }
        ++found;
        const int length = ours.dim.exponent[Length];
        const int mass = ours.dim.exponent[Mass];
        const int time = ours.dim.exponent[Time];
        const std::string si = fmt::format("m^{} kg^{} s^{}", length, mass, time);
        const double expected = gnu_units(row->theirs, si);
        const double in_si =
            to_double(ours.scale) * std::pow(0.0254, length) * std::pow(0.45359237, mass);
        CHECK(in_si == doctest::Approx(expected).epsilon(4e-15));
    }
    CHECK(found == std::size(rows));
    CHECK(conversion(*read("rad"), *read("deg")).apply(1) == gnu_units("radian", "degree"));
    CHECK(gnu_units("USacre", "intacre") ==
          doctest::Approx(1.000004).epsilon(1e-7)); // the difference is what it should be
}

// The words that people type for units of the trade, each against an independent program.
TEST_CASE("words that people type are what GNU units takes them for") {
    const char* const words[] = {"acre",       "acres",   "hectares",  "inch",   "inches", "foot",
                                 "feet",       "yards",   "mile",      "miles",  "meters", "metres",
                                 "sec",        "seconds", "minutes",   "hr",     "hrs",    "hour",
                                 "hours",      "gallon",  "gallons",   "quarts", "liters", "litres",
                                 "lbs",        "pounds",  "ounces",    "tons",   "tonnes", "mph",
                                 "kilometers", "percent", "horsepower"};
    CHECK(std::size(words) == 33);
    for (const char* const word : words) {
        CAPTURE(word);
        REQUIRE(read(word));
        const Unit ours = *read(word);
        const int length = ours.dim.exponent[Length];
        const int mass = ours.dim.exponent[Mass];
        const int time = ours.dim.exponent[Time];
        const double in_si =
            to_double(ours.scale) * std::pow(0.0254, length) * std::pow(0.45359237, mass);
        CHECK(in_si ==
              doctest::Approx(gnu_units(word, fmt::format("m^{} kg^{} s^{}", length, mass, time)))
                  .epsilon(4e-15));
    }
}

} // namespace gnu_units_test
