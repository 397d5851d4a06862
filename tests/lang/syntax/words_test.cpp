// The table of words, and that the reference lists the same.
#include <doctest/doctest.h>

#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "lang/syntax/words.h"

namespace words_test {

using namespace acre::lang;

namespace {

std::string reference() {
    std::ifstream file(std::string(ACREWRIGHT_ROOT) + "/lang/README.md");
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

} // namespace

TEST_CASE("every word of the table is found by its spelling") {
    for (std::size_t i = 1; i < std::size(word_spellings); ++i)
        CHECK(keyword_of(word_spellings[i]) == static_cast<Keyword>(i));
    for (const char* other :
         {"", "a", "an", "whens", "whe", "When", "WHEN", "contingencys", "zebra", "_and", "9"})
        CHECK(keyword_of(other) == Keyword::None);
}

TEST_CASE("the reference lists the reserved words of the table and no others") {
    const std::string text = reference();
    const std::string lead = "cannot be names: `";
    const std::size_t begin = text.find(lead);
    REQUIRE(begin != std::string::npos);
    std::istringstream list(text.substr(begin + lead.size(),
                                        text.find('`', begin + lead.size()) - begin - lead.size()));
    std::set<std::string> listed;
    for (std::string word; list >> word;)
        listed.insert(word);
    std::set<std::string> reserved;
    for (std::size_t i = 1; i < std::size(word_spellings); ++i)
        if (is_reserved(static_cast<Keyword>(i)))
            reserved.insert(std::string(word_spellings[i]));
    CHECK(listed == reserved);
}

TEST_CASE("names end where they end") {
    const std::string_view text = "crawler.fuel_price2..x";
    const char* end = text.data() + text.size();
    CHECK(end_of_word(text.data(), end) - text.data() == 7);
    CHECK(end_of_dotted_name(text.data(), end) - text.data() == 19); // `..` is no dot
    const std::string_view digit = "2a";
    CHECK(end_of_word(digit.data(), digit.data() + 2) == digit.data());
    const std::string_view tail = "a.";
    CHECK(end_of_dotted_name(tail.data(), tail.data() + 2) - tail.data() == 1);
}

} // namespace words_test
