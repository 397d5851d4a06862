// Where a piece of text stands: a half-open byte range of one source.
#pragma once

#include <cstdint>

namespace acre::lang {

using FileId = std::uint32_t;

inline constexpr FileId no_file = 0xFFFFFFFF; // of what points into no text at all

struct Span {
    FileId file = 0;
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    friend bool operator==(const Span&, const Span&) = default;
};

// The smallest span that holds both; both must be of one file.
inline Span join(Span a, Span b) {
    return {a.file, a.begin < b.begin ? a.begin : b.begin, a.end > b.end ? a.end : b.end};
}

} // namespace acre::lang
