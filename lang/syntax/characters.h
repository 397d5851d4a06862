// The characters a text may hold: valid UTF-8 without control characters, so that no model can move
// a cursor, hide a line or turn the direction of writing on somebody's screen.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace acre::lang {

struct CharacterScan {
    static constexpr std::uint32_t none = 0xFFFFFFFF;
    std::uint32_t invalid_at = none;     // the first byte that is not UTF-8
    std::vector<std::uint32_t> unwanted; // where control characters stand, at most `most`
    static constexpr std::size_t most = 50;
};

// Looks at every byte once. Tabs and line ends (with or without a carriage return) are wanted.
CharacterScan scan_characters(std::string_view text);

} // namespace acre::lang
