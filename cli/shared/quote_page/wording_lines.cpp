#include "cli/shared/quote_page/wording_lines.h"

#include <algorithm>

namespace acre::cli {

std::string_view trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(" \t\r");
    return begin == std::string_view::npos
               ? text.substr(text.size())
               : text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1);
}

std::optional<EachBody> each_body(std::string_view text, std::size_t begin) {
    for (std::size_t at = begin; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (trimmed(text.substr(at, end - at)) == "@end")
            return EachBody{text.substr(begin, at - begin), end + 1};
        at = end + 1;
    }
    return std::nullopt;
}

std::map<std::string, std::string_view, std::less<>> pairs_of(std::string_view text) {
    std::map<std::string, std::string_view, std::less<>> pairs;
    for (std::string_view rest = trimmed(text); !rest.empty();) {
        const std::size_t end = std::min(rest.find(' '), rest.size());
        const std::string_view pair = rest.substr(0, end);
        const std::size_t equals = pair.find('=');
        if (equals != std::string_view::npos)
            pairs.emplace(pair.substr(0, equals), pair.substr(equals + 1));
        rest = trimmed(rest.substr(end));
    }
    return pairs;
}

std::string spoken(std::string name) {
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == '_' || c == '.'; }, ' ');
    if (!name.empty() && name[0] >= 'a' && name[0] <= 'z')
        name[0] = static_cast<char>(name[0] - 'a' + 'A');
    return name;
}

std::string said_by_firm(std::string_view word) {
    const std::string line =
        word == "name" ? std::string("firm \"…\"") : ": " + std::string(word) + " = \"…\"";
    return "delete the line; the firm's file, which a season names, says  " + line;
}

} // namespace acre::cli
