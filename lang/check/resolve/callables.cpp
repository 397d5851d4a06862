// Functions and tables: one of each for the whole compilation, whoever uses the model that writes
// it.
#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/builtins.h"
#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"
#include "lang/check/resolve/tables.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

// The text of a statement with every run of blanks as one: two copies of one definition are the
// same.
std::string squeezed(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

// False when the name is taken; it is reported unless it is the same definition in another module.
bool is_new(Resolution& r, const Callable& callable) {
    if (find_builtin(callable.name, r.program.notation) != nullptr) {
        r.add(problem(Code::N202, fmt::format("`{}` is a built-in function", callable.name),
                      callable.name_span, "taken", {"give it another name"}));
        return false;
    }
    const std::uint32_t there =
        r.callable_names.insert(callable.name, static_cast<std::uint32_t>(r.callables.size()),
                                [&r](std::uint32_t i) { return r.callables[i].name; });
    if (there == NameTable::absent)
        return true;
    const Callable& first = r.callables[there];
    if (first.module == callable.module) {
        report_twice(r.sources, r.diagnostics, fmt::format("`{}` is defined twice", callable.name),
                     callable.name_span, first.name_span);
        return false;
    }
    const auto text = [&r](const Callable& c) {
        return squeezed(r.sources.text(r.program.modules[c.module].statements[c.statement].span));
    };
    if (text(first) != text(callable))
        report_twice(r.sources, r.diagnostics,
                     fmt::format("two used models define `{}` differently", callable.name),
                     callable.name_span, first.name_span, "give one of them another name",
                     Code::N210);
    return false;
}

// One copy of a function: its columns and the lines that stand for a row once for each row.
class FunctionMaker {
  public:
    FunctionMaker(Resolution& r, const Callable& callable, const ast::Define& define, Span span)
        : r_(r),
          define_(define),
          of_row_(lines_of_rows(r.program.modules[callable.module], define)) {
        function_.name = define.name.text;
        function_.name_span = define.name.span;
        function_.span = span;
        function_.file = span.file;
        function_.native = define.native;
        function_.label = define.label ? std::string(define.label->text) : std::string();
        function_.known = define.known;
        function_.type = r.declared_type(define.type);
        function_.type_text = full_text(define.type);
        for (const ast::Text& source : define.sources)
            function_.sources.emplace_back(source.text);
        for (const ast::Text& note : define.notes)
            function_.notes.emplace_back(note.text);
    }

    // `rows`: of one over a list.
    void make(std::uint32_t rows) {
        if (define_.each) {
            function_.list = define_.each->text;
            function_.rows = rows;
        }
        names_.fixed = static_cast<std::uint32_t>(define_.parameters.size());
        names_.columns = static_cast<std::uint32_t>(define_.columns.size());
        for (const ast::Parameter& parameter : define_.parameters) {
            name(parameter.name);
            add(parameter, std::string(parameter.name.text));
        }
        for (const ast::Parameter& column : define_.columns) {
            name(column.name);
            function_.columns.emplace_back(column.name.text);
        }
        for (std::uint32_t row = 0; row < function_.rows; ++row)
            for (const ast::Parameter& column : define_.columns)
                add(column, of(column.name.text, row));
        for (std::size_t i = 0; i < define_.locals.size(); ++i)
            add(define_.locals[i], of_row_[i]);
        names_.of_row = std::move(of_row_);
        r_.function_names.push_back(std::move(names_));
        r_.sheet.functions.push_back(std::move(function_));
    }

  private:
    static std::string of(std::string_view name, std::uint32_t row) {
        return fmt::format("{}_{}", name, row + 1);
    }
    void name(const ast::Word& name) {
        const auto id = static_cast<std::uint32_t>(names_.written.size());
        names_.written.push_back(name.text);
        const auto name_of = [this](std::uint32_t i) { return names_.written[i]; };
        if (names_.names.insert(name.text, id, name_of) != NameTable::absent)
            r_.add(problem(
                Code::N202,
                fmt::format("`{}` appears twice in the function `{}`", name.text, function_.name),
                name.span, "again"));
    }
    void add(const ast::Parameter& parameter, std::string called) {
        function_.parameters.push_back(std::move(called));
        function_.parameter_texts.push_back(full_text(parameter.type));
        function_.parameter_types.push_back(r_.declared_type(parameter.type));
    }
    void add(const ast::Line& line, bool of_row) {
        name(line.name);
        names_.first_line.push_back(static_cast<std::uint32_t>(function_.locals.size()));
        const Type type = r_.declared_type(line.unit);
        for (std::uint32_t row = 0; row < (of_row ? function_.rows : 1); ++row)
            function_.locals.push_back(
                {of_row ? of(line.name.text, row) : std::string(line.name.text), type, none,
                 line.name.span});
    }

    Resolution& r_;
    const ast::Define& define_;
    Function function_;
    FunctionNames names_;
    std::vector<bool> of_row_; // by line of the define
};

void check_list(Resolution& r, const ast::Define& define) {
    if (define.each && r.find_list(define.each->text) == none)
        report_no_list(r, *define.each);
}

// All of them come to no more steps than a job may have.
bool has_room(Resolution& r, const ast::Define& define, std::uint32_t rows, std::size_t& values) {
    values += std::size_t{rows} * (define.columns.size() + define.locals.size());
    if (values > max_sheet_nodes)
        r.too_many("values of functions over lists", max_sheet_nodes, define.name.span);
    return !r.full;
}

void make_functions(Resolution& r) {
    const std::vector<std::vector<std::uint32_t>> called = rows_called(r);
    std::size_t values = 0;
    for (std::size_t i = 0; i < r.callables.size() && !r.full; ++i) {
        Callable& callable = r.callables[i];
        if (callable.kind != Callable::Kind::Function)
            continue;
        const ast::Statement& statement =
            r.program.modules[callable.module].statements[callable.statement];
        const auto& define = std::get<ast::Define>(statement.node);
        callable.index = static_cast<std::uint32_t>(r.sheet.functions.size());
        if (!define.each)
            FunctionMaker(r, callable, define, statement.span).make(0);
        check_list(r, define);
        for (const std::uint32_t rows : called[i]) {
            if (!has_room(r, define, rows, values))
                return;
            callable.copies.emplace_back(rows,
                                         static_cast<std::uint32_t>(r.sheet.functions.size()));
            FunctionMaker(r, callable, define, statement.span).make(rows);
        }
    }
}

void declare_function(Resolution& r, const Callable& callable) {
    if (is_new(r, callable))
        r.callables.push_back(callable);
}

void declare_table(Resolution& r, Callable callable, const ast::Table& table, Span span) {
    callable.index = static_cast<std::uint32_t>(r.sheet.tables.size());
    if (!is_new(r, callable))
        return;
    r.callables.push_back(callable);
    r.sheet.tables.push_back(read_table(r, r.program.modules[callable.module], table, span));
}

void fill_ranges(Resolution& r, const Where& where, const std::vector<ast::ParameterRange>& ranges,
                 std::vector<FunctionRange>& out) {
    using Kind = NameInFunction::Kind;
    const Function& function = *where.function;
    const FunctionNames& known = r.names_of(function);
    for (const ast::ParameterRange& range : ranges) {
        const NameInFunction name = known.find(range.name.text);
        if (name.kind != Kind::Parameter && name.kind != Kind::Column) {
            Diagnostic d = problem(
                Code::N201,
                fmt::format("`{}` is not a parameter of `{}`", range.name.text, function.name),
                range.name.span, "not defined");
            const std::vector<std::string_view> names(
                known.written.begin(), known.written.begin() + known.fixed + known.columns);
            const std::vector<std::string_view> found = near_names(range.name.text, names);
            for (const std::string_view near : found)
                d.helps.push_back({fmt::format("did you mean `{}`?", near),
                                   near_edit(range.name.text, found, near, range.name.span)});
            r.add(std::move(d));
            continue;
        }
        // Of a column: the same of every row.
        const bool column = name.kind == Kind::Column;
        for (std::uint32_t row = 0; row < (column ? function.rows : 1); ++row) {
            FunctionRange filled;
            filled.parameter = column ? known.fixed + row * known.columns + name.index : name.index;
            filled.low = build(r, where, range.range.low);
            filled.high = build(r, where, range.range.high);
            filled.span = range.range.span;
            filled.reason = range.reason ? std::string(range.reason->text) : std::string();
            out.push_back(std::move(filled));
        }
    }
}

void fill_function(Resolution& r, const Callable& callable, std::uint32_t index) {
    const ast::Module& module = r.program.modules[callable.module];
    const auto& define = std::get<ast::Define>(module.statements[callable.statement].node);
    Function& function = r.sheet.functions[index];
    Where where{&module, none, {}, &function, false};
    if (define.value != ast::none)
        function.value = build(r, where, define.value, choice_of(function.type));
    const FunctionNames& names = r.names_of(function);
    for (std::size_t i = 0; i < define.locals.size(); ++i) {
        const std::uint32_t first = names.first_line[i];
        for (std::uint32_t row = 0; row < (names.of_row[i] ? function.rows : 1); ++row) {
            where.row = names.of_row[i] ? row : no_row;
            function.locals[first + row].value =
                build(r, where, define.locals[i].value, choice_of(function.locals[first].type));
        }
    }
    where.row = no_row;
    fill_ranges(r, where, define.tested, function.tested);
    fill_ranges(r, where, define.limits, function.limits);
    if ((!r.program.every_function && callable.module != r.program.model) ||
        index != callable.index)
        return; // its examples are nobody's business now, or told once
    const Where plain{&module, none, {}, nullptr, false};
    for (const ast::Example& example : define.examples) {
        FunctionExample filled;
        filled.call = build(r, plain, example.call);
        filled.expected = build(r, plain, example.expected, choice_of(function.type));
        if (example.tolerance != ast::none)
            filled.tolerance = build(r, plain, example.tolerance);
        filled.span = example.span;
        function.examples.push_back(filled);
    }
}

} // namespace

const Callable* Resolution::find_callable(std::string_view name) const {
    const std::uint32_t id =
        callable_names.find(name, [this](std::uint32_t i) { return callables[i].name; });
    return id == NameTable::absent ? nullptr : &callables[id];
}

const FunctionNames& Resolution::names_of(const Function& function) const {
    return function_names[static_cast<std::size_t>(&function - sheet.functions.data())];
}

void declare_callables(Resolution& r) {
    for (std::uint32_t m = 0; m < r.program.modules.size(); ++m) {
        const ast::Module& module = r.program.modules[m];
        for (std::uint32_t s = 0; s < module.statements.size(); ++s) {
            const ast::Statement& statement = module.statements[s];
            if (const auto* define = std::get_if<ast::Define>(&statement.node))
                declare_function(
                    r, {Callable::Kind::Function, define->name.text, define->name.span, m, s, 0});
            else if (const auto* table = std::get_if<ast::Table>(&statement.node))
                declare_table(r,
                              {Callable::Kind::Table, table->name.text, table->name.span, m, s, 0},
                              *table, statement.span);
        }
    }
    make_functions(r);
}

void Resolution::want(const Callable& callable) {
    const auto id = static_cast<std::uint32_t>(&callable - callables.data());
    wanted.resize(callables.size(), false);
    if (wanted[id] || callable.kind != Callable::Kind::Function)
        return;
    wanted[id] = true;
    to_be_filled.push_back(id);
}

void fill_callables(Resolution& r) {
    for (const Callable& callable : r.callables)
        if (r.program.every_function || callable.module == r.program.model)
            r.want(callable);
    // A function that is filled may be the first to call another: the list grows on the way.
    for (std::size_t i = 0; i < r.to_be_filled.size() && !r.full; ++i) {
        const Callable& callable = r.callables[r.to_be_filled[i]];
        if (callable.copies.empty())
            fill_function(r, callable, callable.index);
        for (const auto& [rows, index] : callable.copies)
            fill_function(r, callable, index);
    }
}

} // namespace acre::lang::resolving
