// The list of defaults in models/README.md: every number that a model brings is in the row that its
// reason belongs to.
#include <map>
#include <set>

#include "tests/support/demo.h"

namespace acre::tests {
namespace {

// The first phrase that a reason has says where its number comes from.
constexpr std::pair<const char*, const char*> kinds[] = {{"common practice", "common practice"},
                                                         {"from memory", "from memory"},
                                                         {"example only", "example only"},
                                                         {"read November", "read on a day"}};

std::map<std::string, std::set<std::string>> listed() {
    std::map<std::string, std::set<std::string>> rows;
    std::istringstream in(text_of(std::filesystem::path(ACREWRIGHT_ROOT) / "models/README.md"));
    bool within = false;
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("#"))
            within = line == "## Where each default comes from";
        if (!within || !line.starts_with("| ") || line.starts_with("| kind"))
            continue;
        const std::string kind = line.substr(2, line.find(" |") - 2);
        for (std::size_t at = line.find('`'); at != std::string::npos;
             at = line.find('`', at + 1)) {
            const std::size_t end = line.find('`', at + 1);
            const std::string names = line.substr(at + 1, end - at - 1);
            const std::string model = names.substr(0, names.find(": "));
            std::istringstream each(names.substr(names.find(": ") + 2));
            for (std::string name; each >> name;)
                rows[kind].insert(model + "." + name);
            at = end;
        }
    }
    return rows;
}

TEST_CASE("every default is in the list of where it comes from, in the row of its reason") {
    auto rows = listed();
    REQUIRE(rows.size() == 5);
    Choices choices;
    for (const auto& path : demo_files("models", ".rate"))
        choices.files[path.filename().string()] = text_of(path);
    std::size_t defaults = 0;
    for (const auto& path : demo_files("models", ".rate")) {
        const Compilation c = compile_ok(text_of(path), choices);
        const lang::Sheet& sheet = **c.sheet;
        for (const lang::Given& given : sheet.givens) {
            const lang::Line& line = sheet.lines[given.line];
            if (line.name.find('.') != std::string::npos || given.settings.empty() ||
                sheet.nodes[given.settings.front().value].op != lang::Op::Number)
                continue;
            ++defaults;
            const std::string name = path.stem().string() + "." + line.name;
            CAPTURE(name);
            std::string kind;
            for (const auto& [phrase, of] : kinds)
                if (kind.empty() &&
                    given.settings.front().because.find(phrase) != std::string::npos)
                    kind = of;
            std::size_t found = 0;
            for (const auto& [row, names] : rows)
                found += names.count(name);
            CHECK(found == 1);
            // No reason names a document without the day it was read.
            CHECK(rows[kind.empty() ? "nothing, or what the job is" : kind].count(name) != 0);
        }
    }
    std::size_t in_list = 0;
    for (const auto& [row, names] : rows)
        in_list += names.size();
    CHECK(in_list == defaults); // and none that is no default any more
}

} // namespace
} // namespace acre::tests
