#include "lang/check/lint_unused.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/mend.h"
#include "lang/check/resolve/report.h"

namespace acre::lang {
namespace {

using resolving::problem;

// Where the names of used lines of the text stand: one for all copies of a line. Sorted.
std::vector<std::uint32_t> names_in_use(const Sheet& sheet, FileId model) {
    std::vector<std::uint32_t> used;
    const auto use = [&](LineId id) {
        if (id != none && sheet.lines[id].name_span.file == model)
            used.push_back(sheet.lines[id].name_span.begin);
    };
    for (const Node& node : sheet.nodes)
        if (node.op == Op::Line)
            use(node.index);
    for (const Correlation& correlation : sheet.correlations)
        for (const std::uint32_t given : {correlation.first, correlation.second})
            if (given != none)
                use(sheet.givens[given].line);
    for (const PriceItem& item : sheet.prices)
        use(item.quantity);
    for (const Counted& counted : sheet.counted)
        for (const LineId id : {counted.line, counted.many})
            use(id);
    for (LineId id = 0; id < sheet.lines.size(); ++id)
        if (sheet.lines[id].shown)
            use(id);
    std::sort(used.begin(), used.end());
    return used;
}

bool is_money(const Line& line) {
    Dim money;
    money.exponent[Money] = 1;
    return line.type.kind == Type::Kind::Number && line.type.unit.dim == money;
}

// "tractor * hours", where it is short enough to stand in a help.
std::string formula(const Sheet& sheet, const SourceMap& sources, const Line& line) {
    const std::string text =
        line.value == none ? "" : quotable(sources, sheet.nodes[line.value].span);
    return text.empty() || text.find('#') != std::string::npos ? "…" : text;
}

Diagnostic unasked_money(const Line& line, std::string_view name, const std::string& formula) {
    const bool given = line.role == Role::Given;
    Diagnostic d = problem(Code::L828,
                           fmt::format("`{}` is money, and no cost and no price asks for it", name),
                           line.name_span, "not charged");
    d.helps.push_back({given ? fmt::format("to charge it, add a cost, as in  cost {}_paid : $ = {} "
                                           "over 1",
                                           name, name)
                             : fmt::format("to charge it, make it a cost: write  cost {} : $ = {} "
                                           "over 1",
                                           name, formula),
                       std::nullopt});
    d.helps.push_back({given ? "if it is not to be charged, delete it"
                             : "if it is only to be looked at, say so behind it:  because \"…\"",
                       std::nullopt});
    return d;
}

// The parts of the text that have costs of their own: beside one, a line of money is a cost that
// was not said. Sorted.
std::vector<std::uint32_t> parts_with_costs(const Sheet& sheet, FileId model) {
    std::vector<std::uint32_t> parts;
    for (const Cost& cost : sheet.costs)
        if (const Line& rate = sheet.lines[cost.rate]; rate.name_span.file == model)
            parts.push_back(rate.part);
    std::sort(parts.begin(), parts.end());
    return parts;
}

void lines_read(const Sheet& sheet, NodeId id, std::vector<LineId>& out) {
    if (id == none)
        return;
    if (sheet.nodes[id].op == Op::Line)
        out.push_back(sheet.nodes[id].index);
    for_each_child(sheet, sheet.nodes[id], [&](NodeId child) { lines_read(sheet, child, out); });
}

// What is worked out from the price, or from costs that are in it, is an answer, and so is what is
// worked out from an answer.
std::vector<bool> answers(const Sheet& sheet) {
    std::vector<std::vector<LineId>> readers(sheet.lines.size());
    std::vector<bool> answer(sheet.lines.size(), false);
    std::vector<LineId> spreading;
    const auto is_one = [&](LineId id) {
        if (!answer[id])
            spreading.push_back(id);
        answer[id] = true;
    };
    std::vector<LineId> read;
    for (LineId id = 0; id < sheet.lines.size(); ++id) {
        const Role role = sheet.lines[id].role;
        if (role == Role::CostAmount || role == Role::PriceLine || role == Role::Total)
            is_one(id);
        read.clear();
        lines_read(sheet, sheet.lines[id].value, read);
        for (const LineId line : read)
            readers[line].push_back(id);
    }
    while (!spreading.empty()) {
        const LineId from = spreading.back();
        spreading.pop_back();
        for (const LineId reader : readers[from])
            is_one(reader);
    }
    return answer;
}

Diagnostic unused(const Line& line, std::string_view name) {
    Diagnostic d = problem(Code::L801,
                           fmt::format("`{}` is {} but nothing uses or shows it", name,
                                       line.role == Role::Given ? "a given" : "computed"),
                           line.name_span, "unused");
    d.helps.push_back({"use it in a line, give it a label to show it, or delete it", std::nullopt});
    return d;
}

} // namespace

void lint_unused(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    const FileId model = sheet.prices.front().span.file;
    const std::vector<std::uint32_t> used = names_in_use(sheet, model);
    const std::vector<std::uint32_t> charged = parts_with_costs(sheet, model);
    const std::vector<bool> answer = answers(sheet);
    for (LineId id = 0; id < sheet.lines.size(); ++id) {
        const Line& line = sheet.lines[id];
        if ((line.role != Role::Line && line.role != Role::Given) || line.name_span.file != model ||
            std::binary_search(used.begin(), used.end(), line.name_span.begin))
            continue;
        const std::string_view name = sources.text(line.name_span);
        const bool given = line.role == Role::Given;
        if (is_money(line) && (given || line.because.empty()) &&
            std::binary_search(charged.begin(), charged.end(), line.part) && !answer[id])
            diagnostics.add(unasked_money(line, name, formula(sheet, sources, line)));
        else if (line.label.empty())
            diagnostics.add(unused(line, name));
    }
}

} // namespace acre::lang
