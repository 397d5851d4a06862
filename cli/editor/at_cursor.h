// What stands at a place of a text: a name, and the symbol that it means.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "engine/questions/outline.h"
#include "lang/syntax/tokens.h"

namespace acre::cli {

// The token that holds or touches the place.
std::optional<lang::Token> token_at(std::string_view text, std::uint32_t offset);

struct AtCursor {
    const engine::Symbol* symbol = nullptr; // none: the word means nothing that is declared
    std::uint32_t index = 0;                // of the symbol
    std::uint32_t begin = 0, end = 0;       // its word
};

// By the outline's own places where they still fit the text; else by the word: a name that this
// text declares, or the only one there is of it.
AtCursor symbol_at(const engine::Outline& outline, const std::string& file, std::string_view text,
                   std::uint32_t offset);

} // namespace acre::cli
