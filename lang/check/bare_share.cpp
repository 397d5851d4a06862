#include "lang/check/bare_share.h"

#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/report.h"
#include "lang/units/share.h"

namespace acre::lang {
namespace {

bool is_share(const Type& type) {
    return type.kind == Type::Kind::Number && lang::is_share(type.unit);
}

} // namespace

NodeId BareShares::written(NodeId id) const {
    return sheet_.nodes[id].op == Op::Convert ? sheet_.nodes[id].a : id;
}

void BareShares::in(NodeId value, const Type& wanted) const {
    if (is_share(wanted))
        look(value, false);
}

void BareShares::pair(NodeId a, NodeId b) const {
    in(a, sheet_.nodes[written(b)].type);
    in(b, sheet_.nodes[written(a)].type);
}

void BareShares::list(std::uint32_t first_arg, std::uint32_t count) const {
    for (std::uint32_t i = 0; i < count; ++i) {
        if (!is_share(sheet_.nodes[written(sheet_.args[first_arg + i])].type))
            continue;
        for (std::uint32_t other = 0; other < count; ++other)
            look(sheet_.args[first_arg + other], false);
        return;
    }
}

void BareShares::step(NodeId value) const {
    look(value, true);
}

// No deeper than the formula is (max_formula_depth).
void BareShares::look(NodeId id, bool names) const {
    if (off_ || id == none)
        return;
    const Node& node = sheet_.nodes[written(id)];
    switch (node.op) {
    case Op::Number:
        if (node.type.unit == one && node.number != 0)
            number(node);
        break;
    case Op::Line:
        if (names && node.type.kind == Type::Kind::Number && node.type.unit == one)
            name(node);
        break;
    case Op::Negate:
        look(node.a, names);
        break;
    case Op::When:
        look(node.b, names);
        look(node.c, names);
        break;
    case Op::Min:
    case Op::Max:
        for (std::uint32_t i = 0; i < node.arg_count; ++i)
            look(sheet_.args[node.first_arg + i], names);
        break;
    default:
        break;
    }
}

void BareShares::number(const Node& node) const {
    const std::string_view text = sources_.text(node.span);
    const ShareMends mends = share_mends(node.number, text);
    Diagnostic d = resolving::problem(Code::S124, fmt::format("`{}` is no share", text), node.span,
                                      "a bare number");
    d.notes.push_back("a share is written in percent; a bare number can be read two ways");
    d.helps.push_back({fmt::format("write  {}", mends.likely), Edit{node.span, mends.likely}});
    d.helps.push_back(
        {fmt::format("{}  {}", mends.why, mends.other), Edit{node.span, mends.other}});
    diagnostics_.add(std::move(d));
}

void BareShares::name(const Node& node) const {
    const Line& line = sheet_.lines[node.index];
    Diagnostic d = resolving::problem(
        Code::S124, fmt::format("`{}` is a plain number, and a step takes a share", line.name),
        node.span, "a plain number");
    d.others.push_back({line.name_span, "declared here"});
    d.helps.push_back({fmt::format("declare it in percent, `{} : %`, and give it so: 8 % for 8 in "
                                   "a hundred",
                                   sources_.text(line.name_span)),
                       {}});
    diagnostics_.add(std::move(d));
}

} // namespace acre::lang
