#include "cli/editor/positions.h"

#include <algorithm>

#include "lang/source/utf8.h"

namespace acre::cli {

TextIndex::TextIndex(std::string_view text) : text_(text), begins_{0} {
    for (std::size_t at = text.find('\n'); at != std::string_view::npos;
         at = text.find('\n', at + 1))
        begins_.push_back(static_cast<std::uint32_t>(at + 1));
}

std::uint32_t TextIndex::line_of(std::uint32_t offset) const {
    const auto after = std::upper_bound(begins_.begin(), begins_.end(), offset);
    return static_cast<std::uint32_t>(after - begins_.begin() - 1);
}

std::uint32_t TextIndex::line_begin(std::uint32_t offset) const {
    return begins_[line_of(offset)];
}

std::uint32_t TextIndex::line_end(std::uint32_t offset) const {
    const std::uint32_t line = line_of(offset);
    std::size_t end = line + 1 < begins_.size() ? begins_[line + 1] - 1 : text_.size();
    if (end > begins_[line] && text_[end - 1] == '\r')
        --end;
    return static_cast<std::uint32_t>(end);
}

TextPlace TextIndex::place(std::uint32_t offset) const {
    offset = std::min(offset, static_cast<std::uint32_t>(text_.size()));
    TextPlace place{line_of(offset), 0};
    for (std::size_t at = begins_[place.line]; at < offset;)
        place.character += lang::next_character(text_, at) > 0xFFFF ? 2 : 1;
    return place;
}

std::uint32_t TextIndex::offset(TextPlace place) const {
    if (place.line >= begins_.size())
        return static_cast<std::uint32_t>(text_.size());
    const std::uint32_t end = line_end(begins_[place.line]);
    std::size_t at = begins_[place.line];
    for (std::uint32_t units = 0; at < end && units < place.character;) {
        const char32_t character = lang::next_character(text_, at);
        units += character > 0xFFFF && character != lang::not_utf8 ? 2 : 1;
    }
    return static_cast<std::uint32_t>(at);
}

} // namespace acre::cli
