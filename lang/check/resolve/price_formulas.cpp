// The formulas of the lines that prices make: plain nodes whose spans point at the text they stand
// for.
#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/price_statements.h"
#include "lang/check/type_of.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

class PriceFiller {
  public:
    explicit PriceFiller(Resolution& r)
        : r_(r),
          money_(*r.sheet.units.find("$")),
          where_(r.where(0, {})) {}

    void cover(const std::vector<PriceStatement>& statements) {
        std::vector<std::vector<std::uint32_t>> items_of_part(r_.sheet.parts.size());
        std::unordered_multimap<std::string_view, std::uint32_t> parts;
        for (std::uint32_t p = 0; p < r_.sheet.parts.size(); ++p)
            if (r_.sheet.parts[p].instance.empty())
                parts.emplace(r_.sheet.parts[p].title, p);
        for (std::uint32_t i = 0; i < statements.size(); ++i)
            for (const ast::Text& title : statements[i].ast->covers)
                cover_part(title, i, parts, items_of_part);
        std::vector<std::uint32_t> rest; // items that cover what no other names
        for (std::uint32_t i = 0; i < statements.size(); ++i)
            if (statements[i].ast->covers.empty())
                rest.push_back(i);
        std::size_t pairs = 0;
        for (std::uint32_t c = 0; c < r_.sheet.costs.size(); ++c) {
            const std::uint32_t part = r_.sheet.costs[c].part;
            const bool named = part != none && !items_of_part[part].empty();
            const std::vector<std::uint32_t>& items = named ? items_of_part[part] : rest;
            if ((pairs += items.size()) > max_sheet_nodes)
                return report_full(r_, statements.front().span); // many costs, each in many prices
            for (const std::uint32_t item : items)
                r_.sheet.prices[item].costs.push_back(c);
        }
    }

    void item(const PriceStatement& statement, PriceItem& item) {
        const ast::Price& ast = *statement.ast;
        std::vector<LineId> amounts;
        for (const std::uint32_t cost : item.costs)
            amounts.push_back(r_.sheet.costs[cost].amount);
        line(item.cost).value = sum(amounts, ast.title.span);
        if (item.quantity != none)
            line(item.quantity).value = build(r_, where_, ast.quantity);
        LineId before = item.cost;
        for (std::size_t i = 0; i < item.steps.size(); ++i) {
            PriceStep& step = item.steps[i];
            step.value = build(r_, where_, ast.steps[i].value);
            line(step.line).value = step_formula(item, step, before);
            before = step.line;
        }
        line(item.amount).value = line_node(r_, before, ast.title.span);
        if (item.rate != none)
            line(item.rate).value = quotient(item.amount, item.quantity, ast.title.span);
    }

    void totals(Span span) {
        Sheet& sheet = r_.sheet;
        std::vector<LineId> amounts;
        for (const Cost& cost : sheet.costs)
            amounts.push_back(cost.amount);
        line(sheet.cost_total).value = sum(amounts, span);
        if (sheet.price_total == none)
            return;
        amounts.clear();
        LineId quantity = none;
        for (const PriceItem& item : sheet.prices) {
            amounts.push_back(item.amount);
            if (quantity == none)
                quantity = item.quantity;
        }
        line(sheet.price_total).value = sum(amounts, span);
        if (sheet.price_per_unit != none)
            line(sheet.price_per_unit).value = quotient(sheet.price_total, quantity, span);
        line(sheet.profit_share).value = quotient(sheet.profit_total, sheet.price_total, span);
        if (sheet.overhead_total == none) {
            line(sheet.profit_total).value = difference(sheet.price_total, sheet.cost_total, span);
            return;
        }
        line(sheet.overhead_total).value = overhead(span);
        line(sheet.contribution_total).value =
            difference(sheet.price_total, sheet.cost_total, span);
        line(sheet.contribution_share).value =
            quotient(sheet.contribution_total, sheet.price_total, span);
        line(sheet.profit_total).value =
            difference(sheet.contribution_total, sheet.overhead_total, span);
    }

  private:
    Line& line(LineId id) { return r_.sheet.lines[id]; }

    void cover_part(const ast::Text& title, std::uint32_t item,
                    const std::unordered_multimap<std::string_view, std::uint32_t>& parts,
                    std::vector<std::vector<std::uint32_t>>& items_of_part) {
        const auto [first, last] = parts.equal_range(title.text);
        for (auto part = first; part != last; ++part) {
            auto& items = items_of_part[part->second];
            if (items.empty() || items.back() != item) // an item may name a part twice
                items.push_back(item);
        }
        if (first != last)
            return;
        std::vector<std::string_view> titles;
        for (const Part& part : r_.sheet.parts)
            if (part.instance.empty() && !r_.diagnostics.full())
                titles.push_back(part.title);
        Diagnostic d = problem(Code::N208, fmt::format("no part named \"{}\"", title.text),
                               title.span, "not a part");
        for (const std::string_view near : near_names(title.text, titles))
            d.helps.push_back({fmt::format("did you mean \"{}\"?", near),
                               Edit{title.span, fmt::format("\"{}\"", near)}});
        if (d.helps.empty() && !titles.empty() && titles.size() <= 12)
            d.notes.push_back(fmt::format("the parts: {}", listed(titles)));
        r_.add(std::move(d));
    }

    NodeId sum(const std::vector<LineId>& lines, Span span) {
        std::vector<NodeId> args;
        for (const LineId id : lines)
            args.push_back(line_node(r_, id, line(id).name_span));
        return sum_of_nodes(args, span);
    }

    NodeId sum_of_nodes(const std::vector<NodeId>& args, Span span) {
        if (args.empty())
            return number_node(r_, 0, money_, span);
        Node node;
        node.op = Op::Sum;
        node.span = node.op_span = span;
        node.first_arg = static_cast<std::uint32_t>(r_.sheet.args.size());
        node.arg_count = static_cast<std::uint32_t>(args.size());
        r_.sheet.args.insert(r_.sheet.args.end(), args.begin(), args.end());
        return add_node(r_, node);
    }

    // What the steps for overhead add, over all prices.
    NodeId overhead(Span span) {
        std::vector<NodeId> added;
        for (const PriceItem& item : r_.sheet.prices) {
            LineId before = item.cost;
            for (const PriceStep& step : item.steps) {
                if (step.kind == ast::StepKind::Overhead)
                    added.push_back(difference(step.line, before, step.span));
                before = step.line;
            }
        }
        return sum_of_nodes(added, span);
    }

    NodeId difference(LineId a, LineId b, Span span) {
        return binary_node(r_, Op::Subtract, line_node(r_, a, span), line_node(r_, b, span), span,
                           span);
    }

    NodeId quotient(LineId a, LineId b, Span span) {
        return binary_node(r_, Op::Divide, line_node(r_, a, span), line_node(r_, b, span), span,
                           span);
    }

    // The sum after a step, from the sum before it. Spans point at the step's own text, except that
    // of its value.
    NodeId step_formula(const PriceItem& item, PriceStep& step, LineId before) {
        const Span span = step.span;
        const auto sum_before = [&] { return line_node(r_, before, span); };
        const auto two = [&](Op op, NodeId a, NodeId b) {
            return binary_node(r_, op, a, b, span, span);
        };
        if (!fits(item, step))
            return sum_before(); // reported, here or where its value went wrong
        switch (step.kind) {
        case ast::StepKind::Overhead:
        case ast::StepKind::Contingency:
        case ast::StepKind::Reserve:
        case ast::StepKind::Markup:
            return two(Op::Multiply, sum_before(),
                       two(Op::Add, number_node(r_, 1, one, span), step.value));
        case ast::StepKind::Margin:
            return two(Op::Divide, sum_before(),
                       two(Op::Subtract, number_node(r_, 1, one, span), step.value));
        case ast::StepKind::AtLeast: {
            const NodeId least =
                step.per_unit ? two(Op::Multiply, step.value, line_node(r_, item.quantity, span))
                              : step.value;
            return call(Op::Max, sum_before(), least, span);
        }
        case ast::StepKind::RoundUp:
        case ast::StepKind::RoundTo: {
            const Op op = step.kind == ast::StepKind::RoundUp ? Op::Ceil : Op::Round;
            if (!step.per_unit)
                return two(op, sum_before(), step.value);
            const NodeId rate = two(Op::Divide, sum_before(), line_node(r_, item.quantity, span));
            return unless_nothing(
                item, sum_before(),
                two(Op::Multiply, two(op, rate, step.value), line_node(r_, item.quantity, span)),
                span);
        }
        }
        return sum_before();
    }

    // Of no acres there is no rate to round: the sum stays as it is.
    NodeId unless_nothing(const PriceItem& item, NodeId sum, NodeId rounded, Span span) {
        const Type& quantity = line(item.quantity).type;
        Node node;
        node.op = Op::When;
        node.span = node.op_span = span;
        node.a = binary_node(r_, Op::Equal, line_node(r_, item.quantity, span),
                             number_node(r_, 0, quantity.unit, span), span, span);
        node.b = sum;
        node.c = rounded;
        return add_node(r_, node);
    }

    NodeId call(Op op, NodeId a, NodeId b, Span span) {
        Node node;
        node.op = op;
        node.span = node.op_span = span;
        node.first_arg = static_cast<std::uint32_t>(r_.sheet.args.size());
        node.arg_count = 2;
        r_.sheet.args.push_back(a);
        r_.sheet.args.push_back(b);
        return add_node(r_, node);
    }

    // Whether the value is of a unit that the step can use; tells at least and round whether it is
    // per unit.
    bool fits(const PriceItem& item, PriceStep& step) {
        const Type type = type_of(r_.sheet, step.value);
        if (type.kind == Type::Kind::Poison)
            return r_.sheet.nodes[step.value].op != Op::Missing;
        const bool share = step.kind <= ast::StepKind::Margin;
        std::string wanted = "a share, for example 15 %";
        if (share) {
            if (type.kind == Type::Kind::Number && type.unit.is_plain())
                return true;
        } else {
            wanted = "money";
            if (type.kind == Type::Kind::Number && type.unit.dim == money_.dim)
                return true;
            if (item.rate != none) {
                const Type& rate = r_.sheet.lines[item.rate].type;
                if (rate.kind == Type::Kind::Poison)
                    return false;
                wanted = fmt::format("money, or money per unit: {}",
                                     r_.sheet.lines[item.rate].unit_text);
                step.per_unit = type.kind == Type::Kind::Number && type.unit.dim == rate.unit.dim;
                if (step.per_unit)
                    return true;
            }
        }
        const Span value = r_.sheet.nodes[step.value].span;
        std::string name(step_names[static_cast<std::size_t>(step.kind)]);
        std::replace(name.begin(), name.end(), '_', ' ');
        Diagnostic d = problem(Code::U311, fmt::format("the step `{}` needs {}", name, wanted),
                               value, unit_of(type));
        const Node& node = r_.sheet.nodes[step.value];
        const std::string_view text = r_.sources.text(value);
        if (!share && node.op == Op::Number && type.kind == Type::Kind::Number &&
            type.unit == one) {
            const std::string money = fmt::format("{}{}", r_.sheet.units.money(), text);
            d.helps.push_back({fmt::format("write  {}", money), Edit{value, money}});
        } else if (share && type.kind == Type::Kind::Number && type.unit.dim.exponent[Money] == 1) {
            d.helps.push_back({"money that is added is a cost: write it as one, with  cost NAME : "
                               "UNIT = RATE over QUANTITY",
                               std::nullopt});
        }
        r_.add(std::move(d));
        return false;
    }

    std::string unit_of(const Type& type) const {
        if (type.kind == Type::Kind::Truth)
            return "a condition";
        if (type.kind == Type::Kind::Choice)
            return "a choice";
        return type.unit.is_plain() ? "a plain number" : r_.sheet.units.text(type.unit);
    }

    Resolution& r_;
    Unit money_;
    Where where_;
};

} // namespace

void fill_prices(Resolution& r) {
    const std::vector<PriceStatement> statements = price_statements(r);
    PriceFiller filler(r);
    filler.cover(statements);
    for (std::size_t i = 0; i < statements.size() && !r.full; ++i)
        filler.item(statements[i], r.sheet.prices[i]);
    if (r.sheet.cost_total != none && !r.full)
        filler.totals(totals_span(r, statements));
}

} // namespace acre::lang::resolving
