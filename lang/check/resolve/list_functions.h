// Functions over a list: `define f (…) each layer (thick : ft)`. A call has as many rows of values
// as the list has entries, or as it writes itself; for each number of rows that is called there is
// a copy of the function with its columns written out.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "lang/check/name_table.h"
#include "lang/check/sheet.h"
#include "lang/syntax/ast.h"

namespace acre::lang::resolving {

inline constexpr std::uint32_t no_row = none;

struct Resolution;
struct Callable;

// What a name means inside a function.
struct NameInFunction {
    enum class Kind : std::uint8_t { None, Parameter, Line, Column, RowLine } kind = Kind::None;
    // Parameter, Line: into Function's own; Column: which; RowLine: the line of the first row.
    std::uint32_t index = 0;

    bool of_row() const { return kind == Kind::Column || kind == Kind::RowLine; }
};

// The names of a function: its parameters, its columns, then its lines, each as written.
struct FunctionNames {
    NameTable names;
    std::vector<std::string_view> written;
    std::uint32_t fixed = 0, columns = 0;
    std::vector<std::uint32_t> first_line; // by line as written: into Function::locals
    std::vector<bool> of_row;              // by line as written: there is one for each row

    // None: reported by whoever declares.
    NameInFunction find(std::string_view name) const;
    // The names that near ones are looked for in.
    const std::vector<std::string_view>& all() const { return written; }
};

// By line of the define: whether it stands for one row, because it names a column, or a line that
// does, outside of `sum`, `most` and `least`.
std::vector<bool> lines_of_rows(const ast::Module& module, const ast::Define& define);

// How many rows a function over a list is called with, each number once; one at least. By callable;
// of one over no list: none.
std::vector<std::vector<std::uint32_t>> rows_called(const Resolution& r);

// The copy of a callable for so many rows, as index of the sheet; none if it is never called so.
std::uint32_t copy_for(const Callable& callable, std::uint32_t rows);

} // namespace acre::lang::resolving
