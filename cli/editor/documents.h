// The texts that an editor has open, as they are there and not yet on the disk.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "cli/editor/positions.h"

namespace acre::cli {

// "file:///home/ines/a%20b.job" and "/home/ines/a b.job". Nothing: not of a file of this machine.
std::optional<std::string> path_of(std::string_view uri);
std::string uri_of(std::string_view path);

struct OpenText {
    std::string uri; // as the editor writes it
    std::string text;
};

struct TextChange {
    bool whole = true; // `text` is all of it; else what stands from `begin` to `end`
    TextPlace begin, end;
    std::string text;
};

class Documents {
  public:
    void open(std::string path, std::string uri, std::string text);
    bool change(const std::string& path, const TextChange& change); // false: it is not open
    void close(const std::string& path);
    const OpenText* find(const std::string& path) const;
    const std::map<std::string, OpenText>& all() const { return open_; } // by path

  private:
    std::map<std::string, OpenText> open_;
};

} // namespace acre::cli
