// The syntax under random texts: it never fails, tidy keeps the meaning, and tidy twice is tidy
// once.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "lang/syntax/tidy.h"
#include "tests/property/random_program.h"
#include "tests/support/parse_text.h"

namespace syntax_test {

using namespace acre;

namespace {

struct File {
    std::string name;
    std::string text;
    lang::FileKind kind = lang::FileKind::Model;
};

// Every model and every example of the project.
std::vector<File> project_files() {
    std::vector<File> files;
    for (const char* folder : {"models", "examples", "tests"}) {
        const std::filesystem::path path = std::filesystem::path(ACREWRIGHT_ROOT) / folder;
        if (!std::filesystem::exists(path))
            continue;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(path)) {
            const std::string ending = entry.path().extension().string();
            if (ending != ".rate" && ending != ".season" && ending != ".job" && ending != ".firm")
                continue;
            std::ifstream in(entry.path(), std::ios::binary);
            std::stringstream text;
            text << in.rdbuf();
            files.push_back({entry.path().string(), text.str(),
                             ending == ".job"      ? lang::FileKind::Job
                             : ending == ".season" ? lang::FileKind::Season
                             : ending == ".firm"   ? lang::FileKind::Firm
                                                   : lang::FileKind::Model});
        }
    }
    return files;
}

std::optional<std::string> tidied(const std::string& text, lang::FileKind kind) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    return lang::tidy(sources, sources.add("t", text), kind, diagnostics);
}

// Tidy answers exactly when the text can be read; then it means the same, and is its own tidy form.
void check_round_trip(const std::string& text, lang::FileKind kind) {
    const tests::Parsed before = tests::parse_text(text, kind);
    const std::optional<std::string> once = tidied(text, kind);
    CHECK(once.has_value() == !before.diagnostics.has_errors());
    if (!once)
        return;
    const tests::Parsed after = tests::parse_text(*once, kind);
    CHECK(after.rendered() == "");
    CHECK(after.dump() == before.dump());
    CHECK(tidied(*once, kind) == *once);
}

} // namespace

TEST_CASE("every model and example means the same after tidy") {
    const std::vector<File> files = project_files();
    CHECK(files.size() >= 10);
    for (const File& file : files) {
        CAPTURE(file.name);
        check_round_trip(file.text, file.kind);
    }
}

TEST_CASE("random models can be read, in any spacing, and mean the same after tidy") {
    for (std::uint32_t seed = 1; seed <= 1'000; ++seed) {
        CAPTURE(seed);
        const std::string text = tests::RandomProgram(seed).model();
        const tests::Parsed p = tests::parse_text(text);
        REQUIRE_MESSAGE(!p.diagnostics.has_errors(), p.rendered());
        check_round_trip(text, lang::FileKind::Model);
    }
}

TEST_CASE("a random formula is read as it was built, whatever brackets it was given") {
    for (std::uint32_t seed = 1; seed <= 2'000; ++seed) {
        CAPTURE(seed);
        const tests::RandomFormula formula = tests::RandomProgram(seed).formula(5);
        CAPTURE(formula.text);
        CHECK(tests::tree_of("x : 1 = " + formula.text) == "x : [1] = " + formula.tree + "\n");
    }
}

TEST_CASE("a text with random edits is read to its end, with errors in order") {
    std::mt19937 random(7);
    const auto pick = [&](std::size_t n) {
        return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
    };
    static const std::vector<std::string> pieces = {
        "(",    ")",   "\"",   "\n",   "\n  ", "\t",  "#", "=",    ":",
        "..",   ",",   "|",    "$",    "/",    "^",   "-", "when", "then",
        "is",   "1,2", "1e99", "\xFF", "\x01", " ",   ".", "%",    "* ",
        "\r\n", "é",   "part", "use ", "not",  "per", "0", "a.b",  "table t (a : ft) : 1\n"};
    for (std::uint32_t round = 0; round < 4'000; ++round) {
        std::string text = tests::RandomProgram(round % 40 + 1).model();
        for (std::size_t edits = 1 + pick(6); edits > 0; --edits) {
            const std::size_t at = pick(text.size() + 1);
            switch (pick(4)) {
            case 0:
                text.insert(at, pieces[pick(pieces.size())]);
                break;
            case 1:
                text.erase(at, 1 + pick(12));
                break;
            case 2:
                text.insert(at, text.substr(pick(text.size()), 1 + pick(40)));
                break;
            default:
                text.insert(at, 1, static_cast<char>(pick(256)));
                break;
            }
            if (text.empty())
                text = " ";
        }
        CAPTURE(round);
        const tests::Parsed p = tests::parse_text(text);
        for (const lang::Diagnostic& d : p.diagnostics.all()) {
            CHECK(d.primary.span.begin <= d.primary.span.end);
            CHECK(d.primary.span.end <= text.size());
            CHECK(!d.title.empty());
        }
        CHECK(!p.rendered().empty() == p.diagnostics.has_errors());
        check_round_trip(text, lang::FileKind::Model);
    }
}

TEST_CASE("any bytes at all are read to their end") {
    std::mt19937 random(11);
    for (int round = 0; round < 2'000; ++round) {
        std::string text(std::uniform_int_distribution<std::size_t>(0, 300)(random), ' ');
        const bool plain = round % 2 == 0;
        for (char& c : text)
            c = static_cast<char>(plain ? std::uniform_int_distribution<int>(9, 126)(random)
                                        : std::uniform_int_distribution<int>(0, 255)(random));
        for (const lang::FileKind kind :
             {lang::FileKind::Model, lang::FileKind::Season, lang::FileKind::Firm,
              lang::FileKind::Job, lang::FileKind::CommandLine})
            CHECK(tests::parse_text(text, kind).rendered().empty() ==
                  !tests::parse_text(text, kind).diagnostics.has_errors());
    }
}

} // namespace syntax_test
