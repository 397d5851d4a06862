// The texts of one compilation. Texts never move once added: spans and views into them stay good
// as long as the map lives.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "lang/source/span.h"

namespace acre::lang {

// What kind of file a text is; decides which statements it may hold.
enum class FileKind : std::uint8_t { Model, Library, Season, Values, Job, Firm, CommandLine };

struct Position {
    std::uint32_t line = 1;   // from 1
    std::uint32_t column = 1; // from 1, in characters (code points), a tab is one
};

class SourceFile {
  public:
    SourceFile(std::string name, std::string text);

    const std::string& name() const { return name_; } // as shown to people: a relative path
    std::string_view text() const {
        return text_;
    } // valid UTF-8 without BOM, or the reader said so
    Position position(std::uint32_t offset) const;
    std::string_view line(std::uint32_t line_number) const; // without its line end
    std::uint32_t line_begin(std::uint32_t line_number) const;
    std::uint32_t line_count() const;

  private:
    std::string name_;
    std::string text_;
    std::vector<std::uint32_t> line_starts_;
};

class SourceMap {
  public:
    FileId add(std::string name, std::string text);
    FileId add(std::shared_ptr<const SourceFile> file);
    const std::shared_ptr<const SourceFile>& shared(FileId id) const { return files_[id]; }
    const SourceFile& file(FileId id) const { return *files_[id]; }
    std::size_t size() const { return files_.size(); }
    std::string_view text(Span span) const;

  private:
    std::vector<std::shared_ptr<const SourceFile>> files_;
};

} // namespace acre::lang
