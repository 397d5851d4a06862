// JSON that is walked in the order of its text, so that a message can point at an array of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "engine/field/read_json.h"
#include "lang/source/span.h"

namespace acre::engine {

class PlacedJson {
  public:
    PlacedJson(std::string_view text, lang::FileId file) : text_(text), file_(file) {}

    ReadJson read(int most_depth);

    lang::Span whole() const;
    lang::Span at(std::size_t offset) const;
    // Of the next array in the text, and past its beginning.
    lang::Span next_array() const;
    lang::Span enter_array();
    // On to the next array that comes after the word "coordinates".
    void find_coordinates();

    std::string_view text() const { return text_; }

  private:
    std::string_view text_;
    lang::FileId file_;
    std::vector<std::uint32_t> array_starts_; // byte offsets, in the order in which arrays begin
    std::size_t next_array_ = 0;
};

} // namespace acre::engine
