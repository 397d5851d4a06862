#include "lang/check/blame.h"

#include <algorithm>

#include "lang/check/type_of.h"

namespace acre::lang {
namespace {

constexpr std::size_t most_uses = 200; // copies of a line in entries say all the same

bool is_number(const Type& type) {
    return type.kind == Type::Kind::Number;
}

Dim money() {
    Dim dim;
    dim.exponent[Money] = 1;
    return dim;
}

} // namespace

NodeId own_value(const Sheet& sheet, LineId id) {
    const std::uint32_t given = sheet.lines[id].given;
    if (given == none)
        return none;
    const std::vector<Setting>& settings = sheet.givens[given].settings;
    return settings.empty() || settings.front().layer != Layer::Model ? none
                                                                      : settings.front().value;
}

void Blame::collect(NodeId id, std::vector<LineId>& lines, int through) {
    if (budget_ == 0)
        return;
    --budget_;
    const Node& node = sheet_.nodes[id];
    if (node.op == Op::Line) {
        if (is_through(sheet_, node.index) && through < most_quantities)
            collect(sheet_.lines[node.index].value, lines, through + 1);
        else
            lines.push_back(node.index);
    }
    for_each_child(sheet_, node, [&](NodeId child) { collect(child, lines, through); });
}

void Blame::index() {
    if (indexed_)
        return;
    indexed_ = true;
    reads_.resize(sheet_.lines.size());
    read_by_.resize(sheet_.lines.size());
    for (LineId id = 0; id < sheet_.lines.size(); ++id) {
        const Line& line = sheet_.lines[id];
        if (line.value == none || line.role == Role::CostQuantity || !is_number(line.type))
            continue;
        collect(line.value, reads_[id]);
        std::sort(reads_[id].begin(), reads_[id].end());
        reads_[id].erase(std::unique(reads_[id].begin(), reads_[id].end()), reads_[id].end());
        for (const LineId read : reads_[id])
            if (read_by_[read].size() < most_uses)
                read_by_[read].push_back(id);
    }
}

bool Blame::fits(LineId formula, LineId line, const Type& type) {
    const Line& of = sheet_.lines[formula];
    const Type made = type_if(sheet_, of.value, line, type, budget_);
    return is_number(made) && is_number(of.type) && made.unit.dim == of.type.unit.dim;
}

LineId Blame::whole_of(LineId line) const {
    if (sheet_.lines[line].role != Role::CostQuantity)
        return line;
    for (const Cost& cost : sheet_.costs)
        if (cost.quantity == line)
            return cost.amount;
    return line;
}

std::optional<Type> Blame::misdeclared(LineId id) {
    if (const auto found = known_.find(id); found != known_.end())
        return found->second;
    std::optional<Type>& out = known_[id];
    const Line& line = sheet_.lines[id];
    if ((line.role != Role::Line && line.role != Role::CostRate) || line.value == none ||
        !is_number(line.type))
        return out;
    index();
    const Type gives = type_if(sheet_, line.value, id, line.type, budget_);
    if (!is_number(gives) || gives.unit.dim == line.type.unit.dim)
        return out;
    bool needed = false;
    for (const LineId use : read_by_[id]) {
        const bool as_given = fits(use, id, gives);
        const bool as_declared = fits(use, id, line.type);
        if (as_declared && !as_given)
            return out;
        needed = needed || (as_given && !as_declared);
    }
    if (needed && budget_ > 0)
        out = gives;
    return out;
}

bool Blame::only_follows(LineId line) {
    line = whole_of(line);
    index();
    return std::any_of(reads_[line].begin(), reads_[line].end(), [&](LineId read) {
        const std::optional<Type> meant = misdeclared(read);
        return meant && fits(line, read, *meant);
    });
}

bool Blame::may_lack_unit(LineId id) const {
    const Line& line = sheet_.lines[id];
    const NodeId value = own_value(sheet_, id);
    if (line.role != Role::Given || value == none || !is_number(line.type) ||
        (line.type.unit != one && line.type.unit.dim != money()))
        return false;
    const std::string_view text = sources_.file(line.name_span.file).text();
    const std::size_t behind = text.find_first_not_of(" \t", line.name_span.end);
    if (behind == std::string_view::npos || text[behind] != '=')
        return false;
    const Given& given = sheet_.givens[line.given];
    return given.within_low == none ||
           type_of(sheet_, given.within_low).unit.dim != line.type.unit.dim;
}

std::optional<Blame::Unitless> Blame::unitless(LineId line, const Dim& missing) {
    line = whole_of(line);
    if (missing.is_plain())
        return std::nullopt;
    index();
    std::optional<Unitless> out;
    for (const LineId read : reads_[line]) {
        if (!may_lack_unit(read))
            continue;
        for (const bool inverse : {false, true}) {
            Type type = sheet_.lines[read].type;
            const auto unit = inverse ? divide(Unit{type.unit.dim, {}}, Unit{missing, {}})
                                      : multiply(Unit{type.unit.dim, {}}, Unit{missing, {}});
            if (!unit)
                continue;
            type.unit = *unit;
            const std::vector<LineId>& uses = read_by_[read];
            if (!std::all_of(uses.begin(), uses.end(),
                             [&](LineId use) { return fits(use, read, type); }))
                continue;
            if (out)
                return std::nullopt;
            out = Unitless{read, own_value(sheet_, read), type, inverse};
        }
    }
    return budget_ > 0 ? out : std::nullopt;
}

} // namespace acre::lang
