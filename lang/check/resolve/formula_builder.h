// The maker of one formula's nodes; formula.cpp has names and operators, calls.cpp functions,
// tables and lists.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "lang/check/resolve/builtins.h"
#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/lookup.h"

namespace acre::lang::resolving {

class FormulaBuilder {
  public:
    FormulaBuilder(Resolution& r, const Where& where)
        : r_(r),
          where_(where),
          module_(*where.module) {}

    NodeId build(ast::ExprId id, ChoiceId expected);

  private:
    NodeId missing(Span span);
    NodeId make(Op op, Span span, Span op_span, NodeId a = none, NodeId b = none, NodeId c = none);
    NodeId indexed(Op op, std::uint32_t index, Span span, Span op_span);
    NodeId option_node(ChoiceId choice, std::uint32_t option, Span span);
    NodeId of(const ast::Number& number, Span span, ChoiceId);
    NodeId of(const ast::Name& name, Span span, ChoiceId expected);
    NodeId entry_at_hand(const ast::Name& name, Span span);
    NodeId name_in_function(const ast::Name& name, Span span, ChoiceId expected);
    NodeId unknown(const ast::Name& name, Span span, ChoiceId expected);
    NodeId of(const ast::Negate& negate, Span span, ChoiceId);
    NodeId of(const ast::Not& negation, Span span, ChoiceId);
    NodeId of(const ast::Binary& binary, Span span, ChoiceId);
    bool names_option(ast::ExprId id) const;
    NodeId of(const ast::Is& is, Span span, ChoiceId);
    NodeId of(const ast::When& when, Span span, ChoiceId expected);
    ChoiceId choice_of_node(NodeId id) const;
    bool is_poison(NodeId id) const;

    // Calls.
    NodeId of(const ast::Call& call, Span span, ChoiceId);
    bool sees(std::uint32_t module) const;
    NodeId call_to(const Builtin& builtin, const ast::Call& call, Span span);
    NodeId call_to(const Callable& callable, const ast::Call& call, Span span);
    NodeId with_args(Op op, std::uint32_t index, const ast::Call& call, Span span,
                     const Function* function);
    NodeId call_node(Op op, std::uint32_t index, const std::vector<NodeId>& args, Span span,
                     Span op_span);
    Found line_of_list(const Builtin& builtin, const ast::Call& call, Span span);
    NodeId line_of_entry(const ast::Call& call, const Entries& at);
    NodeId over_list(const Builtin& builtin, const ast::Call& call, Span span);
    NodeId before(const Builtin& builtin, const ast::Call& call, Span span);
    NodeId how_many(const ast::Call& call, Span span);
    bool of_single_entry(const Found& found) const;

    // Functions over a list; list_calls.cpp.
    NodeId call_over_list(const Callable& callable, const ast::Call& call, Span span);
    bool fits(const Callable& callable, const ast::Each& each) const;
    std::uint32_t own_rows(const Callable& callable, const ast::Each& each,
                           std::vector<NodeId>& args);
    std::uint32_t rows_of_entries(const Callable& callable, const ast::Each& each,
                                  std::vector<NodeId>& args);
    NodeId in_row(const NameInFunction& name, std::uint32_t row, Span span);
    NodeId over_rows(const Builtin& builtin, const ast::Call& call, Span span);
    NodeId before_row(const Builtin& builtin, const ast::Call& call, Span span);
    const ast::Expr* row_argument(const Builtin& builtin, const ast::Call& call, Span span);

    Resolution& r_;
    const Where& where_;
    const ast::Module& module_;
};

} // namespace acre::lang::resolving
