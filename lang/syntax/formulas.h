// Builds the expressions of a module from the bottom up, as the reader of a statement meets their
// pieces.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "lang/syntax/ast.h"

namespace acre::lang {

class Formulas {
  public:
    Formulas(ast::Module& module, const char* base) : module_(module), base_(base) {}

    // A new statement begins; what an unfinished one left behind is dropped.
    void begin_statement(std::string_view text);
    void drop_statement();

    // Pieces. A `text` is where the piece stands; the newest expression is the last of values().
    void number(std::string_view text); // S106
    void clock(std::string_view text);  // `19:30`
    void dollar(
        std::string_view text); // the newest number is money; `text` holds the sign and the number
    void unit_of_number(std::string_view text);
    void name(std::string_view text);
    void is(std::string_view choice, bool negated);
    void sign(std::string_view text);          // one of operations.def
    void division_sign(std::string_view text); // S107 when it may belong to a unit
    void fold_binary();                        // value sign value
    void unary_sign(std::string_view text);
    void fold_negate();
    void fold_not();
    void open_bracket(std::string_view text);
    void
    close_bracket(std::string_view text);  // of a bracketed formula: its span takes the brackets in
    void open_call(std::string_view text); // the newest expression is the name of the function
    void close_call(std::string_view text);
    void each(std::string_view list); // the values of the call end with `each LIST`
    void open_row(std::string_view text);
    void close_row(std::string_view text);
    void close_head(); // of the parameters of a table or define
    void begin_when(std::string_view text, bool first);
    void fold_when();
    // A sign that nests from the right.
    void enter(std::string_view text);
    void leave(std::uint32_t levels = 1) { nesting_ -= levels; }
    std::uint32_t nesting() const { return nesting_; }

    std::vector<ast::ExprId>& values() { return values_; }
    ast::ExprId take();
    const ast::Expr& expr(ast::ExprId id) const { return module_.exprs[id]; }
    const std::vector<std::uint32_t>& open_brackets() const {
        return brackets_;
    } // offsets, innermost last
    Span span(std::string_view text) const;
    const char* statement_end() const { return statement_end_; }

  private:
    struct Sign {
        ast::BinaryOp op;
        Span span;
    };
    struct Call {
        ast::Word function;
        std::size_t first_value;
        std::uint32_t each = ast::none;
        std::size_t first_row = 0, row = 0; // values: of all its rows, of the row at hand
    };
    struct Arm {
        std::uint32_t begin;
        bool first;
    };
    void push(const ast::Expr& expr, std::uint32_t depth);
    std::uint32_t depth(ast::ExprId id) const { return depths_[id]; }

    ast::Module& module_;
    const char* base_;
    const char* statement_end_ = nullptr;
    std::vector<std::uint16_t> depths_; // of every expression: how many levels hang below it
    std::vector<ast::ExprId> values_;   // finished expressions that nothing has taken yet
    std::vector<Sign> signs_;
    std::vector<std::uint32_t> brackets_;
    std::vector<Call> calls_;
    std::vector<Arm> arms_;
    std::uint32_t nesting_ = 0;
    ast::ExprId last_literal_ = ast::none;
    std::size_t first_expr_ = 0; // of this statement
    std::size_t first_arg_ = 0;
    std::size_t first_each_ = 0;
};

// Reads a number as people write it. S106 when it is written wrong; `next` is what follows it.
double read_number(std::string_view text, std::string_view next, Span span);
// Hours after midnight of `19:30`. S106: no such time, or one as people say it, `7:30 pm`.
double read_clock(std::string_view text, std::string_view next, Span span);
// `$6.500` and `$6.500,00`, money without a unit, are thousands to some and dollars to others:
// S106. `next`: what follows.
// The sign of the money stands before `text`.
void check_whole_money(std::string_view sign, std::string_view text, std::string_view next,
                       Span span);

} // namespace acre::lang
