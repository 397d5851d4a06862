#include "lang/source/utf8.h"

#include <algorithm>

#include <utf8proc.h>

namespace acre::lang {

char32_t next_character(std::string_view text, std::size_t& at) {
    const auto first = static_cast<unsigned char>(text[at]);
    if (first < 0x80) {
        ++at;
        return first;
    }
    utf8proc_int32_t character = -1;
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at;
    const auto left = static_cast<utf8proc_ssize_t>(std::min<std::size_t>(text.size() - at, 4));
    const utf8proc_ssize_t length = utf8proc_iterate(bytes, left, &character);
    if (length < 1) {
        ++at;
        return not_utf8;
    }
    at += static_cast<std::size_t>(length);
    return static_cast<char32_t>(character);
}

bool shows_nothing(char32_t character) {
    const auto code = static_cast<utf8proc_int32_t>(character);
    switch (utf8proc_category(code)) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_CN:
    case UTF8PROC_CATEGORY_CS:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
        return true;
    default:
        return utf8proc_get_property(code)->ignorable != 0;
    }
}

std::size_t columns_of(char32_t character) {
    return static_cast<std::size_t>(utf8proc_charwidth(static_cast<utf8proc_int32_t>(character)));
}

} // namespace acre::lang
