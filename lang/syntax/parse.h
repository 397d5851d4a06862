// Text to syntax tree. Every statement is read by itself, so one bad line costs one line.
#pragma once

#include <cstddef>
#include <cstdint>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/ast.h"

namespace acre::lang {

// Limits of a text that may come from a stranger (tests/limits has each, at it and past it).
inline constexpr std::uint32_t max_file_bytes =
    4U << 20U; // S118: a model of 2,000 lines has a hundred thousand
inline constexpr std::uint32_t max_statement_bytes =
    64U << 10U;                                        // S120: with the lines that continue it
inline constexpr std::uint32_t max_name_bytes = 100;   // S121: of a name that is given
inline constexpr std::uint32_t max_text_bytes = 4'000; // S121: of a text in quotes
inline constexpr std::uint32_t max_number_bytes = 100; // S121: with its commas
inline constexpr std::uint32_t max_options = 200;      // S122: of a choice
inline constexpr std::size_t max_page_words = 200;     // S122: in a firm's file or a job
inline constexpr std::uint32_t max_closed = 1'000;     // S122: lines of `closed` in a season
inline constexpr std::uint32_t max_parameters = 50;    // S122: of a define
inline constexpr std::uint32_t max_listed =
    1'000; // S122: values of a call, of `with`; texts of `covers`
inline constexpr std::uint32_t max_inner_lines = 1'000; // S122: of a define, price, option or block
inline constexpr std::uint32_t max_nesting = 200;       // brackets, conditions, unary signs
inline constexpr std::uint32_t max_formula_depth =
    1'000; // of an expression tree: a sum of 1,000 values is this deep
inline constexpr std::uint32_t max_table_rows = 10'000;
// Of one text; the rest is not read. To leave a formula costs with every bracket that it is in, so
// an error within n brackets, conditions or signs counts n + 1 times.
inline constexpr std::size_t max_syntax_errors = 10'000;

// Always returns a module, of the statements that could be read. Reports S1xx and F703.
// `kind` comes from the file's ending: Model (a .rate file; becomes Library if the text says so),
// Season, Job, Firm, CommandLine (statements `set NAME = VALUE` only).
ast::Module parse(const SourceMap& sources, FileId file, FileKind kind, Diagnostics& diagnostics);

} // namespace acre::lang
