// Which lines a price makes: the cost covered, the sum after each step, the amount, the rate, and
// the totals.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/price_statements.h"
#include "lang/syntax/tokens.h"

namespace acre::lang::resolving {
namespace {

// "Ripping, 7 ft" is ripping_7_ft.
std::string item_name(std::string_view title) {
    std::string name;
    for (const char c : title) {
        const bool upper = c >= 'A' && c <= 'Z';
        const bool word = upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (word)
            name += upper ? static_cast<char>(c - 'A' + 'a') : c;
        else if (!name.empty() && name.back() != '_')
            name += '_';
    }
    while (!name.empty() && name.back() == '_')
        name.pop_back();
    if (name.empty())
        return "item";
    return name.front() >= '0' && name.front() <= '9' ? "item_" + name : name;
}

// "at least    minimum  # a note": with one blank where there are blanks, and no comment.
std::string on_one_line(std::string_view text) {
    const auto size = static_cast<std::uint32_t>(text.size());
    std::string line;
    std::uint32_t end = 0;
    for (Token token = next_solid_token(text, 0, size); token.kind != TokenKind::End;
         token = next_solid_token(text, token.end, size)) {
        line += token.begin > end && !line.empty() ? " " : "";
        line += token.in(text);
        end = token.end;
    }
    return line;
}

std::string per_text(std::string_view unit) {
    return unit.find_first_of("./") == std::string_view::npos ? fmt::format("$/{}", unit)
                                                              : fmt::format("$/({})", unit);
}

class Declarer {
  public:
    Declarer(Resolution& r) : r_(r), money_{Type::Kind::Number, 0, *r.sheet.units.find("$")} {}

    void item(const PriceStatement& statement) {
        const ast::Price& ast = *statement.ast;
        item_ = {};
        item_.title = ast.title.text;
        item_.name = item_name(ast.title.text);
        item_.span = statement.span;
        taken_told_ = false;
        steps_of_kind_.fill(0);
        item_.cost = add("cost", money_, "$", ast.title.span,
                         fmt::format("cost covered by {}", ast.title.text));
        Type per;
        if (ast.per) {
            per = r_.declared_type(*ast.per);
            item_.per_text = full_text(*ast.per);
            if (per.kind == Type::Kind::Choice) {
                r_.add(problem(
                    Code::U309,
                    fmt::format("a price needs a quantity, and `{}` is a choice", item_.per_text),
                    ast.per->span, "a choice"));
                per.kind = Type::Kind::Poison;
            }
            const Span span = ast.quantity < module().exprs.size()
                                  ? module().exprs[ast.quantity].span
                                  : ast.title.span;
            item_.quantity = add("quantity", per, item_.per_text, span,
                                 fmt::format("quantity of {}", ast.title.text));
        }
        for (const ast::Step& step : ast.steps) {
            PriceStep out{step.kind, none, none, false, step.span};
            out.line = add(step_name(step), money_, "$", step.span,
                           on_one_line(r_.sources.text(step.span)));
            item_.steps.push_back(out);
        }
        item_.amount =
            add("amount", money_, "$", ast.title.span, fmt::format("price of {}", ast.title.text));
        if (item_.quantity != none)
            item_.rate = add("rate", per_unit(per), per_text(item_.per_text), ast.title.span,
                             fmt::format("price of {} per {}", ast.title.text, item_.per_text));
        r_.sheet.prices.push_back(std::move(item_));
    }

    void totals(Span span) {
        item_ = {};
        role_ = Role::Total;
        Sheet& sheet = r_.sheet;
        sheet.cost_total = add("cost.total", money_, "$", span, "direct cost");
        if (sheet.prices.empty())
            return;
        sheet.price_total = add("price.total", money_, "$", span, "price");
        const auto first = std::find_if(sheet.prices.begin(), sheet.prices.end(),
                                        [](const PriceItem& i) { return i.quantity != none; });
        if (first != sheet.prices.end())
            sheet.price_per_unit =
                add("price.per_unit", per_unit(sheet.lines[first->quantity].type),
                    per_text(first->per_text), span,
                    fmt::format("price per {}, all in", first->per_text));
        const Type share{Type::Kind::Number, 0, *sheet.units.find("%")};
        const bool after_overhead = rules_of(sheet.notation).profit_after_overhead;
        if (after_overhead) {
            sheet.overhead_total = add("overhead.total", money_, "$", span, "overhead carried");
            sheet.contribution_total =
                add("contribution.total", money_, "$", span, "price less direct cost");
            sheet.contribution_share =
                add("contribution.share", share, "%", span, "contribution over price");
        }
        sheet.profit_total =
            add("profit.total", money_, "$", span,
                after_overhead ? "contribution less overhead" : "price less direct cost");
        sheet.profit_share = add("profit.share", share, "%", span, "profit over price");
    }

  private:
    const ast::Module& module() const { return r_.program.modules[r_.program.model]; }

    // "overhead"; the second of its kind is overhead_2.
    std::string step_name(const ast::Step& step) {
        const std::string_view name = step_names[static_cast<std::size_t>(step.kind)];
        const std::uint32_t count = ++steps_of_kind_[static_cast<std::size_t>(step.kind)];
        return count == 1 ? std::string(name) : fmt::format("{}_{}", name, count);
    }

    Type per_unit(const Type& per) const {
        if (per.kind == Type::Kind::Number)
            if (const std::optional<Unit> unit = divide(money_.unit, per.unit))
                return {Type::Kind::Number, 0, *unit};
        return {Type::Kind::Poison, 0, {}};
    }

    LineId add(std::string_view name, const Type& type, std::string unit, Span span,
               std::string label) {
        Line line;
        line.name = item_.name.empty() ? std::string(name) : fmt::format("{}.{}", item_.name, name);
        line.label = std::move(label);
        line.name_span = line.span = span;
        line.role = role_;
        line.type = type;
        line.unit_text = std::move(unit);
        const LineId there = r_.sheet.find(line.name);
        if (there != none && !taken_told_)
            report_twice(
                r_.sources, r_.diagnostics,
                fmt::format("two lines would be called `{}`", line.name), span,
                r_.sheet.lines[there].name_span,
                "the lines of a price are named after it: give one of the two another name");
        taken_told_ |= there != none;
        return r_.sheet.add(std::move(line));
    }

    Resolution& r_;
    Type money_;
    Role role_ = Role::PriceLine;
    bool taken_told_ = false; // once a price
    std::array<std::uint32_t, step_names.size()> steps_of_kind_{};
    PriceItem item_;
};

} // namespace

std::vector<PriceStatement> price_statements(const Resolution& r) {
    std::vector<PriceStatement> out;
    for (const ast::Statement& statement : r.program.modules[r.program.model].statements)
        if (const auto* price = std::get_if<ast::Price>(&statement.node))
            out.push_back({price, statement.span});
    return out;
}

Span totals_span(const Resolution& r, const std::vector<PriceStatement>& statements) {
    return statements.empty() ? r.program.modules[r.program.model].title.span
                              : statements.front().ast->title.span;
}

void declare_prices(Resolution& r) {
    const std::vector<PriceStatement> statements = price_statements(r);
    Declarer declarer(r);
    for (const PriceStatement& statement : statements)
        declarer.item(statement);
    if (!statements.empty() || !r.sheet.costs.empty())
        declarer.totals(totals_span(r, statements));
}

} // namespace acre::lang::resolving
