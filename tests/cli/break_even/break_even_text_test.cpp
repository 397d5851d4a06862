// The page of break-even where there are many crossings.
#include <doctest/doctest.h>

#include <string>

#include "cli/break_even/break_even_page.h"

namespace break_even_text_test {

using namespace acre;

TEST_CASE("twelve crossings are told, and how many there are besides") {
    engine::BreakEvenAnswer answer;
    answer.given.called = "area";
    answer.given.unit = "ac";
    answer.line.called = "the price";
    answer.line.unit = "$";
    answer.range = {1, 20};
    const auto page = [&](std::size_t crossings) {
        answer.crossings.clear();
        for (std::size_t i = 1; i <= crossings; ++i)
            answer.crossings.push_back({engine::CrossingKind::Root, static_cast<double>(i),
                                        static_cast<double>(i), 0, 0, true, ""});
        return cli::break_even_text(answer, false);
    };
    const std::string twelve = page(12);
    CHECK(twelve.find("  at 12 ac: below it is less, above it is more\n") != std::string::npos);
    CHECK(twelve.find(" more\n") == twelve.find("above it is more\n") + 11);
    CHECK(twelve.find("  and ") == std::string::npos);
    const std::string fourteen = page(14);
    CHECK(fourteen.find("  at 13 ac") == std::string::npos);
    CHECK(fourteen.ends_with("\n  and 2 more\n"));
    answer.cut = true;
    CHECK(page(14).ends_with("\n  and at least 2 more\n"));
}

} // namespace break_even_text_test
