// The table of JSON schemas in cli/README.md lists what the program prints, and nothing else.
#include <doctest/doctest.h>

#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <string>

#include "tests/support/scratch_folder.h"

namespace schemas_test {

namespace fs = std::filesystem;
using acre::tests::file_text;

namespace {

const fs::path root = ACREWRIGHT_ROOT;
using Schemas = std::set<std::string>;

Schemas found_in(const std::string& text, const char* pattern) {
    Schemas found;
    const std::regex schema(pattern);
    for (std::sregex_iterator it(text.begin(), text.end(), schema), end; it != end; ++it)
        found.insert((*it)[1]);
    return found;
}

// "acrewright.price/1" in quotes, in the sources of the program. Records of version 1 are read, out
// of old books, and printed no more.
Schemas in_sources() {
    Schemas found;
    for (const char* folder : {"cli", "engine", "lang"})
        for (const auto& entry : fs::recursive_directory_iterator(root / folder))
            if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h")
                found.merge(found_in(file_text(entry.path()), "\"(acrewright\\.[a-z-]+/[0-9]+)\""));
    CHECK(found.erase("acrewright.record/1") == 1);
    return found;
}

// First cells of the table: | `acrewright.price/1` | `price` | first |
Schemas in_table() {
    return found_in(file_text(root / "cli/README.md"),
                    "\\| `(acrewright\\.[a-z-]+/[0-9]+)` \\| [^|\\n]+ \\| [^|\\n]+ \\|\\n");
}

} // namespace

TEST_CASE("every schema that the program prints is in the table, and no other") {
    const Schemas table = in_table();
    CHECK(table.size() > 10);
    CHECK(table == in_sources());
}

TEST_CASE("every schema of the table has its JSON Schema") {
    Schemas files;
    for (const auto& entry : fs::directory_iterator(root / "cli/schemas"))
        files.merge(
            found_in(file_text(entry.path()), "\"const\": \"(acrewright\\.[a-z-]+/[0-9]+)\""));
    CHECK(files == in_table());
}

TEST_CASE("what commands print in the transcripts has a schema of the table") {
    const Schemas table = in_table();
    Schemas printed;
    for (const auto& entry : fs::recursive_directory_iterator(root / "tests/golden/cli"))
        if (entry.path().filename() == "out")
            printed.merge(
                found_in(file_text(entry.path()), "\"schema\": \"(acrewright\\.[a-z-]+/[0-9]+)\""));
    CHECK(printed.size() > 5);
    for (const std::string& schema : printed)
        CHECK_MESSAGE(table.contains(schema), schema << " is not in cli/README.md");
}

TEST_CASE("one name has one number in force") {
    std::map<std::string, int> numbers;
    for (const std::string& schema : in_sources())
        ++numbers[schema.substr(0, schema.find('/'))];
    for (const auto& [name, count] : numbers)
        CHECK_MESSAGE(count == 1, name << " is printed with two numbers");
}

} // namespace schemas_test
