// Characters of UTF-8 texts. utf8proc reads them; nothing else in the program does.
#pragma once

#include <cstddef>
#include <string_view>

namespace acre::lang {

inline constexpr char32_t not_utf8 = 0xFFFFFFFF;

// Reads one character at `at` and moves `at` past it; not_utf8 and one byte for what is not UTF-8.
char32_t next_character(std::string_view text, std::size_t& at);

// Whether the byte continues a character that an earlier byte began.
constexpr bool continues_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

// Controls, marks that turn the direction of writing, characters that show nothing, and numbers
// that are no character (yet): general categories Cc, Cf, Zl, Zp, Cn, and what Unicode calls
// ignorable by default.
bool shows_nothing(char32_t character);

// Columns of a terminal: 0 for a mark over the character before it, 2 for a wide one.
std::size_t columns_of(char32_t character);

} // namespace acre::lang
