// Every fenced example of the reference is run: fragments are parsed, files with a name are
// compiled and priced.
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "lang/syntax/tidy.h"
#include "tests/support/parse_text.h"
#include "tests/support/value_of.h"

namespace readme_test {

using namespace acre;

namespace {

struct Example {
    std::string kind; // rate, season, job
    std::string file; // empty: a fragment
    std::string text;
    int line = 0;
};

std::vector<Example> examples() {
    std::ifstream file(std::string(ACREWRIGHT_ROOT) + "/lang/README.md");
    std::vector<Example> list;
    bool inside = false;
    int number = 0;
    for (std::string line; std::getline(file, line);) {
        ++number;
        if (!line.starts_with("```")) {
            if (inside)
                list.back().text += line + "\n";
            continue;
        }
        inside = !inside;
        if (!inside)
            continue;
        std::istringstream info(line.substr(3));
        Example example;
        example.line = number;
        std::string rest;
        info >> example.kind >> rest;
        if (rest.starts_with("file="))
            example.file = rest.substr(5);
        list.push_back(example);
    }
    return list;
}

lang::FileKind kind_of(const Example& e) {
    return e.kind == "season" ? lang::FileKind::Season
           : e.kind == "job"  ? lang::FileKind::Job
           : e.kind == "firm" ? lang::FileKind::Firm
                              : lang::FileKind::Model;
}

// A fragment of a model stands below a first line.
std::string whole_text(const Example& e) {
    const bool fragment =
        e.kind == "rate" && !e.text.starts_with("model") && !e.text.starts_with("library");
    return fragment ? "model \"fragment\"\n" + e.text : e.text;
}

tests::Files whole_files() {
    tests::Files files;
    for (const Example& e : examples())
        if (!e.file.empty())
            files[e.file] = e.text;
    return files;
}

} // namespace

TEST_CASE("every fenced example of the reference can be read") {
    const std::vector<Example> all = examples();
    CHECK(all.size() >= 9);
    for (const Example& e : all) {
        CAPTURE(e.line);
        REQUIRE((e.kind == "rate" || e.kind == "season" || e.kind == "job" || e.kind == "firm"));
        const tests::Parsed p = tests::parse_text(whole_text(e), kind_of(e));
        CHECK(p.rendered() == "");
    }
}

TEST_CASE("examples of the reference mean the same after tidy") {
    for (const Example& e : examples()) {
        CAPTURE(e.line);
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        const lang::FileId file = sources.add("README", whole_text(e));
        const std::optional<std::string> tidied =
            lang::tidy(sources, file, kind_of(e), diagnostics);
        REQUIRE(tidied.has_value());
        CHECK(tests::parse_text(*tidied, kind_of(e)).dump() ==
              tests::parse_text(whole_text(e), kind_of(e)).dump());
    }
}

TEST_CASE("the whole example prices as hand arithmetic says") {
    const tests::Files files = whole_files();
    REQUIRE(files.contains("first-rip.job"));
    const tests::Choices choices{files, "", {}, ""};
    const std::string& job = files.at("first-rip.job");
    // 44 ac of 43,560 sq ft, pulls 6 ft apart: 319,440 ft or 60.5 mi; at 1.5 mi/h and a fifth
    // more: 48.4 h
    CHECK(tests::value_of(job, "travel", choices) == doctest::Approx(60.5).epsilon(1e-12));
    CHECK(tests::value_of(job, "hours", choices) == doctest::Approx(48.4).epsilon(1e-12));
    // 48.4 h at $345 and two moves at $1,800: $20,298; a margin of 15 % of the price: 20,298 / 0.85
    CHECK(tests::value_of(job, "cost.total", choices) == doctest::Approx(20298).epsilon(1e-12));
    CHECK(tests::value_of(job, "price.total", choices) == doctest::Approx(23880).epsilon(1e-12));
    // the option: 7 ft apart, so 6/7 of the way: 41.485714 h, $14,312.57 and the moves
    const tests::Choices wider{files, "Wider", {}, ""};
    CHECK(tests::value_of(job, "price.total", wider) ==
          doctest::Approx((48.4 * 6 / 7 * 345 + 3600) / 0.85).epsilon(1e-12));
}

} // namespace readme_test
