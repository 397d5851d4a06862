#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "lang/check/name_table.h"

namespace name_table_test {

using acre::lang::NameTable;

TEST_CASE("a table of names finds each of many names and no other") {
    std::vector<std::string> names;
    NameTable table;
    const auto name_of = [&](std::uint32_t i) -> std::string_view { return names[i]; };
    for (std::uint32_t i = 0; i < 5'000; ++i) {
        names.push_back("line_" + std::to_string(i * 7919));
        CHECK(table.insert(names.back(), i, name_of) == NameTable::absent);
    }
    for (std::uint32_t i = 0; i < 5'000; ++i)
        REQUIRE(table.find(names[i], name_of) == i);
    CHECK(table.find("line_1", name_of) == NameTable::absent);
    CHECK(table.find("", name_of) == NameTable::absent);
}

TEST_CASE("a name that is there already keeps its first number") {
    const std::vector<std::string_view> names = {"area", "area"};
    NameTable table;
    const auto name_of = [&](std::uint32_t i) { return names[i]; };
    CHECK(table.find("area", name_of) == NameTable::absent);
    CHECK(table.insert("area", 0, name_of) == NameTable::absent);
    CHECK(table.insert("area", 1, name_of) == 0);
    CHECK(table.find("area", name_of) == 0);
}

} // namespace name_table_test
