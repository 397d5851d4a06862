#include "lang/check/lint_shares.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "lang/check/blame.h"
#include "lang/check/resolve/report.h"
#include "lang/units/share.h"

namespace acre::lang {
namespace {

// What the trade writes in percent, whatever else the name says. Ours.
constexpr auto words_of_shares = std::to_array<std::string_view>(
    {"burden", "discount", "efficiency", "margin", "markup", "overhead", "percent", "percentage",
     "share", "surcharge", "swell", "tax", "taxes"});
// What says that a plain number is meant.
constexpr auto words_of_numbers =
    std::to_array<std::string_view>({"factor", "number", "ratio", "times"});

template <class Words> bool is_among(std::string_view word, const Words& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// The words of a name or a label in small letters, one by one.
template <class Function> void for_each_word(std::string_view text, Function function) {
    std::string word;
    for (const char c : text) {
        const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        if (small >= 'a' && small <= 'z') {
            word += small;
            continue;
        }
        if (!word.empty())
            function(word);
        word.clear();
    }
    if (!word.empty())
        function(word);
}

bool names_a_share(std::string_view name, std::string_view label) {
    const std::size_t sign = label.find('%'); // "burden, %", and not the text of a format
    bool share = sign != std::string_view::npos &&
                 (sign + 1 == label.size() || label[sign + 1] == ' ' || label[sign + 1] == ',');
    bool number = false;
    for (const std::string_view text : {name, label})
        for_each_word(text, [&](std::string_view word) {
            share |= is_among(word, words_of_shares);
            number |= is_among(word, words_of_numbers);
        });
    return share && !number;
}

bool is_bare(const Sheet& sheet, NodeId id) {
    return id != none && sheet.nodes[id].op == Op::Number && sheet.nodes[id].type.unit == one &&
           sheet.nodes[id].type.kind == Type::Kind::Number;
}

} // namespace

void lint_shares(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    std::vector<bool> taken_from_one(sheet.lines.size(), false);
    for (const Node& node : sheet.nodes)
        if (node.op == Op::Subtract && is_bare(sheet, node.a) && node.b != none &&
            sheet.nodes[node.a].number == 1 && sheet.nodes[node.b].op == Op::Line)
            taken_from_one[sheet.nodes[node.b].index] = true;
    for (const Given& given : sheet.givens) {
        const Line& line = sheet.lines[given.line];
        const NodeId value = own_value(sheet, given.line);
        if (!is_bare(sheet, value) || sheet.nodes[value].number == 0 ||
            sheet.nodes[value].number == 1 || line.type.kind != Type::Kind::Number ||
            line.type.unit != one)
            continue;
        const std::string_view name = sources.text(line.name_span);
        const std::string_view text = sources.file(line.name_span.file).text();
        const std::size_t behind = text.find_first_not_of(" \t", line.name_span.end);
        if (behind == std::string_view::npos || text[behind] != '=' ||
            (!taken_from_one[given.line] && !names_a_share(name, line.label)))
            continue;
        const std::string_view written = sources.text(sheet.nodes[value].span);
        const ShareMends mends = share_mends(sheet.nodes[value].number, written);
        Diagnostic d = resolving::problem(
            Code::L827, fmt::format("`{}` is a plain number, and looks like a share", name),
            sheet.nodes[value].span, "no %");
        d.helps.push_back(
            {fmt::format("write  {}", mends.likely), Edit{sheet.nodes[value].span, mends.likely}});
        d.helps.push_back({fmt::format("{}  {}", mends.why, mends.other), {}});
        d.helps.push_back(
            {fmt::format("if a plain number is meant, write  given {} : 1 = {}", name, written),
             {}});
        diagnostics.add(std::move(d));
    }
}

} // namespace acre::lang
