// Lines of a text that fits into so many columns.
#include "lang/diag/fold.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace fold_test {

using namespace acre::lang;
using Lines = std::vector<std::string>;

TEST_CASE(
    "a line is broken at the last space that fits, and a word that is too long stands alone") {
    CHECK(fold("one two three", 13) == Lines{"one two three"});
    CHECK(fold("one two three", 12) == Lines{"one two", "three"});
    CHECK(fold("one two three", 7) == Lines{"one two", "three"});
    CHECK(fold("one two three", 6) == Lines{"one", "two", "three"});
    CHECK(fold("one two three", 3) == Lines{"one", "two", "three"});
    CHECK(fold("three is", 4) == Lines{"three", "is"});
    CHECK(fold("a threefold b", 4) == Lines{"a", "threefold", "b"});
    CHECK(fold("one   two", 4) == Lines{"one", "two"}); // no line begins or ends in spaces
    CHECK(fold("one two   ", 7) == Lines{"one two"});
    CHECK(fold("", 5) == Lines{""});
}

TEST_CASE("a number stays with what follows it, where there is another place to break") {
    CHECK(fold("a share of 100 % here", 14) == Lines{"a share of", "100 % here"});
    CHECK(fold("a share of 100 % here", 16) == Lines{"a share of 100 %", "here"});
    CHECK(fold("100 % here", 4) == Lines{"100", "%", "here"});
}

TEST_CASE("lines of the text stay lines, and columns are counted, not bytes") {
    CHECK(fold("one\ntwo three\n", 5) == Lines{"one", "two", "three", ""});
    CHECK(fold("\n", 5) == Lines{"", ""});
    CHECK(fold("d\u00E9j\u00E0 vu", 7) == Lines{"d\u00E9j\u00E0 vu"});
    CHECK(fold("d\u00E9j\u00E0 vu", 6) == Lines{"d\u00E9j\u00E0", "vu"});
    CHECK(fold("\u571F\u571F ab", 7) == Lines{"\u571F\u571F ab"}); // two columns each
    CHECK(fold("\u571F\u571F ab", 6) == Lines{"\u571F\u571F", "ab"});
}

} // namespace fold_test
