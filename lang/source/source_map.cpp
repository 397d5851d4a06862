#include "lang/source/source_map.h"

#include <algorithm>

#include "lang/source/utf8.h"

namespace acre::lang {

SourceFile::SourceFile(std::string name, std::string text)
    : name_(std::move(name)),
      text_(std::move(text)) {
    line_starts_.push_back(0);
    for (std::size_t at = text_.find('\n'); at != std::string::npos; at = text_.find('\n', at + 1))
        line_starts_.push_back(static_cast<std::uint32_t>(at + 1));
}

Position SourceFile::position(std::uint32_t offset) const {
    const auto end = std::min<std::size_t>(offset, text_.size());
    const auto after =
        std::upper_bound(line_starts_.begin(), line_starts_.end(), static_cast<std::uint32_t>(end));
    const std::uint32_t begin = *(after - 1);
    std::uint32_t column = 1;
    for (std::size_t i = begin; i < end; ++i)
        column += continues_character(text_[i]) ? 0 : 1;
    return {static_cast<std::uint32_t>(after - line_starts_.begin()), column};
}

std::string_view SourceFile::line(std::uint32_t line_number) const {
    const std::uint32_t begin = line_begin(line_number);
    std::size_t end = line_number < line_count() ? line_starts_[line_number] - 1 : text_.size();
    if (end > begin && text_[end - 1] == '\r')
        --end;
    return std::string_view(text_).substr(begin, end - begin);
}

std::uint32_t SourceFile::line_begin(std::uint32_t line_number) const {
    return line_starts_[std::clamp(line_number, 1U, line_count()) - 1];
}

std::uint32_t SourceFile::line_count() const {
    return static_cast<std::uint32_t>(line_starts_.size());
}

FileId SourceMap::add(std::string name, std::string text) {
    return add(std::make_shared<const SourceFile>(std::move(name), std::move(text)));
}

FileId SourceMap::add(std::shared_ptr<const SourceFile> file) {
    files_.push_back(std::move(file));
    return static_cast<FileId>(files_.size() - 1);
}

std::string_view SourceMap::text(Span span) const {
    if (span.file >= files_.size())
        return {};
    const std::string_view whole = files_[span.file]->text();
    const std::size_t begin = std::min<std::size_t>(span.begin, whole.size());
    const std::size_t end = std::clamp<std::size_t>(span.end, begin, whole.size());
    return whole.substr(begin, end - begin);
}

} // namespace acre::lang
