// Declarations: what there is and of which type, before any formula is read.
#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/resolution.h"
#include "lang/units/number_text.h"

namespace acre::lang::resolving {
namespace {

std::string text_or_empty(const std::optional<ast::Text>& text) {
    return text ? std::string(text->text) : std::string();
}

// The unit of a number as it stands in the text; nullptr for anything else.
const ast::Number* literal(const ast::Module& module, ast::ExprId expr) {
    if (expr >= module.exprs.size())
        return nullptr;
    if (const auto* negate = std::get_if<ast::Negate>(&module.exprs[expr].node))
        return literal(module, negate->of);
    return std::get_if<ast::Number>(&module.exprs[expr].node);
}

// Lines of one instance, statement by statement, a part `each` of a list once for each entry.
class LineMaker {
  public:
    LineMaker(Resolution& r, std::uint32_t instance, std::vector<ChoiceId>& anonymous)
        : r_(r),
          instance_(r.instances[instance]),
          scope_(r.scopes[r.instances[instance].module]),
          module_(*scope_.module),
          anonymous_(anonymous) {}

    void run() {
        for (const Run& run : scope_.runs) {
            instance_.first_lines.push_back(static_cast<LineId>(r_.sheet.lines.size()));
            const std::uint32_t copies = r_.copies(run.of, instance_.at);
            for (std::uint32_t c = 0; c < copies && !r_.full; ++c) {
                const Entries at = r_.copy(run.of, instance_.at, c);
                prefix_ = instance_.prefix + r_.entry_prefix(run.of, instance_.at, at);
                place_ = r_.place_of(at);
                for (std::size_t s = run.first; s < run.last; ++s)
                    make(s);
            }
        }
    }

  private:
    void make(std::size_t s) {
        const Symbol& symbol = scope_.symbols[s];
        const ast::Statement& statement = module_.statements[symbol.statement];
        Line line;
        line.name_span = symbol.span;
        line.span = statement.span;
        if (symbol.part != none)
            line.part = instance_.first_part + symbol.part;
        line.entry = place_;
        name_ = prefix_;
        name_.append(symbol.name);
        switch (symbol.kind) {
        case Symbol::Kind::Given:
            return make_given(s, std::get<ast::Given>(statement.node), std::move(line));
        case Symbol::Kind::Line:
            return make_line(std::get<ast::Line>(statement.node), std::move(line));
        case Symbol::Kind::Cost:
            return make_cost(std::get<ast::Cost>(statement.node), std::move(line));
        case Symbol::Kind::Event:
            return make_event(std::get<ast::Event>(statement.node), std::move(line));
        }
    }

    LineId add(Line line, std::string_view suffix, Role role) {
        line.name = name_;
        line.name.append(suffix);
        line.role = role;
        const Span span = line.name_span;
        r_.name_bytes += line.name.size() + line.label.size() + line.because.size();
        if (r_.name_bytes > max_sheet_name_bytes)
            r_.too_many(
                "bytes of names and labels", max_sheet_name_bytes, span,
                {"every used model and every entry of a list repeats them: shorten the labels"});
        const LineId there = r_.sheet.find(line.name);
        if (there != none)
            report_twice(r_.sources, r_.diagnostics,
                         fmt::format("two lines would be called `{}`", line.name), span,
                         r_.sheet.lines[there].name_span, {},
                         span.file == r_.sheet.lines[there].name_span.file ? Code::N202
                                                                           : Code::N210);
        return r_.sheet.add(std::move(line));
    }

    void declare(Line& line, const ast::UnitText& unit) {
        line.type = r_.declared_type(unit);
        if (line.type.kind == Type::Kind::Number)
            line.unit_text = full_text(unit);
    }

    void make_given(std::size_t s, const ast::Given& given, Line line) {
        line.label = text_or_empty(given.label);
        line.may_be_negative = given.may_be_negative;
        line.given = static_cast<std::uint32_t>(r_.sheet.givens.size());
        if (!given.options.empty())
            line.type = {Type::Kind::Choice, anonymous_choice(s, given), {}};
        else if (given.unit)
            declare(line, *given.unit);
        else
            declare_by_literal(line, given);
        Given out;
        out.chosen = given.chosen;
        out.of_it = given.of_it;
        out.shape = given.shape;
        if (given.within)
            out.within_span = given.within->span;
        if (given.swing) {
            out.swing_span = given.swing->span;
            if (takes_no_range(given, line.type))
                refuse_range(given);
        }
        out.line = add(std::move(line), {}, Role::Given);
        r_.sheet.givens.push_back(std::move(out));
    }

    void refuse_range(const ast::Given& given) {
        const char* const word = given.chosen ? "choose" : "swing";
        r_.add(problem(Code::S123,
                       fmt::format("`{}` is a choice: its options are the range", given.name.text),
                       given.swing->span, "no range beside them",
                       {fmt::format("delete  {}  and its range", word)}));
    }

    void declare_by_literal(Line& line, const ast::Given& given) {
        const ast::Number* number = literal(module_, given.value);
        if (number == nullptr) {
            line.type.kind = Type::Kind::Poison;
            Diagnostic d = problem(
                Code::S105, fmt::format("the unit of `{}` is missing", given.name.text),
                given.name.span, {},
                {fmt::format("write it after the name: given {} : UNIT = …", given.name.text)});
            r_.add(std::move(d));
        } else if (number->unit) {
            declare(line, *number->unit);
        } else {
            line.unit_text = std::string("1");
        }
    }

    // One type for the statement, whatever the number of instances: values of two instances
    // compare.
    ChoiceId anonymous_choice(std::size_t s, const ast::Given& given) {
        if (anonymous_.empty())
            anonymous_.assign(scope_.symbols.size(), none);
        if (anonymous_[s] == none)
            anonymous_[s] = r_.add_choice(given.name, given.options);
        return anonymous_[s];
    }

    void make_line(const ast::Line& ast, Line line) {
        line.label = text_or_empty(ast.label);
        line.because = text_or_empty(ast.because);
        line.may_be_negative = ast.may_be_negative;
        declare(line, ast.unit);
        add(std::move(line), {}, Role::Line);
    }

    void make_cost(const ast::Cost& ast, Line line) {
        line.may_be_negative = ast.may_be_negative;
        Line rate = line;
        rate.label = text_or_empty(ast.label);
        rate.because = text_or_empty(ast.because);
        declare(rate, ast.unit);
        Cost cost;
        cost.part = instance_.owner == none ? line.part : instance_.join;
        cost.rate = add(std::move(rate), {}, Role::CostRate);
        Line quantity = line;
        quantity.type.kind = Type::Kind::Poison; // until type_quantities
        cost.quantity = add(std::move(quantity), ".quantity", Role::CostQuantity);
        cost.amount = add(money_line(std::move(line)), ".amount", Role::CostAmount);
        r_.sheet.costs.push_back(cost);
    }

    void make_event(const ast::Event& ast, Line line) {
        Line count = line;
        count.label = text_or_empty(ast.label);
        count.unit_text = std::string("1");
        Event event;
        event.count = add(std::move(count), {}, Role::EventCount);
        event.amount = add(money_line(line), ".amount", Role::EventAmount);
        event.money = add(money_line(std::move(line)), ".money", Role::EventMoney);
        r_.sheet.events.push_back(event);
    }

    Line money_line(Line line) const {
        line.type = {Type::Kind::Number, 0, *r_.sheet.units.find("$")};
        line.unit_text = std::string("$");
        return line;
    }

    Resolution& r_;
    Instance& instance_;
    const Scope& scope_;
    const ast::Module& module_;
    std::vector<ChoiceId>& anonymous_;
    std::string prefix_, name_;
    std::uint32_t place_ = none; // entry of the sheet
};

} // namespace

void Resolution::too_many(std::string_view what, std::size_t limit, Span span,
                          std::vector<std::string> helps) {
    if (!full)
        add(problem(Code::N214,
                    fmt::format("the job comes to more than {} {}",
                                number_text(static_cast<double>(limit)), what),
                    span, "one too many", std::move(helps)));
    full = true;
}

Type Resolution::declared_type(const ast::UnitText& text) {
    if (!text.dollar) {
        if (const ChoiceId choice = find_choice(text.text); choice != none)
            return {Type::Kind::Choice, choice, {}};
    }
    if (const Unit* unit = units.read(text))
        return {Type::Kind::Number, 0, *unit};
    return {Type::Kind::Poison, 0, {}};
}

void declare_lines(Resolution& r) {
    std::size_t lines = 0;
    for (const Instance& instance : r.instances)
        for (const Run& run : r.scopes[instance.module].runs)
            lines += std::size_t{run.lines} * r.copies(run.of, instance.at);
    if (lines > max_sheet_lines) {
        r.too_many(
            "lines", max_sheet_lines, r.scopes[r.program.model].module->title.span,
            {"every `use … with` and every entry of a list adds its own copy: use fewer of them"});
        return;
    }
    r.sheet.lines.reserve(lines + 64);
    r.sheet.line_names.reserve(lines + 64);
    std::vector<std::vector<ChoiceId>> anonymous(r.scopes.size());
    for (std::uint32_t i = 0; i < r.instances.size() && !r.full; ++i)
        LineMaker(r, i, anonymous[r.instances[i].module]).run();
}

} // namespace acre::lang::resolving
