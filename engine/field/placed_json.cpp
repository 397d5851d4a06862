#include "engine/field/placed_json.h"

#include <algorithm>
#include <utility>

namespace acre::engine {

ReadJson PlacedJson::read(int most_depth) {
    ReadJson json = read_json(text_, most_depth);
    array_starts_ = std::move(json.array_starts);
    return json;
}

lang::Span PlacedJson::whole() const {
    return {file_, 0, static_cast<std::uint32_t>(std::min<std::size_t>(text_.size(), 1))};
}
lang::Span PlacedJson::at(std::size_t offset) const {
    const auto begin = static_cast<std::uint32_t>(std::min(offset, text_.size()));
    return {file_, begin,
            static_cast<std::uint32_t>(std::min<std::size_t>(begin + 1, text_.size()))};
}
lang::Span PlacedJson::next_array() const {
    return next_array_ < array_starts_.size() ? at(array_starts_[next_array_]) : whole();
}
lang::Span PlacedJson::enter_array() {
    const lang::Span span = next_array();
    ++next_array_;
    return span;
}

void PlacedJson::find_coordinates() {
    for (; next_array_ < array_starts_.size(); ++next_array_) {
        std::size_t before = array_starts_[next_array_];
        const auto skip_back = [&](std::string_view characters) {
            while (before > 0 && characters.find(text_[before - 1]) != std::string_view::npos)
                --before;
        };
        skip_back(" \t\r\n");
        skip_back(":");
        skip_back(" \t\r\n");
        constexpr std::string_view key = "\"coordinates\"";
        if (before >= key.size() && text_.substr(before - key.size(), key.size()) == key)
            return;
    }
}

} // namespace acre::engine
