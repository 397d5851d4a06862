#include "lang/source/utf8.h"

#include <cstdint>
#include <string>

#include <doctest/doctest.h>

namespace utf8_test {

using namespace acre::lang;

namespace {

// The Unicode Standard 15.0, chapter 3, table 3-6 (how bits are spread over bytes).
std::string encoded(char32_t c) {
    const auto byte = [](char32_t bits) { return static_cast<char>(bits); };
    if (c < 0x80)
        return {byte(c)};
    if (c < 0x800)
        return {byte(0xC0 | c >> 6), byte(0x80 | (c & 0x3F))};
    if (c < 0x10000)
        return {byte(0xE0 | c >> 12), byte(0x80 | (c >> 6 & 0x3F)), byte(0x80 | (c & 0x3F))};
    return {byte(0xF0 | c >> 18), byte(0x80 | (c >> 12 & 0x3F)), byte(0x80 | (c >> 6 & 0x3F)),
            byte(0x80 | (c & 0x3F))};
}

} // namespace

TEST_CASE("every character is read as it was written, and what is none is one byte") {
    for (char32_t c = 0; c <= 0x110000; ++c) {
        const std::string text = encoded(c) + "x";
        std::size_t at = 0;
        const char32_t read = next_character(text, at);
        const bool character = c < 0xD800 || (c > 0xDFFF && c < 0x110000);
        if (read != (character ? c : not_utf8) || at != (character ? text.size() - 1 : 1))
            FAIL(static_cast<std::uint32_t>(c));
    }
    for (const char* cut : {"\xC2", "\xE2\x82", "\xF0\x9F\x9A"}) {
        std::size_t at = 0;
        CHECK(next_character(cut, at) == not_utf8);
        CHECK(at == 1);
    }
}

// Ranges of the Unicode Character Database 15.0: UnicodeData.txt (categories) and
// DerivedCoreProperties.txt (Default_Ignorable_Code_Point), from memory.
TEST_CASE("characters that show nothing or turn the writing") {
    const struct {
        char32_t first, last;
    } hidden[] = {{0x00, 0x1F},        {0x7F, 0x9F},       {0xAD, 0xAD},       {0x34F, 0x34F},
                  {0x61C, 0x61C},      {0x115F, 0x1160},   {0x17B4, 0x17B5},   {0x180B, 0x180F},
                  {0x200B, 0x200F},    {0x2028, 0x202E},   {0x2060, 0x206F},   {0x3164, 0x3164},
                  {0xFE00, 0xFE0F},    {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0},   {0xFFF0, 0xFFFB},
                  {0xFFFE, 0xFFFF},    {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
                  {0x10FFFE, 0x10FFFF}};
    for (const auto& range : hidden)
        for (char32_t c = range.first; c <= range.last; ++c) {
            CAPTURE(static_cast<std::uint32_t>(c));
            CHECK(shows_nothing(c));
        }
    for (const char32_t c : {U' ', U'~', U'\u00A0', U'\u00D7', U'\u00F1', U'\u0301', U'\u2013',
                             U'\u20AC', U'\u6797', U'\U0001F69C'})
        CHECK_FALSE(shows_nothing(c));
}

// EastAsianWidth.txt 15.0 (W and F are two columns), and marks that stand over the character before
// them (category Mn), from memory.
TEST_CASE("columns of a character") {
    for (const char32_t c : {U'a', U'\u00F1', U'\u00D7', U'\u2026', U'\u03B1'})
        CHECK(columns_of(c) == 1);
    for (const char32_t c : {U'\u0301', U'\u0591', U'\u05C4', U'\u0670', U'\u093C', U'\u0E31',
                             U'\u0E48', U'\u1AB0', U'\u20D0', U'\uFE20', U'\U0001E944'})
        CHECK(columns_of(c) == 0);
    for (const char32_t c : {U'\u1100', U'\u231A', U'\u3042', U'\u6797', U'\uAC00', U'\uFF21',
                             U'\U0001F69C', U'\U00020000'})
        CHECK(columns_of(c) == 2);
}

} // namespace utf8_test
