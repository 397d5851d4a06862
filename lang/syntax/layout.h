// The first look at a text: which physical lines make one statement, and which statement belongs to
// which. Every statement can then be read by itself.
//
// A line that is indented deeper than the statement above belongs to it: as an inner line when that
// statement has inner lines, else as its continuation. A statement with inner lines may be
// continued too, before its first inner line: while a bracket is open, when it ends in an operator,
// `=`, a comma or a word that asks for more (`otherwise`), and by a line that begins with a sign, a
// text, or a word that begins no statement (`then`, `covers`).
#pragma once

#include <cstdint>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/words.h"

namespace acre::lang {

inline constexpr std::uint32_t tab_stop = 8;
inline constexpr std::uint32_t no_parent = 0xFFFFFFFF;

// First and last byte are those of what is written, without indentation, trailing blanks and
// comment; line ends and comments inside count as blanks.
struct LogicalLine {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
    std::uint32_t parent = no_parent;
    std::uint32_t indent = 0; // columns
    Keyword head =
        Keyword::None;    // the first word, unless `:` or `=` follows it: then the word is a name;
                          // Entry: the name of a list, and a job lists an entry of it
    bool damaged = false; // a character in it is reported already
    // of statements with inner lines:
    bool unfinished = false;         // it ends in a sign or word that asks for more
    std::uint32_t open_brackets = 0; // at its end
    std::uint32_t inner_indent = 0;  // of its first inner line; 0: none yet
};

struct LogicalLines {
    std::vector<LogicalLine> lines; // an inner line comes after its statement
    bool readable = false; // false: not UTF-8, or too large; nothing of it is worth reading
};

// Reports F703, S100 (control characters), S115, S118.
LogicalLines lay_out(const SourceMap& sources, FileId file, FileKind kind,
                     Diagnostics& diagnostics);

} // namespace acre::lang
