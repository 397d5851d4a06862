// What is said when a statement breaks off: from what was expected, and where, to a diagnostic in
// the author's words.
#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/syntax/words.h"

namespace acre::lang {

enum class Expected : std::uint8_t {
    Value,
    Name,
    ChoiceName,
    Text,
    QuoteClose,
    Colon,
    Unit,
    UnitPower,
    UnitInside,
    UnitClose,
    Equals,
    Dots,
    Comma,
    Word,
    BracketOpen,
    BracketClose,
    Row,
    Number,
    Cell,
    PriceForm,
    TableEnd,
    Known,
    MoneyCode,
    Date,
    End
};

// Where a statement broke off.
struct Break {
    std::string_view text; // of the whole file
    FileId file = 0;
    std::uint32_t begin = 0; // of the statement
    std::uint32_t end = 0;
    std::uint32_t at = 0; // what stands here does not fit
    Expected expected = Expected::End;
    Keyword word = Keyword::None;             // for Expected::Word
    Keyword statement = Keyword::None;        // the word the statement begins with
    bool row = false;                         // of a table
    std::vector<std::uint32_t> open_brackets; // offsets, innermost last
};

Diagnostic describe(const Break& b);

// The word of the notation, of one of these roles, that somebody may have meant who wrote `word`.
std::optional<std::string_view> near_word(std::string_view word,
                                          std::initializer_list<WordRole> roles);

// Text in quotes that begins at `open` and does not end on its line. S102.
Diagnostic describe_unclosed_text(const Break& b, std::size_t open);

// A line that begins with no word of the notation and is no `NAME : UNIT = FORMULA`. `sets`: values
// are set there, and no lines stand there. S100.
Diagnostic describe_unknown(std::string_view text, Span line, std::string_view place,
                            bool sets = false);

// The same below a price, where only its steps stand. S100.
Diagnostic describe_unknown_step(std::string_view text, Span line);

} // namespace acre::lang
