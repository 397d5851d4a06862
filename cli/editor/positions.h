// Places in a text as the protocol counts them: lines from 0, and in a line UTF-16 code units.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace acre::cli {

struct TextPlace {
    std::uint32_t line = 0, character = 0;
};

class TextIndex {
  public:
    // The text must outlive the index.
    explicit TextIndex(std::string_view text);

    TextPlace place(std::uint32_t offset) const;        // past the end: the end
    std::uint32_t offset(TextPlace place) const;        // past a line: its end
    std::uint32_t line_end(std::uint32_t offset) const; // before the line end
    std::uint32_t line_begin(std::uint32_t offset) const;

  private:
    std::uint32_t line_of(std::uint32_t offset) const;

    std::string_view text_;
    std::vector<std::uint32_t> begins_; // of lines
};

} // namespace acre::cli
