#include "lang/syntax/formulas.h"

#include <array>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "lang/syntax/parse.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/syntax_error.h"
#include "lang/syntax/word_checks.h"
#include "lang/syntax/words.h"
#include "lang/units/clock.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

bool is_blank_or_line_end(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

ast::BinaryOp binary_of(std::string_view sign) {
    static constexpr auto signs = std::to_array<std::string_view>({
#define ACRE_PREFIX(...)
#define ACRE_BINARY(op, sign, ...) sign,
#define ACRE_FUNCTION(...)
#include "lang/syntax/operations.def"
    });
    return static_cast<ast::BinaryOp>(std::find(std::begin(signs), std::end(signs), sign) -
                                      std::begin(signs));
}

[[noreturn]] void too_deep(Span span, std::string title, std::string help) {
    throw SyntaxError{
        {Code::S109, std::move(title), {span, "too deep here"}, {}, {}, {{std::move(help), {}}}}};
}

} // namespace

void Formulas::begin_statement(std::string_view text) {
    statement_end_ = text.data() + text.size();
    values_.clear();
    signs_.clear();
    brackets_.clear();
    calls_.clear();
    arms_.clear();
    nesting_ = 0;
    last_literal_ = ast::none;
    first_expr_ = module_.exprs.size();
    first_arg_ = module_.args.size();
    first_each_ = module_.eaches.size();
}

void Formulas::drop_statement() {
    module_.exprs.erase(module_.exprs.begin() + static_cast<std::ptrdiff_t>(first_expr_),
                        module_.exprs.end());
    module_.args.resize(first_arg_);
    module_.eaches.erase(module_.eaches.begin() + static_cast<std::ptrdiff_t>(first_each_),
                         module_.eaches.end());
    depths_.resize(first_expr_);
    values_.clear();
}

Span Formulas::span(std::string_view text) const {
    const auto begin = static_cast<std::uint32_t>(text.data() - base_);
    return {module_.file, begin, begin + static_cast<std::uint32_t>(text.size())};
}

void Formulas::push(const ast::Expr& expr, std::uint32_t depth) {
    if (depth > max_formula_depth)
        too_deep(
            expr.span,
            fmt::format("the formula is more than {} levels deep", number_text(max_formula_depth)),
            "move parts of it to lines of their own");
    values_.push_back(static_cast<ast::ExprId>(module_.exprs.size()));
    module_.exprs.push_back(expr);
    depths_.push_back(static_cast<std::uint16_t>(depth));
}

ast::ExprId Formulas::take() {
    const ast::ExprId id = values_.back();
    values_.pop_back();
    return id;
}

void Formulas::enter(std::string_view text) {
    if (++nesting_ > max_nesting)
        too_deep(span(text),
                 fmt::format("parentheses, conditions or signs are nested more than {} deep",
                             max_nesting),
                 "move the inner parts to lines of their own");
}

void Formulas::number(std::string_view text) {
    const char* last = text.data() + text.size();
    const std::string_view next(last, static_cast<std::size_t>(statement_end_ - last));
    push({span(text), ast::Number{read_number(text, next, span(text)), {}}}, 1);
    last_literal_ = values_.back();
}

void Formulas::clock(std::string_view text) {
    const char* last = text.data() + text.size();
    const std::string_view next(last, static_cast<std::size_t>(statement_end_ - last));
    push({span(text),
          ast::Number{read_clock(text, next, span(text)), ast::UnitText{clock_unit, span(text)}}},
         1);
    last_literal_ = values_.back();
}

void Formulas::dollar(std::string_view text) {
    ast::Expr& expr = module_.exprs.back();
    expr.span = span(text);
    const std::string_view sign = text.substr(0, money_sign_size(text));
    std::get<ast::Number>(expr.node).unit = ast::UnitText{{}, span(sign), true, sign};
    const char* last = text.data() + text.size();
    text.remove_prefix(sign.size());
    check_whole_money(sign, text, {last, static_cast<std::size_t>(statement_end_ - last)},
                      span(text));
}

void Formulas::unit_of_number(std::string_view text) {
    ast::Expr& expr = module_.exprs.back();
    auto& number = std::get<ast::Number>(expr.node);
    const std::string_view sign = number.unit ? number.unit->sign : std::string_view{};
    number.unit = ast::UnitText{text, span(text), number.unit.has_value(), sign};
    expr.span.end = span(text).end;
}

void Formulas::name(std::string_view text) {
    push({span(text), ast::Name{text}}, 1);
}

void Formulas::is(std::string_view choice, bool negated) {
    const ast::ExprId value = take();
    const Span whole = join(expr(value).span, span(choice));
    push({whole, ast::Is{value, {choice, span(choice)}, negated}}, depth(value) + 1);
}

void Formulas::sign(std::string_view text) {
    signs_.push_back({binary_of(text), span(text)});
}

// `8 ac /row_width` and `5/h` could be a unit or a division: say which.
void Formulas::division_sign(std::string_view text) {
    const char* const slash = text.data();
    const char* before = slash;
    while (is_blank_or_line_end(before[-1]))
        --before;
    const char* const behind = slash + 1;
    if (behind != statement_end_ && *behind == '/')
        return sign(text); // `//` breaks off at its second sign
    const bool blank_before = before != slash;
    const bool blank_behind = behind != statement_end_ && is_blank_or_line_end(*behind);
    const bool name_behind = behind != statement_end_ && is_letter(*behind);
    const ast::Expr* literal =
        last_literal_ < module_.exprs.size() ? &module_.exprs[last_literal_] : nullptr;
    if (literal != nullptr && base_ + literal->span.end == before) {
        const bool has_unit = std::get<ast::Number>(literal->node).unit.has_value();
        if ((blank_before != blank_behind && (has_unit || name_behind)) ||
            (!blank_before && !blank_behind && name_behind)) {
            Diagnostic d{Code::S107,
                         "unclear whether this `/` divides or belongs to a unit",
                         {span(text), ""},
                         {},
                         {},
                         {}};
            d.helps.push_back({"to divide, put a space on both sides of `/`", {}});
            const char* end = behind;
            while (end != statement_end_ && is_letter(*end))
                ++end;
            const std::string_view number(base_ + literal->span.begin,
                                          literal->span.end - literal->span.begin);
            if (has_unit)
                d.helps.push_back({"a unit has no spaces in it", {}});
            else if (end != behind)
                d.helps.push_back(
                    {fmt::format("for a rate, write  {} 1/{}", shortened(number),
                                 shortened({behind, static_cast<std::size_t>(end - behind)})),
                     {}});
            throw SyntaxError{std::move(d)};
        }
    }
    sign(text);
}

void Formulas::fold_binary() {
    const Sign s = signs_.back();
    signs_.pop_back();
    const ast::ExprId right = take();
    const ast::ExprId left = take();
    push({join(expr(left).span, expr(right).span), ast::Binary{s.op, s.span, left, right}},
         std::max(depth(left), depth(right)) + 1);
}

void Formulas::unary_sign(std::string_view text) {
    enter(text);
    signs_.push_back({ast::BinaryOp::Subtract, span(text)});
}

void Formulas::fold_negate() {
    const ast::ExprId of = take();
    const Span whole = join(signs_.back().span, expr(of).span);
    signs_.pop_back();
    leave();
    push({whole, ast::Negate{of}}, depth(of) + 1);
}

void Formulas::fold_not() {
    const ast::ExprId of = take();
    const Span whole = join(signs_.back().span, expr(of).span);
    signs_.pop_back();
    leave();
    push({whole, ast::Not{of}}, depth(of) + 1);
}

void Formulas::open_bracket(std::string_view text) {
    enter(text);
    brackets_.push_back(span(text).begin);
}

void Formulas::close_head() {
    leave();
    brackets_.pop_back();
}

void Formulas::close_bracket(std::string_view text) {
    module_.exprs[values_.back()].span = {module_.file, brackets_.back(), span(text).begin + 1};
    close_head();
}

void Formulas::open_call(std::string_view text) {
    open_bracket(text);
    const ast::ExprId name = take(); // always the newest expression: a call makes one node, not two
    calls_.push_back({{std::get<ast::Name>(expr(name).node).text, expr(name).span},
                      values_.size(),
                      ast::none,
                      0,
                      0});
    module_.exprs.pop_back();
    depths_.pop_back();
}

void Formulas::close_call(std::string_view text) {
    const Call call = calls_.back();
    calls_.pop_back();
    close_head();
    const auto first = static_cast<std::uint32_t>(module_.args.size());
    std::uint32_t deepest = 0;
    for (std::size_t i = call.first_value; i < values_.size(); ++i) {
        module_.args.push_back(values_[i]);
        deepest = std::max(deepest, depth(values_[i]));
    }
    const auto count = static_cast<std::uint32_t>(values_.size() - call.first_value);
    if (count > max_listed)
        check_count("values", count, max_listed, expr(values_[call.first_value + max_listed]).span);
    values_.resize(call.first_value);
    std::uint32_t plain = count;
    if (call.each != ast::none) {
        plain = static_cast<std::uint32_t>(call.first_row - call.first_value);
        std::uint32_t next = first + plain;
        for (ast::Row& row : module_.eaches[call.each].rows) {
            row.first_arg = next;
            next += row.arg_count;
        }
    }
    const Span whole{module_.file, call.function.span.begin, span(text).begin + 1};
    push({whole, ast::Call{call.function, first, plain, call.each}}, deepest + 1);
}

void Formulas::each(std::string_view list) {
    Call& call = calls_.back();
    call.each = static_cast<std::uint32_t>(module_.eaches.size());
    call.first_row = values_.size();
    module_.eaches.push_back({{list, span(list)}, {}});
}

void Formulas::open_row(std::string_view text) {
    open_bracket(text);
    calls_.back().row = values_.size();
}

void Formulas::close_row(std::string_view text) {
    const Call& call = calls_.back();
    std::vector<ast::Row>& rows = module_.eaches[call.each].rows;
    rows.push_back({0,
                    static_cast<std::uint32_t>(values_.size() - call.row),
                    {module_.file, brackets_.back(), span(text).begin + 1}});
    check_count("rows", rows.size(), max_listed, rows.back().span);
    close_head();
}

void Formulas::begin_when(std::string_view text, bool first) {
    enter(text);
    arms_.push_back({span(text).begin, first});
}

// The arms of one `when` form, last to first: each takes what follows it as its `otherwise`.
void Formulas::fold_when() {
    for (bool more = true; more;) {
        const ast::ExprId otherwise = take();
        const ast::ExprId then = take();
        const ast::ExprId condition = take();
        const Arm arm = arms_.back();
        arms_.pop_back();
        leave();
        more = !arm.first;
        const std::uint32_t deepest = std::max({depth(condition), depth(then), depth(otherwise)});
        push({{module_.file, arm.begin, expr(otherwise).span.end},
              ast::When{condition, then, otherwise}},
             deepest + 1);
    }
}

} // namespace acre::lang
