#include "engine/faults/fault_origin.h"
#include "engine/job/priced_job.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"
#include "engine/words/words.h"
#include "lang/diag/place.h"
#include "lang/units/number_text.h"

namespace acre::engine {

using lang::NodeId;
using lang::none;
using lang::Op;

namespace {

struct FaultSite {
    NodeId outer = none; // outside functions
    NodeId node = none;  // where the operation is; inside a function if it differs from `outer`
    lang::LineId line = none; // none: a condition, or a bound
};

class Origin {
  public:
    Origin(const PricedJob& job, const FaultTrail& trail, std::span<const char> asked)
        : sheet_(job.sheet()),
          compiled_(job.compiled()),
          values_(job.values()),
          sources_(job.sources()),
          trail_(trail),
          asked_(asked) {}

    // The line and node that asked for a slot. Equal operations are shared: the first that asked
    // may be of no interest here.
    FaultSite site_of(Slot slot) const {
        const Origins& origins = compiled_.origins;
        const FaultSite first{origins.outer_node[slot], origins.node[slot], origins.line[slot]};
        if (first.line == none || is_asked(first.line))
            return first;
        for (lang::LineId line = 0; line < sheet_.lines.size(); ++line) {
            if (!is_asked(line) || sheet_.lines[line].value == none)
                continue;
            if (const NodeId node = find(sheet_.lines[line].value, slot); node != none)
                return {node, node, line};
        }
        return first;
    }

    lang::Diagnostic describe(Slot slot, const FaultSite& site) const {
        const Operation& op = compiled_.plan.operations[slot];
        const std::string where =
            site.line == none ? "" : fmt::format(" in `{}`", sheet_.lines[site.line].name);
        lang::Diagnostic diagnostic{lang::Code::E502, {}, {}, {}, {}, {}};
        std::vector<Slot> culprits = operands(op);
        switch (op.code) {
        case OpCode::Divide:
            if (values_.slot[op.b] != 0) {
                diagnostic.title = fmt::format("a result is too large{}", where);
                break;
            }
            diagnostic.code = lang::Code::E501;
            diagnostic.title = fmt::format("division by zero{}", where);
            culprits = {op.b};
            break;
        case OpCode::Sqrt:
            diagnostic.code = lang::Code::E506;
            diagnostic.title = fmt::format("there is no square root of {}{}",
                                           operand_text(site.node, op.a), where);
            break;
        case OpCode::Log:
            diagnostic.code = lang::Code::E506;
            diagnostic.title =
                fmt::format("there is no logarithm of {}{}", operand_text(site.node, op.a), where);
            break;
        case OpCode::Power:
            if (values_.slot[op.a] < 0)
                diagnostic.code = lang::Code::E506;
            if (values_.slot[op.a] == 0)
                diagnostic.code = lang::Code::E501;
            diagnostic.title = fmt::format("{} to the power {} is not a number{}",
                                           lang::number_text(values_.slot[op.a]),
                                           lang::number_text(values_.slot[op.b]), where);
            break;
        case OpCode::Table:
            table(op, where, diagnostic);
            break;
        case OpCode::Guard:
            limit(slot, where, diagnostic, culprits);
            break;
        case OpCode::Native:
            native(op, site, where, diagnostic);
            break;
        case OpCode::Input:
            diagnostic.title = fmt::format("a value is not a finite number{}", where);
            break;
        default:
            diagnostic.title = fmt::format("a result is too large{}", where);
        }
        labels(site, op, diagnostic);
        const std::vector<std::string> notes = trail_.notes(culprits);
        diagnostic.notes.insert(diagnostic.notes.end(), notes.begin(), notes.end());
        return diagnostic;
    }

  private:
    bool is_asked(lang::LineId line) const { return asked_[line] != 0; }
    NodeId find(NodeId root, Slot slot) const {
        std::vector<NodeId> open{root};
        while (!open.empty()) {
            const NodeId id = open.back();
            const lang::Node& node = sheet_.nodes[id];
            open.pop_back();
            if (node.op == Op::Line)
                continue;
            if (compiled_.origins.slot_of_node[id] == slot)
                return id;
            lang::for_each_child(sheet_, node, [&](lang::NodeId child) { open.push_back(child); });
        }
        return none;
    }
    std::vector<Slot> operands(const Operation& op) const {
        std::vector<Slot> slots;
        for_each_operand(compiled_.plan, op, [&](Slot slot) { slots.push_back(slot); });
        return slots;
    }
    // The value of a node's first operand, in its own unit where the node is the operation itself.
    std::string operand_text(NodeId id, Slot slot) const {
        const lang::Node& node = sheet_.nodes[id];
        if (node.a == none)
            return lang::number_text(values_.slot[slot]);
        const lang::Node& operand = sheet_.nodes[node.a];
        if (operand.op != lang::Op::Convert)
            return value_of_node(sheet_, node.a, values_.slot[slot]);
        // As the author says it, not as the root wants it.
        const lang::Conversion& made = operand.conversion;
        return value_of_node(sheet_, operand.a,
                             made.divide ? values_.slot[slot] * made.factor
                                         : values_.slot[slot] / made.factor);
    }
    void table(const Operation& op, const std::string& where, lang::Diagnostic& diagnostic) const {
        const lang::Table& table = sheet_.tables[op.a];
        const auto text = [&](double x) { return lang::quantity_text(x, table.parameter_text); };
        diagnostic.code = lang::Code::E503;
        diagnostic.title = fmt::format("table `{}` is read at {}{}, outside its rows {} .. {}",
                                       table.name, text(values_.slot[op.b]), where,
                                       text(table.x.front()), text(table.x.back()));
        diagnostic.others.push_back({table.span, "the table"});
    }
    void limit(Slot slot, const std::string& where, lang::Diagnostic& diagnostic,
               std::vector<Slot>& culprits) const {
        diagnostic.code = lang::Code::E505;
        const auto& limits = compiled_.origins.limits;
        const auto found = std::find_if(limits.begin(), limits.end(),
                                        [&](const auto& l) { return l.guard == slot; });
        if (found == limits.end())
            return;
        const lang::Function& function = sheet_.functions[found->function];
        const std::string& unit = function.parameter_texts[found->parameter];
        const bool number =
            function.parameter_types[found->parameter].kind == lang::Type::Kind::Number;
        const auto text = [&](Slot s) {
            return number ? lang::quantity_text(values_.slot[s], unit)
                          : lang::number_text(values_.slot[s]);
        };
        diagnostic.title =
            fmt::format("`{}` of `{}` is {}{}, {} its limit of {}",
                        function.parameters[found->parameter], function.name, text(found->value),
                        where, found->lower ? "below" : "above", text(found->bound));
        for (const lang::FunctionRange& range : function.limits)
            if (range.parameter == found->parameter && !range.reason.empty())
                diagnostic.notes.push_back(range.reason);
        culprits = {found->value, found->bound};
    }
    void native(const Operation& op, const FaultSite& site, const std::string& where,
                lang::Diagnostic& diagnostic) const {
        diagnostic.code = lang::Code::E505;
        const lang::Node& node = sheet_.nodes[site.node];
        if (node.op != Op::Define)
            return;
        const lang::Function& function = sheet_.functions[node.index];
        diagnostic.title = fmt::format("`{}` has no answer{}", function.name, where);
        const std::vector<Slot>& args = compiled_.plan.calls[op.a].args;
        std::string given;
        for (std::size_t i = 0; i < args.size() && i < function.parameters.size(); ++i) {
            const lang::Type& type = function.parameter_types[i];
            const double value = values_.slot[args[i]];
            const std::string text = type.kind == lang::Type::Kind::Choice
                                         ? choice_text(sheet_, type, value)
                                         : lang::quantity_text(value, function.parameter_texts[i]);
            given += fmt::format("{}{} {}", i > 0 ? ", " : "", function.parameters[i], text);
        }
        diagnostic.notes.push_back("it was given " + given);
    }
    void labels(const FaultSite& site, const Operation& op, lang::Diagnostic& diagnostic) const {
        if (site.outer == none)
            return;
        const auto sign = [&](NodeId id) {
            const lang::Node& node = sheet_.nodes[id];
            return node.op_span.begin < node.op_span.end ? node.op_span : node.span;
        };
        const lang::Node& node = sheet_.nodes[site.node];
        if (site.outer == site.node) {
            diagnostic.primary = {sign(site.node), ""};
            const bool divides = op.code == OpCode::Divide && node.op == Op::Divide;
            if (divides)
                diagnostic.others.push_back(
                    {sheet_.nodes[node.b].span, value_of_node(sheet_, node.b, values_.slot[op.b])});
            return;
        }
        diagnostic.primary = {sheet_.nodes[site.outer].span, "in this call"};
        diagnostic.notes.push_back(fmt::format("it happens in `{}` ({})",
                                               folded(sources_.text(node.span)),
                                               lang::spoken_place(sources_, node.span)));
    }

    const lang::Sheet& sheet_;
    const Compiled& compiled_;
    const Values& values_;
    const lang::SourceMap& sources_;
    const FaultTrail& trail_;
    std::span<const char> asked_;
};

bool is_unset(const Compiled& compiled, Slot slot) {
    const auto& unset = compiled.origins.unset;
    return std::any_of(unset.begin(), unset.end(), [&](const auto& u) { return u.slot == slot; });
}

} // namespace

void report_origins(const PricedJob& job, const FaultTrail& trail, Asked asked, bool skip_prices,
                    lang::Diagnostics& diagnostics) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    const Origin origin(job, trail, asked.lines);
    const auto is_price = [&](lang::LineId line) {
        return line != none && (sheet.lines[line].role == lang::Role::PriceLine ||
                                sheet.lines[line].role == lang::Role::Total);
    };
    for (Slot slot = 0; slot < compiled.plan.size(); ++slot) {
        if (asked.slots[slot] == 0 || !std::isnan(values.slot[slot]))
            continue;
        bool passed_on = false;
        for_each_operand_asked(
            compiled.plan, compiled.plan.operations[slot], values.slot,
            [&](Slot operand) { passed_on = passed_on || std::isnan(values.slot[operand]); });
        if (passed_on || is_unset(compiled, slot))
            continue;
        if (diagnostics.error_count() > lang::Diagnostics::cap) {
            // It will be counted and not shown: thousands of faults must not each look for their
            // reason.
            const lang::NodeId node = compiled.origins.outer_node[slot];
            diagnostics.add({lang::Code::E502,
                             {},
                             {node == none ? lang::Span{} : sheet.nodes[node].span, ""},
                             {},
                             {},
                             {}});
            continue;
        }
        const FaultSite site = origin.site_of(slot);
        if (skip_prices && is_price(site.line))
            continue;
        diagnostics.add(origin.describe(slot, site));
    }
}

} // namespace acre::engine
