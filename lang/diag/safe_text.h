// What a user wrote, made safe to show on a terminal. Whoever shows words, names or lines of a
// model passes them through here; a model may come from a stranger.
#pragma once

#include <string>
#include <string_view>

namespace acre::lang {

// Control characters (also those beyond ASCII), marks that turn the direction of writing, invisible
// tags and bytes that are no UTF-8 become visible: "\x1b", "\u{202e}". The rest is kept byte for
// byte. A tab becomes one blank, a line end "\x0a".
std::string terminal_text(std::string_view text);

// True for a character that terminal_text would not show as it is.
bool is_unsafe_character(char32_t character);

// Reads one character at `at` and moves `at` behind it; not_utf8 and one byte for what is not
// UTF-8. For every escaping function.
inline constexpr char32_t not_utf8 = 0xFFFFFFFF;
char32_t next_character(std::string_view text, std::size_t& at);

} // namespace acre::lang
