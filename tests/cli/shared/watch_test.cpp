#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "cli/shared/watch.h"

namespace watch_test {

using namespace acre::cli;

TEST_CASE("what changed from one answer to the next is one line") {
    const std::vector<Figure> before = {
        {"price", "$", 1900}, {"per acre", "$/ac", 19}, {"fuel", "$", 300}, {"gone", "$", 1}};
    struct {
        std::vector<Figure> after;
        std::size_t most;
        const char* text;
    } const cases[] = {
        {before, 4, "no figure changed"},
        {{{"price", "$", 1950}, {"per acre", "$/ac", 19.5}, {"fuel", "$", 300}},
         4,
         "price $1,950 (+$50), per acre $19.50/ac (+$0.50/ac)"},
        {{{"price", "$", 1850}, {"per acre", "$/ac", 18.5}}, 1, "price $1,850 (-$50), and 1 more"},
        {{{"price", "$", NAN}}, 4, "price no answer (was $1,900)"},
        {{{"new", "h", 3}}, 4, "new 3 h (new)"},
        {{{"price", "$/ac", 1900}},
         4,
         "price $1,900.00/ac (new)"}, // another unit is another figure
    };
    for (const auto& [after, most, text] : cases)
        CHECK(changes_text(before, after, most) == text);
}

TEST_CASE("without watching a command answers once") {
    Console console;
    int asked = 0;
    Reply reply = watched(false, false, console, [&] {
        ++asked;
        Reply one;
        one.page = "the page\n";
        one.note = "a note\n";
        one.verdict = 3;
        return one;
    });
    CHECK(asked == 1);
    CHECK(say(std::move(reply), false, console) == 3);
    CHECK(console.out == "the page\n");
    CHECK(console.err == "a note\n");
}

} // namespace watch_test
