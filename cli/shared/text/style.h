// The few inks of the text outputs. Color carries nothing that the words do not say.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

inline std::string inked(std::string_view text, const char* ink, bool color) {
    return color && !text.empty() ? std::string(ink).append(text).append("\x1b[0m")
                                  : std::string(text);
}
inline std::string bold(std::string_view text, bool color) {
    return inked(text, "\x1b[1m", color);
}
inline std::string faint(std::string_view text, bool color) {
    return inked(text, "\x1b[2m", color);
}
inline std::string warm(std::string_view text, bool color) {
    return inked(text, "\x1b[33m", color);
}

} // namespace acre::cli
