// Formulas of all lines, each in the instance and entry it stands in; requirements, cautions,
// correlations.
#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

Span expr_span(const ast::Module& module, ast::ExprId id, Span otherwise) {
    return id < module.exprs.size() ? module.exprs[id].span : otherwise;
}

Diagnostic not_drawn(const ast::Word& name, const Given& given) {
    Diagnostic d = problem(
        Code::I620,
        fmt::format("`{}` is chosen before work starts, so risk does not draw it", name.text),
        name.span, "nothing to correlate",
        {"delete this line, or write  swing  for  choose  if nobody knows the value"});
    d.others.push_back({given.swing_span, "chosen from"});
    return d;
}

class Filler {
  public:
    Filler(Resolution& r, std::uint32_t instance, const Instance& here)
        : r_(r),
          instance_(instance),
          here_(here),
          scope_(r.scopes[here.module]),
          module_(*scope_.module) {}

    // In the order in which declare_lines made them.
    void run() {
        for (std::size_t i = 0; i < scope_.runs.size(); ++i) {
            const Run& run = scope_.runs[i];
            LineId line = here_.first_lines[i];
            for (std::uint32_t c = 0; c < r_.copies(run.of, here_.at) && !r_.full; ++c) {
                const Where where = r_.where(instance_, r_.copy(run.of, here_.at, c));
                for (std::size_t s = run.first; s < run.last && !r_.full; ++s) {
                    fill(where, scope_.symbols[s], line);
                    line += scope_.symbols[s].line_count();
                }
            }
        }
        for (const ast::Statement& statement : module_.statements)
            conditions(statement);
    }

  private:
    Line& line(LineId id) { return r_.sheet.lines[id]; }

    void fill(const Where& where, const Symbol& symbol, LineId id) {
        const ast::Statement& statement = module_.statements[symbol.statement];
        switch (symbol.kind) {
        case Symbol::Kind::Given:
            return given(where, std::get<ast::Given>(statement.node), id);
        case Symbol::Kind::Line: {
            const auto& ast = std::get<ast::Line>(statement.node);
            line(id).value = build(r_, where, ast.value, choice_of(line(id).type));
            return;
        }
        case Symbol::Kind::Cost:
            return cost(where, std::get<ast::Cost>(statement.node), statement.span, id);
        case Symbol::Kind::Event:
            return event(where, std::get<ast::Event>(statement.node), statement.span, id);
        }
    }

    void given(const Where& where, const ast::Given& ast, LineId id) {
        Given& given = r_.sheet.givens[line(id).given];
        NodeId value = none;
        if (!ast.options.empty()) {
            Node node;
            node.op = Op::Choice;
            node.span = node.op_span = ast.options.front().span;
            node.type = line(id).type;
            value = add_node(r_, node);
        } else if (ast.value != ast::none) {
            value = build(r_, where, ast.value, choice_of(line(id).type));
        }
        if (value != none)
            given.settings.push_back(
                {Layer::Model, line(id).span, value,
                 ast.because ? std::string(ast.because->text) : std::string()});
        if (ast.within) {
            given.within_low = build(r_, where, ast.within->low);
            given.within_high = build(r_, where, ast.within->high);
        }
        if (ast.swing && !takes_no_range(ast, line(id).type)) {
            given.swing_low = build(r_, where, ast.swing->low);
            given.swing_high = build(r_, where, ast.swing->high);
        }
    }

    // NAME, NAME.quantity and NAME.amount: their product, drawn over what makes it up.
    void cost(const Where& where, const ast::Cost& ast, Span span, LineId id) {
        const Span rate = expr_span(module_, ast.rate, span);
        const Span quantity = expr_span(module_, ast.quantity, span);
        line(id).value = build(r_, where, ast.rate);
        line(id + 1).value = build(r_, where, ast.quantity);
        line(id + 2).value = product(id, rate, id + 1, quantity);
    }

    void event(const Where& where, const ast::Event& ast, Span span, LineId id) {
        const Span money = expr_span(module_, ast.money, span);
        const NodeId rate = build(r_, where, ast.rate);
        const NodeId quantity = build(r_, where, ast.quantity);
        const Span rate_span = expr_span(module_, ast.rate, span);
        const Span quantity_span = expr_span(module_, ast.quantity, span);
        line(id).value =
            binary_node(r_, Op::Multiply, rate, quantity, join(rate_span, quantity_span),
                        between(rate_span, quantity_span));
        line(id + 1).value = product(id, join(rate_span, quantity_span), id + 2, money);
        line(id + 2).value = build(r_, where, ast.money);
    }

    static Span between(Span a, Span b) {
        return a.end <= b.begin ? Span{a.file, a.end, b.begin} : join(a, b);
    }

    NodeId product(LineId a, Span a_span, LineId b, Span b_span) {
        const NodeId left = line_node(r_, a, a_span);
        const NodeId right = line_node(r_, b, b_span);
        return binary_node(r_, Op::Multiply, left, right, join(a_span, b_span),
                           between(a_span, b_span));
    }

    void conditions(const ast::Statement& statement) {
        const auto* require = std::get_if<ast::Require>(&statement.node);
        const auto* caution = std::get_if<ast::Caution>(&statement.node);
        const auto* correlate = std::get_if<ast::Correlate>(&statement.node);
        if (require == nullptr && caution == nullptr && correlate == nullptr)
            return;
        const Lists& of = scope_.lists_of(statement);
        for (std::uint32_t c = 0; c < r_.copies(of, here_.at) && !r_.full; ++c) {
            const Where where = r_.where(instance_, r_.copy(of, here_.at, c));
            if (correlate != nullptr) {
                relate(where, *correlate);
                continue;
            }
            if (r_.sheet.requires_.size() + r_.sheet.cautions.size() == max_conditions)
                return r_.too_many("requirements and cautions", max_conditions, statement.span);
            Condition condition;
            const ast::ExprId expr = require != nullptr ? require->condition : caution->condition;
            if (expr != ast::none)
                condition.condition = build(r_, where, expr);
            if (require != nullptr && require->costs != ast::none)
                condition.costs = build(r_, where, require->costs);
            condition.message = require != nullptr ? require->message.text : caution->message.text;
            condition.span = statement.span;
            condition.entry = r_.place_of(where.at);
            (require != nullptr ? r_.sheet.requires_ : r_.sheet.cautions)
                .push_back(std::move(condition));
        }
    }

    void relate(const Where& where, const ast::Correlate& ast) {
        Correlation correlation;
        correlation.first = given_of(where, ast.first);
        correlation.second = given_of(where, ast.second);
        correlation.strength = build(r_, where, ast.strength);
        if (r_.sheet.correlations.size() == max_correlations)
            return r_.too_many("correlations", max_correlations, ast.first.span);
        if (correlation.first != none && correlation.second != none)
            r_.sheet.correlations.push_back(correlation);
    }

    std::uint32_t given_of(const Where& where, const ast::Word& name) {
        const Found found = look_up(r_, where, name.text);
        if (found.state == Found::State::Line && !r_.open(found.of, where.at).empty()) {
            r_.add(problem(
                Code::N215,
                fmt::format("`{}` has a value for each {}; correlate it inside its own part",
                            name.text, list_name(r_, found, where)),
                name.span, "one value for each", {"move the correlation into that part"}));
            return none;
        }
        if (found.state == Found::State::Line) {
            if (const std::uint32_t given = line(found.line).given; given != none) {
                if (r_.sheet.givens[given].chosen)
                    r_.add(not_drawn(name, r_.sheet.givens[given]));
                return given;
            }
            Diagnostic d =
                problem(Code::I606,
                        fmt::format("`{}` is computed; only givens can be correlated", name.text),
                        name.span, "not a given");
            d.others.push_back({line(found.line).name_span, "defined here"});
            r_.add(std::move(d));
            return none;
        }
        if (found.state == Found::State::Absent && !lost_to_syntax(r_, name.text, name.span.file)) {
            Diagnostic d = problem(Code::N201, fmt::format("no given named `{}`", name.text),
                                   name.span, "not defined");
            const std::vector<std::string> names = r_.diagnostics.full()
                                                       ? std::vector<std::string>{}
                                                       : names_in_sight(r_, instance_, true);
            const std::vector<std::string_view> found_near =
                near_names(name.text, std::vector<std::string_view>(names.begin(), names.end()));
            for (const std::string_view near : found_near)
                d.helps.push_back({fmt::format("did you mean `{}`?", near),
                                   near_edit(name.text, found_near, near, name.span)});
            r_.add(std::move(d));
        }
        return none;
    }

    Resolution& r_;
    std::uint32_t instance_;
    const Instance& here_;
    const Scope& scope_;
    const ast::Module& module_;
};

// About as many nodes as the texts have, in every instance and entry; more come with prices and
// unit conversions. A vector of nodes is large: growing it by copies costs more than all else here.
void reserve_nodes(Resolution& r) {
    std::size_t nodes = 0;
    for (const Instance& instance : r.instances) {
        const Scope& scope = r.scopes[instance.module];
        std::size_t once = 1; // lines
        std::size_t all = 1;
        for (const Run& run : scope.runs) {
            once += run.lines;
            all += std::size_t{run.lines} * r.copies(run.of, instance.at);
        }
        nodes +=
            scope.module->exprs.size() * all / once + 3 * r.sheet.costs.size() / r.instances.size();
    }
    r.sheet.nodes.reserve(std::min<std::size_t>(nodes + nodes / 8 + 64, max_sheet_nodes));
}

} // namespace

void fill_lines(Resolution& r) {
    reserve_nodes(r);
    for (std::uint32_t i = 0; i < r.instances.size() && !r.full; ++i)
        Filler(r, i, r.instances[i]).run();
}

} // namespace acre::lang::resolving
