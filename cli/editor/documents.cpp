#include "cli/editor/documents.h"

#include <algorithm>
#include <charconv>

#include "lang/units/letters.h"

namespace acre::cli {

namespace {

constexpr std::string_view file_scheme = "file://";

bool stays(char c) {
    return lang::is_letter(c) || lang::is_digit(c) || c == '/' || c == '-' || c == '.' ||
           c == '_' || c == '~';
}

} // namespace

std::optional<std::string> path_of(std::string_view uri) {
    if (!uri.starts_with(file_scheme))
        return std::nullopt;
    uri.remove_prefix(file_scheme.size());
    if (!uri.starts_with('/')) // a host; only this machine's files can be read
        uri.remove_prefix(std::min(uri.find('/'), uri.size()));
    std::string path;
    for (std::size_t at = 0; at < uri.size(); ++at) {
        unsigned byte = 0;
        const bool coded =
            uri[at] == '%' && at + 2 < uri.size() &&
            std::from_chars(uri.data() + at + 1, uri.data() + at + 3, byte, 16).ptr ==
                uri.data() + at + 3;
        path += coded ? static_cast<char>(byte) : uri[at];
        at += coded ? 2 : 0;
    }
    if (path.empty() || path.find('\0') != std::string::npos)
        return std::nullopt;
    return path;
}

std::string uri_of(std::string_view path) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string uri(file_scheme);
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        if (stays(c))
            uri += c;
        else
            uri.append("%").append(1, digits[byte >> 4U]).append(1, digits[byte & 15U]);
    }
    return uri;
}

void Documents::open(std::string path, std::string uri, std::string text) {
    open_[std::move(path)] = {std::move(uri), std::move(text)};
}

bool Documents::change(const std::string& path, const TextChange& change) {
    const auto found = open_.find(path);
    if (found == open_.end())
        return false;
    std::string& text = found->second.text;
    if (change.whole) {
        text = change.text;
        return true;
    }
    const TextIndex index(text);
    const std::uint32_t begin = index.offset(change.begin);
    const std::uint32_t end = std::max(begin, index.offset(change.end));
    text.replace(begin, end - begin, change.text);
    return true;
}

void Documents::close(const std::string& path) {
    open_.erase(path);
}

const OpenText* Documents::find(const std::string& path) const {
    const auto found = open_.find(path);
    return found == open_.end() ? nullptr : &found->second;
}

} // namespace acre::cli
