#include "lang/check/resolve/money.h"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "lang/check/own_money.h"
#include "lang/check/resolve/report.h"

namespace acre::lang::resolving {
namespace {

constexpr std::string_view default_code = "USD"; // of a model that states no money

// A model by itself is in the money that it states.
bool alone(const Program& program) {
    return program.firm == none && program.job == none && program.season == none;
}

std::string_view stated_by(const ast::Module& module) {
    for (const ast::Statement& statement : module.statements)
        if (const auto* money = std::get_if<ast::Money>(&statement.node))
            return money->code.text;
    return {};
}

class MoneyCheck {
  public:
    MoneyCheck(Resolution& r, const ast::Module& module)
        : r_(r),
          module_(module),
          money_(r.sheet.firm.money),
          is_model_(module.kind == FileKind::Model || module.kind == FileKind::Library) {}

    void run() {
        for (const ast::Statement& statement : module_.statements)
            if (const auto* money = std::get_if<ast::Money>(&statement.node))
                if (states(*money))
                    return; // its figures are all in that money
        skip_examples();
        for (ast::ExprId id = 0; id < module_.exprs.size(); ++id)
            figure(module_.exprs[id]);
        for (const ast::Statement& statement : module_.statements)
            std::visit([this](const auto& node) { units_of(node); }, statement.node);
        if (unstated_)
            unstated(*unstated_);
    }

  private:
    // True when it is other money than the firm's.
    bool states(const ast::Money& money) {
        stated_ = true;
        if (money.code.text == money_.code || !is_money_code(money.code.text))
            return false;
        Diagnostic d = problem(Code::U314,
                               fmt::format("{} has figures in {}; the money of this firm is {}",
                                           name_of_file(), money.code.text, money_.code),
                               money.code.span, "other money", {how_to_copy()});
        r_.add(std::move(d));
        return true;
    }

    std::string name_of_file() const { return r_.sources.file(module_.file).name(); }
    std::string how_to_copy() const {
        return fmt::format("copy it, set its figures, and write  money {}  under its head; nothing "
                           "is converted",
                           money_.code);
    }

    // The figures of an example, and the bounds inside which a function was tried, reach no price:
    // the formula is the same in all money.
    void skip_examples() {
        for (const ast::Statement& statement : module_.statements) {
            const auto* define = std::get_if<ast::Define>(&statement.node);
            if (define == nullptr)
                continue;
            for (const ast::Example& example : define->examples)
                examples_.push_back(example.span);
            for (const auto* ranges : {&define->tested, &define->limits})
                for (const ast::ParameterRange& range : *ranges)
                    examples_.push_back(range.range.span);
        }
    }
    bool in_example(Span span) const {
        return std::any_of(
            examples_.begin(), examples_.end(),
            [&](const Span& e) { return e.begin <= span.begin && span.end <= e.end; });
    }

    void figure(const ast::Expr& expr) {
        const auto* number = std::get_if<ast::Number>(&expr.node);
        if (number == nullptr || !number->unit || number->value == 0)
            return;
        const ast::UnitText& unit = *number->unit;
        const std::string_view word = money_of_number(unit);
        if (!word.empty() && !is_own(word)) {
            if (is_plain_default(word))
                note(expr.span);
            else if (!in_example(expr.span))
                other(word, expr.span);
        } else if (has_money(unit)) {
            note(expr.span);
        }
    }
    // Models are copied from firm to firm, so a `$` in one is a US dollar whatever the firm's sign:
    // a copy whose figures were not set anew must not pass for one that was.
    bool is_own(std::string_view word) const {
        return is_model_ && word == "$" ? money_.code == default_code : is_own_money(word, money_);
    }
    // A dollar of a model that states nothing: one error for all of them.
    bool is_plain_default(std::string_view word) const {
        return is_model_ && !stated_ && (word == "$" || word == default_code);
    }
    bool has_money(const ast::UnitText& unit) const {
        if (!is_model_ || stated_ || money_.code == default_code)
            return false;
        UnitError error;
        const std::optional<Unit> read =
            unit.text.empty() ? std::nullopt : read_unit(unit.text, r_.sheet.units, error);
        return unit.dollar || (read && read->dim.exponent[Money] != 0);
    }
    // The first figure of a model that states no money, where the firm has other than dollars.
    void note(Span span) {
        if (!unstated_ && money_.code != default_code && !in_example(span))
            unstated_ = span;
    }

    void other(std::string_view word, Span span) {
        const std::string_view code = code_of_money(word);
        if (is_model_ && !stated_ && r_.program.firm == none && code != default_code)
            return not_stated(code, span);
        Diagnostic d = problem(Code::U314,
                               fmt::format("`{}` is in {}; the money of this firm is {}",
                                           r_.sources.text(span), code, money_.code),
                               span, "other money");
        if (r_.program.firm == none && code != default_code)
            d.helps.push_back({fmt::format("nothing is converted; a firm that works in {0} says so "
                                           "once, in its own file:  money {0}",
                                           code),
                               std::nullopt});
        else
            d.helps.push_back(
                {fmt::format("the firm's file says  money {}  and nothing is converted: write the "
                             "figure in it, as in  {}",
                             money_.code, shown_here()),
                 std::nullopt});
        r_.add(std::move(d));
    }
    // A model by itself whose figures are in other money than dollars: one error for all of them.
    void not_stated(std::string_view code, Span span) {
        if (!std::exchange(said_not_stated_, true))
            r_.add(problem(
                Code::U314,
                fmt::format("`{}` is in {}, and the model does not say that its figures are",
                            r_.sources.text(span), code),
                span, "other money", {fmt::format("write  money {}  under its head", code)}));
    }
    std::string shown_here() const {
        const std::string_view word = money_.word();
        return is_money_code(word) ? fmt::format("40 {}/h", word) : fmt::format("{}40/h", word);
    }

    void unstated(Span span) {
        const std::string_view text = r_.sources.text(span);
        if (text.find(money_.code) != std::string_view::npos ||
            (money_.word() != "$" && text.find(money_.word()) != std::string_view::npos))
            return r_.add(problem(
                Code::U314,
                fmt::format("`{}` is in {}, and the model does not say that its figures are", text,
                            money_.code),
                span, "a figure of money",
                {fmt::format("write  money {}  under its head", money_.code)}));
        r_.add(problem(Code::U314,
                       fmt::format("{} has figures in {}; the money of this firm is {}",
                                   name_of_file(), default_code, money_.code),
                       span, "a figure of money", {how_to_copy()}));
    }

    // Units that stand by themselves: `: CHF/h`.
    void declared(const ast::UnitText& unit) {
        const std::string_view word = money_of_unit(unit.text);
        if (!word.empty() && !is_own(word))
            other(word, unit.span);
    }
    template <class Node> void units_of(const Node&) {}
    void units_of(const ast::Given& given) {
        if (given.unit)
            declared(*given.unit);
    }
    void units_of(const ast::Line& line) { declared(line.unit); }
    void units_of(const ast::Cost& cost) { declared(cost.unit); }
    void units_of(const ast::UnitDefinition& unit) { declared(unit.unit); }
    void units_of(const ast::Table& table) {
        declared(table.parameter.type);
        declared(table.unit);
        const bool rows = std::any_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
            const auto* y = std::get_if<ast::Number>(&module_.exprs[row.y].node);
            return y == nullptr || y->value != 0;
        });
        if (rows && has_money(table.unit))
            note(table.unit.span);
        // Its rows are bare numbers: they are in dollars as any figure with a `$` is.
        if (rows && stated_ && money_.code != default_code && money_of_number(table.unit) == "$")
            other("$", table.unit.span);
    }
    void units_of(const ast::Define& define) {
        declared(define.type);
        for (const ast::Parameter& parameter : define.parameters)
            declared(parameter.type);
        for (const ast::Line& local : define.locals)
            declared(local.unit);
    }

    Resolution& r_;
    const ast::Module& module_;
    const Currency& money_;
    bool is_model_;
    bool stated_ = false, said_not_stated_ = false;
    std::vector<Span> examples_;
    std::optional<Span> unstated_;
};

Firm firm_of(const Resolution& r, const ast::Module& module) {
    Firm firm;
    firm.name = module.title.text;
    firm.file = r.sources.file(module.file).name();
    for (const ast::Statement& statement : module.statements) {
        if (const auto* money = std::get_if<ast::Money>(&statement.node)) {
            firm.money = {std::string(money->code.text), std::string(money->sign), money->step};
            if (firm.money.sign.empty())
                firm.money.sign = firm.money.code;
        } else if (const auto* word = std::get_if<ast::PageWord>(&statement.node)) {
            firm.words.emplace_back(word->name.text, word->text.text);
        }
    }
    return firm;
}

} // namespace

void take_firm(Resolution& r) {
    if (r.program.firm != none)
        r.sheet.firm = firm_of(r, r.program.modules[r.program.firm]);
    else if (const std::string_view code = stated_by(r.program.modules[r.program.model]);
             alone(r.program) && is_money_code(code) && code != default_code)
        r.sheet.firm.money = {std::string(code), std::string(code), 1};
    r.sheet.units.write_money(r.sheet.firm.money.word());
    for (std::uint32_t i = 0; i < r.program.modules.size(); ++i)
        if (i != r.program.firm)
            check_money(r, i);
}

void check_money(Resolution& r, std::uint32_t module) {
    MoneyCheck(r, r.program.modules[module]).run();
}

void say_units_in_own_money(Sheet& sheet) {
    const bool dollars = sheet.units.money() == "$";
    const auto other = [](char c) { return (c >= 'A' && c <= 'Z') || (c & 0x80) != 0; };
    const auto say = [&](std::string& text) { // most texts have no money but `$`
        if (!dollars || std::any_of(text.begin(), text.end(), other))
            text = sheet.units.in_own_money(text);
    };
    for (Line& line : sheet.lines)
        say(line.unit_text);
    for (Table& table : sheet.tables) {
        say(table.parameter_text);
        say(table.result_text);
    }
    for (Function& function : sheet.functions) {
        say(function.type_text);
        for (std::string& text : function.parameter_texts)
            say(text);
    }
}

} // namespace acre::lang::resolving
