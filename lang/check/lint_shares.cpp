#include "lang/check/lint_shares.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "lang/check/blame.h"
#include "lang/check/resolve/report.h"
#include "lang/syntax/words.h"
#include "lang/units/letters.h"
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

// What stands behind them is about something else: "loads of spoil", "crews that share a truck".
constexpr auto ends_of_phrases = std::to_array<std::string_view>(
    {"after", "along", "and",  "at",  "before", "by", "for",   "from",  "in",  "of",
     "on",    "or",    "over", "per", "that",   "to", "under", "which", "who", "with"});

template <class Words> bool is_among(std::string_view word, const Words& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// The words that a name or a label begins with, in small letters, to the first other sign.
std::vector<std::string> first_words(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char c : text)
        if (is_letter(c))
            words.back() += to_lower(c);
        else if (c != '_' && c != ' ')
            break;
        else if (!words.back().empty())
            words.emplace_back();
    if (words.back().empty())
        words.pop_back();
    return words;
}

// "payroll burden", "tax rate", "share lost", and neither "overhead lines" nor "rows at the
// margin".
bool is_of_a_share(std::string_view text) {
    std::vector<std::string> words = first_words(text);
    words.erase(std::find_if(words.begin(), words.end(),
                             [](const auto& word) { return is_among(word, ends_of_phrases); }),
                words.end());
    if (words.size() > 1 && words.back() == "rate")
        words.pop_back();
    return !words.empty() && (is_among(words.back(), words_of_shares) || words.front() == "share" ||
                              words.front() == "percent" || words.front() == "percentage");
}

// "burden, %", and neither "trips, 100 % loaded" nor the text of a format.
bool says_percent(std::string_view label) {
    const std::size_t sign = label.find('%');
    if (sign == std::string_view::npos)
        return false;
    const bool apart = sign + 1 == label.size() || label[sign + 1] == ' ' || label[sign + 1] == ',';
    const std::size_t before = label.substr(0, sign).find_last_not_of(' ');
    return apart && (before == std::string_view::npos || !is_digit(label[before]));
}

bool says_number(std::string_view text) {
    const std::vector<std::string> words = first_words(text);
    return std::any_of(words.begin(), words.end(),
                       [](const auto& word) { return is_among(word, words_of_numbers); });
}

bool names_a_share(std::string_view name, std::string_view label) {
    return (is_of_a_share(name) || is_of_a_share(label) || says_percent(label)) &&
           !says_number(name) && !says_number(label);
}

bool is_bare(const Sheet& sheet, NodeId id) {
    return id != none && sheet.nodes[id].op == Op::Number && sheet.nodes[id].type.unit == one &&
           sheet.nodes[id].type.kind == Type::Kind::Number;
}

// What the formulas do with a line.
struct Use {
    bool taken_from_one = false; // 1 - lost
    bool added_to_one = false;   // 1 + burden
    bool over_hundred = false;   // burden / 100: the formula knows that it is in percent
};

std::vector<Use> uses_of_lines(const Sheet& sheet) {
    std::vector<Use> uses(sheet.lines.size());
    const auto is = [&](NodeId id, double number) {
        return is_bare(sheet, id) && sheet.nodes[id].number == number;
    };
    const auto use = [&](NodeId id, bool Use::*what) {
        if (id != none && sheet.nodes[id].op == Op::Line)
            uses[sheet.nodes[id].index].*what = true;
    };
    for (const Node& node : sheet.nodes) {
        if (node.op == Op::Subtract && is(node.a, 1))
            use(node.b, &Use::taken_from_one);
        if (node.op == Op::Add && is(node.a, 1))
            use(node.b, &Use::added_to_one);
        if (node.op == Op::Add && is(node.b, 1))
            use(node.a, &Use::added_to_one);
        if (node.op == Op::Divide && is(node.b, 100))
            use(node.a, &Use::over_hundred);
    }
    return uses;
}

bool looks_like_a_share(double value, const Use& use, std::string_view name,
                        std::string_view label) {
    if (value == 0 || value == 1 || use.over_hundred)
        return false;
    if (value > 1 && value < 2 && !use.added_to_one && !use.taken_from_one)
        return false; // a swell of 1.25, a markup of 1.15: what to multiply by
    return use.taken_from_one || names_a_share(name, label);
}

Diagnostic bare_share(std::string_view name, std::string_view written, double value, Span span) {
    const ShareMends mends = share_mends(value, written);
    Diagnostic d = resolving::problem(
        Code::L827, fmt::format("`{}` is a plain number, and looks like a share", name), span,
        "no %");
    d.helps.push_back({fmt::format("write  {}", mends.likely), Edit{span, mends.likely}});
    d.helps.push_back({fmt::format("{}  {}", mends.why, mends.other), {}});
    d.helps.push_back(
        {fmt::format("if a plain number is meant, write  given {} : 1 = {}", name, written), {}});
    return d;
}

} // namespace

void lint_shares(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    const std::vector<Use> uses = uses_of_lines(sheet);
    for (const Given& given : sheet.givens) {
        const Line& line = sheet.lines[given.line];
        const NodeId value = own_value(sheet, given.line);
        if (!is_bare(sheet, value) || line.type.kind != Type::Kind::Number || line.type.unit != one)
            continue;
        const Node& node = sheet.nodes[value];
        const std::string_view name = sources.text(line.name_span);
        const std::string_view text = sources.file(line.name_span.file).text();
        const std::size_t behind = text.find_first_not_of(" \t", line.name_span.end);
        const bool declared = behind == std::string_view::npos || text[behind] != '=';
        if (!declared && looks_like_a_share(node.number, uses[given.line], name, line.label))
            diagnostics.add(bare_share(name, sources.text(node.span), node.number, node.span));
    }
}

} // namespace acre::lang
