#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/job/priced_job.h"
#include "engine/plan/plan_roots.h"
#include "engine/words/words.h"
#include "lang/check/operations.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::engine {

using lang::NodeId;
using lang::none;
using lang::Op;

namespace {

// What binds weaker inside stands in brackets.
int strength(Op op) {
    return lang::row_of(op).strength;
}

// Writes out a formula that nobody wrote. Recursion: a formula is no deeper than
// lang::max_formula_depth.
class Writer {
  public:
    // `job`: whose values stand in the place of names; null: names stay.
    Writer(const lang::Sheet& sheet, const lang::SourceMap& sources, const PricedJob* job)
        : sheet_(sheet),
          sources_(sources),
          job_(job) {}

    std::string text(NodeId id) const {
        const lang::Node& node = sheet_.nodes[id];
        switch (node.op) {
        case Op::Number:
            return number(node);
        case Op::Choice:
            return choice_text(sheet_, node.type, node.index);
        case Op::Line:
            return line(node.index);
        case Op::Convert:
            return text(node.a);
        case Op::Negate:
            return "-" + operand(node.a, strength(node.op));
        case Op::Not:
            return "not " + operand(node.a, strength(node.op));
        case Op::When:
            return "when " + operand(node.a, strength(Op::Or)) + " then " +
                   operand(node.b, strength(Op::Or)) + " otherwise " + text(node.c);
        case Op::Table:
            return sheet_.tables[node.index].name + "(" + text(node.a) + ")";
        case Op::Define:
            return sheet_.functions[node.index].name + "(" + args(node, ", ") + ")";
        case Op::Sum:
            return args(node, " + ");
        default:
            break;
        }
        const lang::OperationRow row = lang::row_of(node.op);
        if (!row.shown.empty())
            return fmt::format("{} {} {}", operand(node.a, row.strength), row.shown,
                               operand(node.b, node.op == Op::Add || node.op == Op::Multiply
                                                   ? row.strength
                                                   : row.strength + 1));
        std::string inner = args(node, ", ");
        if (node.a != none)
            inner += text(node.a);
        if (node.b != none)
            inner += ", " + text(node.b);
        return fmt::format("{}({})", row.text, inner);
    }

    std::string line(lang::LineId id) const {
        if (job_ == nullptr)
            return sheet_.lines[id].name;
        const double value = job_->value(id);
        const std::string shown = value_text(sheet_, id, value);
        return value < 0 ? "(" + shown + ")" : shown;
    }

  private:
    std::string operand(NodeId id, int least) const {
        const lang::Node& node = sheet_.nodes[id];
        if (node.op == Op::Convert)
            return operand(node.a, least);
        const bool weaker = node.op == Op::Sum && node.arg_count > 1 ? least > strength(Op::Add)
                                                                     : strength(node.op) < least;
        return weaker ? "(" + text(id) + ")" : text(id);
    }
    std::string args(const lang::Node& node, const char* between) const {
        std::string out;
        for (std::uint32_t i = 0; i < node.arg_count; ++i)
            out += (i > 0 ? between : "") + text(sheet_.args[node.first_arg + i]);
        return out;
    }
    std::string number(const lang::Node& node) const {
        const std::string own = source_text(sources_, node.span);
        const bool written = lang::money_sign_size(own) > 0 ||
                             (!own.empty() && own.front() >= '0' && own.front() <= '9');
        return written ? own : lang::quantity_text(node.number, sheet_.units.text(node.type.unit));
    }

    const lang::Sheet& sheet_;
    const lang::SourceMap& sources_;
    const PricedJob* job_;
};

bool is_made(const lang::Line& line) {
    return line.role == lang::Role::CostAmount || line.role == lang::Role::EventAmount ||
           line.role == lang::Role::PriceLine || line.role == lang::Role::Total;
}

// Of a rounding per unit, which has a case for a quantity of nothing, the case that `job` is in;
// without a job, that of some quantity. Any other formula as it is.
NodeId case_of(const lang::Sheet& sheet, const lang::Line& line, const PricedJob* job) {
    const lang::Node& node = sheet.nodes[line.value];
    if (line.role != lang::Role::PriceLine || node.op != Op::When ||
        !(sheet.nodes[node.a].span == node.span)) // written by the author
        return line.value;
    const lang::Node& quantity = sheet.nodes[sheet.nodes[node.a].a];
    return job != nullptr && job->value(quantity.index) == 0 ? node.b : node.c;
}

struct Name {
    lang::Span span;
    lang::LineId line;
};

void collect_names(const lang::Sheet& sheet, NodeId root, std::vector<Name>& names) {
    std::vector<NodeId> open{root};
    const lang::Span whole = sheet.nodes[root].span;
    while (!open.empty()) {
        const lang::Node& node = sheet.nodes[open.back()];
        open.pop_back();
        const bool inside = node.span.file == whole.file && node.span.begin >= whole.begin &&
                            node.span.end <= whole.end;
        if (node.op == Op::Line && inside && node.span.begin < node.span.end)
            names.push_back({node.span, node.index});
        for (std::uint32_t i = node.arg_count; i-- > 0;)
            open.push_back(sheet.args[node.first_arg + i]);
        for (const NodeId child : {node.c, node.b, node.a})
            if (child != none)
                open.push_back(child);
    }
    std::stable_sort(names.begin(), names.end(),
                     [](const Name& a, const Name& b) { return a.span.begin < b.span.begin; });
}

} // namespace

std::string formula_text(const lang::Sheet& sheet, const lang::SourceMap& sources,
                         lang::LineId id) {
    const lang::Line& line = sheet.lines[id];
    if (line.value == none)
        return {};
    return is_made(line) ? Writer(sheet, sources, nullptr).text(case_of(sheet, line, nullptr))
                         : source_text(sources, sheet.nodes[line.value].span);
}

std::string formula_with_numbers(const PricedJob& job, lang::LineId id) {
    const lang::Sheet& sheet = job.sheet();
    const lang::SourceMap& sources = job.sources();
    const lang::Line& line = sheet.lines[id];
    if (line.value == none)
        return {};
    const Writer writer(sheet, sources, &job);
    if (is_made(line))
        return writer.text(case_of(sheet, line, &job));

    std::vector<Name> names;
    collect_names(sheet, line.value, names);
    lang::Span rest = sheet.nodes[line.value].span;
    std::string raw;
    for (std::size_t i = 0; i < names.size();) {
        const lang::Span name = names[i].span;
        raw += sources.text({rest.file, rest.begin, name.begin});
        rest.begin = name.end;
        // Names of one place are the entries of a sum: all their values stand there.
        for (bool first = true; i < names.size() && names[i].span == name; ++i, first = false)
            raw += (first ? "" : ", ") + writer.line(names[i].line);
    }
    raw += sources.text(rest);
    return folded(raw);
}

} // namespace acre::engine
