#include "cli/workbook/whole.h"

#include <cstddef>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "cli/workbook/xlsx_parts.h"

namespace acre::cli {
namespace {

// Every element that is opened is closed, in order, and there is one root. Attributes of the
// library's have no `>`.
bool is_balanced(std::string_view xml) {
    std::vector<std::string_view> open;
    std::size_t roots = 0;
    std::size_t at = xml.find('<');
    while (at != std::string_view::npos) {
        const std::size_t end = xml.find('>', at);
        if (end == std::string_view::npos)
            return false;
        const std::string_view tag = xml.substr(at + 1, end - at - 1);
        if (tag.find('<') != std::string_view::npos || tag.empty())
            return false;
        const std::string_view name = tag.substr(0, tag.find_first_of(" /", 1));
        if (tag.front() == '/') {
            if (open.empty() || open.back() != tag.substr(1))
                return false;
            open.pop_back();
        } else if (tag.front() != '?') {
            roots += open.empty() ? 1 : 0;
            if (tag.back() != '/')
                open.push_back(name);
        }
        at = xml.find('<', end);
    }
    return open.empty() && roots == 1 && !xml.empty() && xml.find_last_of('>') + 2 >= xml.size();
}

std::size_t count_of(std::string_view text, std::string_view word) {
    std::size_t count = 0;
    for (std::size_t at = text.find(word); at != std::string_view::npos;
         at = text.find(word, at + word.size()))
        ++count;
    return count;
}

std::size_t cells_of(const engine::BookSheet& sheet) {
    std::set<std::pair<std::uint32_t, std::uint32_t>> places;
    for (const engine::BookCell& cell : sheet.cells)
        for (std::uint32_t i = 0; i < cell.span; ++i)
            places.emplace(cell.row, cell.column + i);
    return places.size();
}

} // namespace

bool is_whole(std::string_view bytes, const engine::Workbook& book) {
    const std::optional<ZipParts> parts = parts_of_zip(bytes);
    if (!parts)
        return false;
    std::size_t sheets = 0;
    for (const auto& [name, content] : *parts) {
        if (!is_balanced(content))
            return false;
        for (std::size_t i = 0; i < book.sheets.size(); ++i)
            if (name == "xl/worksheets/sheet" + std::to_string(i + 1) + ".xml") {
                ++sheets;
                if (count_of(content, "<c r=") != cells_of(book.sheets[i]))
                    return false;
            }
    }
    return sheets == book.sheets.size();
}

} // namespace acre::cli
