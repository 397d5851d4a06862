// Text in quotes that does not end on its line.
#include "lang/syntax/messages.h"

#include <algorithm>
#include <array>

namespace acre::lang {
namespace {

// Where a clause may follow the text, nobody can tell where it ends.
constexpr std::array<std::string_view, 10> unclear = {
    "#",         ",",        " as ",  " within ", " swing ",
    " because ", " covers ", " lump", " per ",    " heading "};

} // namespace

Diagnostic describe_unclosed_text(const Break& b, std::size_t open) {
    const std::uint32_t end = std::min(
        b.end, static_cast<std::uint32_t>(std::min(b.text.find('\n', open), b.text.size())));
    Diagnostic d{Code::S102,
                 "text in quotes is not closed",
                 {{b.file, static_cast<std::uint32_t>(open), end}, "opened here"},
                 {},
                 {},
                 {{"end it with \" on the same line", {}}}};
    const std::string_view text = b.text.substr(open, end - open);
    const bool clear = std::none_of(unclear.begin(), unclear.end(), [&](std::string_view word) {
        return text.find(word) != std::string_view::npos;
    });
    if (clear && text.size() > 1)
        d.helps.front().edit = Edit{{b.file, end, end}, "\""};
    return d;
}

} // namespace acre::lang
