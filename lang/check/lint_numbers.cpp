#include "lang/check/lint_numbers.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/report.h"
#include "lang/syntax/words.h"

namespace acre::lang {
namespace {

// What nobody pays for one of it, in dollars: ours, far above any price we know of.
constexpr auto unheard_of = std::to_array<std::pair<std::string_view, double>>({
    {"gal", 1000},
    {"qt", 1000},
    {"L", 1000},
    {"lb", 1000},
    {"kg", 1000},
    {"ft", 1000},
    {"in", 1000},
    {"yd", 1000},
    {"m", 1000},
    {"min", 1000},
    {"h", 5000},
});

// "$4.35/gal" for "$4,350/gal"; empty when the text has another form, or is not above all prices.
std::string with_point(std::string_view text) {
    const std::size_t comma = text.find(',');
    const std::size_t slash = text.find('/');
    if (money_sign_size(text) == 0 || comma == std::string_view::npos || comma > 6 ||
        slash != comma + 4)
        return {};
    const std::string_view unit = text.substr(slash + 1);
    const auto row = std::find_if(unheard_of.begin(), unheard_of.end(),
                                  [unit](const auto& one) { return one.first == unit; });
    if (row == unheard_of.end())
        return {};
    double dollars = 0;
    for (const char c : text.substr(0, slash))
        dollars = is_digit(c) ? dollars * 10 + (c - '0') : dollars;
    if (dollars < row->second)
        return {};
    std::string_view decimals = text.substr(comma + 1, 3);
    if (decimals.ends_with('0'))
        decimals.remove_suffix(1);
    return fmt::format("{}.{}/{}", text.substr(0, comma), decimals, unit);
}

// Bounds are wide on purpose and move no price.
std::vector<bool> bounds_of(const Sheet& sheet) {
    std::vector<bool> bound(sheet.nodes.size(), false);
    const auto mark = [&](NodeId id) {
        for (; id != none; id = sheet.nodes[id].a) {
            bound[id] = true;
            if (sheet.nodes[id].op != Op::Convert && sheet.nodes[id].op != Op::Negate)
                return;
        }
    };
    for (const Given& given : sheet.givens)
        for (const NodeId id :
             {given.within_low, given.within_high, given.swing_low, given.swing_high})
            mark(id);
    for (const Function& function : sheet.functions)
        for (const std::vector<FunctionRange>* ranges : {&function.tested, &function.limits})
            for (const FunctionRange& range : *ranges) {
                mark(range.low);
                mark(range.high);
            }
    return bound;
}

// `6 ft +- 1 ft` is 5 ft: read as plus or minus it would be a slip that nobody sees.
void two_signs(const Sheet& sheet, const SourceMap& sources, const Node& node,
               Diagnostics& diagnostics) {
    if ((node.op != Op::Add && node.op != Op::Subtract) || node.b == none)
        return;
    const Span minus = sheet.nodes[node.b].span;
    if (node.op_span.file != minus.file || node.op_span.end != minus.begin ||
        !sources.text(minus).starts_with('-'))
        return;
    const bool adds = node.op == Op::Subtract;
    Diagnostic d = resolving::problem(
        Code::L842,
        fmt::format("`{}` {} what follows", adds ? "--" : "+-", adds ? "adds" : "takes away"),
        {minus.file, node.op_span.begin, minus.begin + 1}, "two signs");
    d.helps.push_back({fmt::format("if that is meant, write one  {}", adds ? "+" : "-"),
                       Edit{d.primary.span, adds ? "+" : "-"}});
    d.helps.push_back(
        {"for how far a value may go, write  swing LOW .. HIGH  behind it", std::nullopt});
    diagnostics.add(std::move(d));
}

} // namespace

void lint_numbers(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    const std::vector<bool> bound = bounds_of(sheet);
    for (NodeId id = 0; id < sheet.nodes.size(); ++id) {
        const Node& node = sheet.nodes[id];
        two_signs(sheet, sources, node, diagnostics);
        if (bound[id] || node.op != Op::Number || node.number < 1000 ||
            node.type.unit.dim.exponent[Money] != 1)
            continue;
        const std::string_view text = sources.text(node.span);
        const std::string meant = with_point(text);
        if (meant.empty())
            continue;
        Diagnostic d =
            resolving::problem(Code::L822, fmt::format("{} is thousands of dollars for one", text),
                               node.span, "a comma groups thousands");
        d.helps.push_back({fmt::format("for a decimal, write a point:  {}", meant), std::nullopt});
        diagnostics.add(std::move(d));
    }
}

} // namespace acre::lang
