#include "lang/check/resolve/block_sums.h"

#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {
namespace {

constexpr std::size_t most_named = 5;

// The lines that a formula names.
std::vector<LineId> lines_of(const Sheet& sheet, NodeId formula) {
    std::vector<LineId> lines;
    std::vector<NodeId> open;
    if (formula != none)
        open.push_back(formula);
    while (!open.empty()) {
        const Node& node = sheet.nodes[open.back()];
        open.pop_back();
        if (node.op == Op::Line)
            lines.push_back(node.index);
        for_each_child(sheet, node, [&](NodeId child) { open.push_back(child); });
    }
    return lines;
}

// The givens of its own block and kind of unit that the formula of a given reads.
std::vector<LineId> of_its_kind(const Sheet& sheet, LineId id) {
    const Line& line = sheet.lines[id];
    const std::vector<Setting>& settings = sheet.givens[line.given].settings;
    std::vector<LineId> out;
    if (settings.empty())
        return out;
    for (const LineId other : lines_of(sheet, settings.front().value)) {
        const Line& there = sheet.lines[other];
        if (there.given != none && there.block == line.block &&
            there.type.kind == Type::Kind::Number && there.type.unit.dim == line.type.unit.dim)
            out.push_back(other);
    }
    return out;
}

// "area" of "north.area" and of "draft.north.area"
std::string without_block(const Sheet& sheet, LineId id) {
    const std::string& name = sheet.lines[id].name;
    const std::string block = sheet.blocks[sheet.lines[id].block].name + ".";
    const std::size_t at = name.find(block);
    return at == std::string::npos ? name : name.substr(0, at) + name.substr(at + block.size());
}

std::string each_named(const Resolution& r, std::string_view name) {
    std::string out;
    for (std::size_t b = 0; b < std::min(r.blocks.size(), most_named); ++b)
        out += fmt::format("{}`{}.{}`", b == 0 ? "" : ", ", r.blocks[b]->name.text, name);
    return r.blocks.size() > most_named
               ? out + fmt::format(" and {} more", r.blocks.size() - most_named)
               : out;
}

// The `sum(NAME)` of the prices, whose formulas are not there yet: the lines of all blocks.
std::vector<std::pair<LineId, Span>> sums_of_prices(Resolution& r) {
    std::vector<std::pair<LineId, Span>> out;
    const ast::Module& model = r.program.modules[r.program.model];
    for (const ast::Statement& statement : model.statements) {
        const auto* price = std::get_if<ast::Price>(&statement.node);
        if (price == nullptr || price->quantity >= model.exprs.size())
            continue;
        const ast::Expr& expr = model.exprs[price->quantity];
        const auto* call = std::get_if<ast::Call>(&expr.node);
        if (call == nullptr || call->function.text != "sum" || call->arg_count != 1)
            continue;
        const auto* name = std::get_if<ast::Name>(&model.exprs[model.args[call->first_arg]].node);
        for (std::uint32_t b = 0; name != nullptr && b < r.block_count; ++b)
            if (const Found found = look_up(r, 0, name->text, b); found.state == Found::State::Line)
                out.emplace_back(found.line, expr.span);
    }
    return out;
}

} // namespace

std::vector<std::optional<Span>> sums_over_blocks(Resolution& r) {
    std::vector<std::optional<Span>> sums;
    if (r.blocks.size() < 2)
        return sums;
    const Sheet& sheet = r.sheet;
    sums.assign(sheet.lines.size(), std::nullopt);
    std::vector<LineId> open;
    const auto add = [&](LineId line, Span sum) {
        if (sheet.lines[line].given == none || sums[line])
            return;
        sums[line] = sum;
        open.push_back(line);
    };
    for (const auto& [line, span] : sums_of_prices(r))
        add(line, span);
    for (NodeId id = 0; id < sheet.nodes.size(); ++id) {
        const Node& node = sheet.nodes[id];
        if (node.op != Op::Sum)
            continue;
        for (std::uint32_t i = 0; i < node.arg_count; ++i)
            if (const Node& line = sheet.nodes[sheet.args[node.first_arg + i]];
                line.op == Op::Line && sheet.lines[line.index].block != none)
                add(line.index, node.span);
    }
    while (!open.empty()) {
        const LineId line = open.back();
        open.pop_back();
        for (const LineId other : of_its_kind(sheet, line))
            add(other, *sums[line]);
    }
    return sums;
}

void report_set_for_all(Resolution& r, const ast::Word& name, Span sum) {
    Diagnostic d = problem(
        Code::I610, fmt::format("`{}` is set for the whole job, which has blocks", name.text),
        name.span, "for all blocks at once");
    d.others.push_back({sum, "added up over the blocks"});
    d.notes.push_back(fmt::format("`{}` belongs to each block, and `sum` adds it up: {} blocks "
                                  "would count it {} times",
                                  name.text, r.blocks.size(), r.blocks.size()));
    d.helps.push_back(
        {fmt::format("say how it is shared out, block by block: {}", each_named(r, name.text)),
         {}});
    r.add(std::move(d));
}

void report_boundary_for_all(Resolution& r) {
    if (std::none_of(r.block_sums.begin(), r.block_sums.end(),
                     [](const std::optional<Span>& sum) { return sum.has_value(); }))
        return;
    for (const ast::Statement& statement : r.program.modules[r.program.job].statements)
        if (std::holds_alternative<ast::Field>(statement.node))
            r.add(problem(Code::I610, "one boundary is given for the whole job, which has blocks",
                          statement.span, "for all blocks at once",
                          {"put a `field` into each block that has a boundary"}));
}

void warn_of_silent_blocks(Resolution& r, const std::vector<std::optional<Span>>& sums) {
    const Sheet& sheet = r.sheet;
    // By the plain name of a given that is added up: the blocks that say it, in their own words or
    // by what its formula reads.
    struct Group {
        std::vector<char> said; // by block
        std::vector<LineId> line;
        bool has_figure = false; // a figure of the model is in force where nobody says it
    };
    std::unordered_map<std::string, Group> groups;
    std::vector<std::string> order;
    const auto is_set = [&](LineId line) {
        const std::vector<Setting>& settings = sheet.givens[sheet.lines[line].given].settings;
        return !settings.empty() && settings.back().layer > Layer::Binding;
    };
    for (LineId id = 0; id < sums.size(); ++id) {
        const Line& line = sheet.lines[id];
        if (!sums[id])
            continue;
        std::string name = without_block(sheet, id);
        Group& group = groups[name];
        if (group.said.empty()) {
            group.said.assign(r.blocks.size(), 0);
            group.line.assign(r.blocks.size(), none);
            order.push_back(std::move(name));
        }
        const std::vector<Setting>& settings = sheet.givens[line.given].settings;
        const std::vector<LineId> kin = of_its_kind(sheet, id);
        group.line[line.block] = id;
        group.said[line.block] = is_set(id) || std::any_of(kin.begin(), kin.end(), is_set) ? 1 : 0;
        group.has_figure |=
            !kin.empty() || (!settings.empty() && lines_of(sheet, settings.front().value).empty());
    }
    std::vector<char> told(r.blocks.size(), 0);
    for (const std::string& name : order) {
        const Group& group = groups[name];
        if (!group.has_figure ||
            std::none_of(group.said.begin(), group.said.end(), [](char said) { return said != 0; }))
            continue;
        for (std::size_t b = 0; b < group.said.size(); ++b) {
            if (group.said[b] != 0 || group.line[b] == none || told[b] != 0)
                continue;
            told[b] = 1;
            Diagnostic d = problem(Code::L821,
                                   fmt::format("block `{}` does not say its `{}`, and others do",
                                               r.blocks[b]->name.text, name),
                                   r.blocks[b]->name.span, "the model's own figure counts");
            d.others.push_back({sheet.lines[group.line[b]].name_span, "from here"});
            d.helps.push_back({fmt::format("in the block, write  set {} = …", name), {}});
            r.add(std::move(d));
        }
    }
}

} // namespace acre::lang::resolving
