#include "lang/check/resolve/list_functions.h"

#include <algorithm>
#include <utility>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {
namespace {

template <class Function>
void for_each_part(const ast::Module& module, const ast::Expr& expr, Function function) {
    const auto part = [&](ast::ExprId id) {
        if (id < module.exprs.size())
            function(module.exprs[id]);
    };
    const auto args = [&](std::uint32_t first, std::uint32_t count) {
        for (std::uint32_t i = 0; i < count; ++i)
            part(module.args[first + i]);
    };
    if (const auto* negate = std::get_if<ast::Negate>(&expr.node))
        part(negate->of);
    else if (const auto* denied = std::get_if<ast::Not>(&expr.node))
        part(denied->of);
    else if (const auto* is = std::get_if<ast::Is>(&expr.node))
        part(is->value);
    if (const auto* binary = std::get_if<ast::Binary>(&expr.node)) {
        part(binary->left);
        part(binary->right);
    } else if (const auto* when = std::get_if<ast::When>(&expr.node)) {
        part(when->condition);
        part(when->then);
        part(when->otherwise);
    } else if (const auto* call = std::get_if<ast::Call>(&expr.node)) {
        args(call->first_arg, call->arg_count);
        if (call->each != ast::none)
            for (const ast::Row& row : module.eaches[call->each].rows)
                args(row.first_arg, row.arg_count);
    }
}

bool is_over_rows(std::string_view function) {
    return function == "sum" || function == "most" || function == "least";
}

// Whether a formula stands for one row. A formula is no deeper than max_formula_depth.
bool is_of_row(const ast::Module& module, const ast::Expr& expr,
               const std::vector<std::string_view>& of_rows) {
    if (const auto* name = std::get_if<ast::Name>(&expr.node))
        return std::find(of_rows.begin(), of_rows.end(), name->text) != of_rows.end();
    if (const auto* call = std::get_if<ast::Call>(&expr.node)) {
        if (is_over_rows(call->function.text))
            return false;
        if (call->function.text == "before")
            return true;
    }
    bool found = false;
    for_each_part(module, expr, [&](const ast::Expr& part) {
        found = found || is_of_row(module, part, of_rows);
    });
    return found;
}

// The calls of a define that hand its own rows on.
void handed_on(const ast::Module& module, const ast::Expr& expr, std::string_view list,
               std::vector<std::string_view>& functions) {
    if (const auto* call = std::get_if<ast::Call>(&expr.node);
        call != nullptr && call->each != ast::none && module.eaches[call->each].list.text == list &&
        module.eaches[call->each].rows.empty())
        functions.push_back(call->function.text);
    for_each_part(module, expr,
                  [&](const ast::Expr& part) { handed_on(module, part, list, functions); });
}

const ast::Define* define_of(const Resolution& r, const Callable& callable) {
    return callable.kind != Callable::Kind::Function
               ? nullptr
               : &std::get<ast::Define>(
                     r.program.modules[callable.module].statements[callable.statement].node);
}

class Rows {
  public:
    explicit Rows(const Resolution& r) : r_(r), called_(r.callables.size()) {}

    std::vector<std::vector<std::uint32_t>> all() {
        for (std::size_t i = 0; i < r_.callables.size(); ++i)
            if (const ast::Define* define = define_of(r_, r_.callables[i]); define && define->each)
                add(i, 1);
        for (const ast::Module& module : r_.program.modules)
            for (const ast::Expr& expr : module.exprs)
                if (const auto* call = std::get_if<ast::Call>(&expr.node);
                    call != nullptr && call->each != ast::none)
                    add_call(module.eaches[call->each], *call);
        hand_on();
        for (std::vector<std::uint32_t>& rows : called_)
            std::sort(rows.begin(), rows.end());
        return std::move(called_);
    }

  private:
    bool add(std::size_t callable, std::uint32_t rows) {
        std::vector<std::uint32_t>& there = called_[callable];
        if (std::find(there.begin(), there.end(), rows) != there.end())
            return false;
        there.push_back(rows);
        return true;
    }
    std::size_t over_list(std::string_view function) const {
        const Callable* callable = r_.find_callable(function);
        const ast::Define* define = callable == nullptr ? nullptr : define_of(r_, *callable);
        return define == nullptr || !define->each
                   ? r_.callables.size()
                   : static_cast<std::size_t>(callable - r_.callables.data());
    }
    void add_call(const ast::Each& each, const ast::Call& call) {
        const std::size_t callable = over_list(call.function.text);
        const std::uint32_t list = r_.find_list(each.list.text);
        if (callable == r_.callables.size())
            return;
        if (!each.rows.empty())
            add(callable, static_cast<std::uint32_t>(each.rows.size()));
        else if (list != none)
            add(callable, r_.lists[list].count());
    }

    // A define calls others with as many rows as it is called with itself.
    void hand_on() {
        std::vector<std::pair<std::size_t, std::size_t>> hands;
        for (std::size_t i = 0; i < r_.callables.size(); ++i) {
            const ast::Define* define = define_of(r_, r_.callables[i]);
            if (define == nullptr || !define->each)
                continue;
            const ast::Module& module = r_.program.modules[r_.callables[i].module];
            std::vector<std::string_view> functions;
            const auto look_into = [&](ast::ExprId id) {
                if (id < module.exprs.size())
                    handed_on(module, module.exprs[id], define->each->text, functions);
            };
            look_into(define->value);
            for (const ast::Line& line : define->locals)
                look_into(line.value);
            for (const std::string_view function : functions)
                if (const std::size_t to = over_list(function); to != r_.callables.size())
                    hands.emplace_back(i, to);
        }
        for (bool more = true; more;) {
            more = false;
            for (const auto& [from, to] : hands)
                for (std::size_t i = 0; i < called_[from].size(); ++i)
                    more = add(to, called_[from][i]) || more;
        }
    }

    const Resolution& r_;
    std::vector<std::vector<std::uint32_t>> called_; // by callable
};

} // namespace

NameInFunction FunctionNames::find(std::string_view name) const {
    using Kind = NameInFunction::Kind;
    const std::uint32_t id = names.find(name, [this](std::uint32_t i) { return written[i]; });
    if (id == NameTable::absent)
        return {};
    if (id < fixed)
        return {Kind::Parameter, id};
    if (id < fixed + columns)
        return {Kind::Column, id - fixed};
    const std::uint32_t line = id - fixed - columns;
    return {of_row[line] ? Kind::RowLine : Kind::Line, first_line[line]};
}

std::vector<bool> lines_of_rows(const ast::Module& module, const ast::Define& define) {
    std::vector<bool> of_row(define.locals.size(), false);
    std::vector<std::string_view> names;
    for (const ast::Parameter& column : define.columns)
        names.push_back(column.name.text);
    for (bool more = !names.empty(); more;) {
        more = false;
        for (std::size_t i = 0; i < define.locals.size(); ++i) {
            const ast::ExprId value = define.locals[i].value;
            if (of_row[i] || value >= module.exprs.size() ||
                !is_of_row(module, module.exprs[value], names))
                continue;
            of_row[i] = more = true;
            names.push_back(define.locals[i].name.text);
        }
    }
    return of_row;
}

std::vector<std::vector<std::uint32_t>> rows_called(const Resolution& r) {
    return Rows(r).all();
}

std::uint32_t copy_for(const Callable& callable, std::uint32_t rows) {
    for (const auto& [count, index] : callable.copies)
        if (count == rows)
            return index;
    return none;
}

} // namespace acre::lang::resolving
