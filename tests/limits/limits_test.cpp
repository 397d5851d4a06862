// Every limit of the table: accepted at it, refused just past it, and the refusal names it.
#include "tests/limits/limits.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <regex>
#include <set>

#include "lang/units/number_text.h"
#include "tests/support/scratch_folder.h"

namespace acre::tests {

std::vector<Limit> limits_of_table() {
    const std::string text = file_text(std::string(ACREWRIGHT_ROOT) + "/DEVELOPERS.md");
    static const std::regex row(R"(^\| `(max_\w+)` \| ([0-9,]+) \| [^|]* \| (.*) \|$)");
    std::vector<Limit> limits;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        const std::string line = text.substr(begin, end - begin);
        begin = end + 1;
        std::smatch match;
        if (!std::regex_match(line, match, row))
            continue;
        Limit limit{match[1], match[2], {}};
        const std::string said = match[3];
        const std::size_t open = said.find("``");
        if (open != std::string::npos)
            limit.said = said.substr(open + 3, said.find(" ``", open + 3) - open - 3);
        limits.push_back(std::move(limit));
    }
    return limits;
}

std::string repeated(const std::string& piece, std::uint64_t times) {
    std::string text;
    text.reserve(piece.size() * times);
    for (std::uint64_t i = 0; i < times; ++i)
        text += piece;
    return text;
}

std::string counted(const std::string& before, const std::string& between, std::uint64_t times) {
    std::string text;
    for (std::uint64_t i = 0; i < times; ++i)
        text.append(i == 0 ? "" : between).append(before).append(std::to_string(i));
    return text;
}

} // namespace acre::tests

namespace limits_test {

namespace fs = std::filesystem;
using namespace acre;
using namespace acre::tests;

namespace {

std::vector<LimitCase> all_cases() {
    std::vector<LimitCase> all;
    for (const auto& cases :
         {cases_of_texts(), cases_of_jobs(), cases_of_questions(), cases_of_files()})
        all.insert(all.end(), cases.begin(), cases.end());
    return all;
}

// Messages fold at the width of a page: as one line.
std::string unfolded(const std::string& text) {
    std::string out;
    for (const char c : text)
        if (const bool gap = c == ' ' || c == '\n'; !gap || (!out.empty() && out.back() != ' '))
            out += gap ? ' ' : c;
    return out;
}

// A message that names how much there is, as it would read with one less.
std::string with_one_less(std::string said, std::uint64_t n) {
    const std::string more = lang::number_text(static_cast<double>(n + 1));
    if (const std::size_t at = said.find(more); at != std::string::npos)
        said.replace(at, more.size(), lang::number_text(static_cast<double>(n)));
    return said;
}

std::string beginning(const std::string& text) {
    return text.substr(0, 300);
}

} // namespace

TEST_CASE("every limit is accepted at it and refused just past it by a message that names it") {
    const std::vector<Limit> limits = limits_of_table();
    for (const LimitCase& one : all_cases()) {
        CAPTURE(one.name);
        const auto limit = std::find_if(limits.begin(), limits.end(),
                                        [&](const Limit& l) { return l.name == one.name; });
        REQUIRE(limit != limits.end());
        REQUIRE_FALSE(limit->said.empty());
        const std::uint64_t n = value_of(one.name);
        if (one.at_the_limit) {
            const std::string at = unfolded(one.said(n));
            CHECK_MESSAGE(at.find(limit->said) == std::string::npos, beginning(at));
            CHECK_MESSAGE(at.find(with_one_less(limit->said, n)) == std::string::npos,
                          beginning(at));
        }
        const std::string past = unfolded(one.said(n + 1));
        CHECK_MESSAGE(past.find(limit->said) != std::string::npos, "not `" << limit->said
                                                                           << "` but:\n"
                                                                           << beginning(past));
    }
}

TEST_CASE("every limit that refuses has a case") {
    std::set<std::string> names;
    for (const LimitCase& one : all_cases())
        names.insert(one.name);
    for (const Limit& limit : limits_of_table())
        if (!limit.said.empty())
            CHECK_MESSAGE(names.count(limit.name) == 1, limit.name << " is not tried");
}

TEST_CASE("the table has the values of the constants") {
    std::set<std::string> in_table;
    for (const Limit& limit : limits_of_table()) {
        CAPTURE(limit.name);
        CHECK(in_table.insert(limit.name).second);
        CHECK(limit.value == lang::number_text(static_cast<double>(value_of(limit.name))));
    }
    for (const std::string& name : constants())
        CHECK_MESSAGE(in_table.count(name) == 1, name << " is not in the table of DEVELOPERS.md");
}

TEST_CASE("every limit of a header is known here") {
    static const std::regex constant(R"(constexpr [\w:]+ (max_\w+)\s*=)");
    const std::vector<std::string> known = constants();
    for (const char* layer : {"lang", "engine", "cli"})
        for (const auto& entry :
             fs::recursive_directory_iterator(fs::path(ACREWRIGHT_ROOT) / layer)) {
            if (entry.path().extension() != ".h")
                continue;
            const std::string text = file_text(entry.path());
            for (auto at = std::sregex_iterator(text.begin(), text.end(), constant);
                 at != std::sregex_iterator(); ++at)
                CHECK_MESSAGE(std::find(known.begin(), known.end(), (*at)[1].str()) != known.end(),
                              (*at)[1].str()
                                  << " of " << entry.path() << " is in no table of limits");
        }
}

} // namespace limits_test
