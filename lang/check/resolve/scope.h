// What one module names, before anybody makes instances of it: its lines and where each stands in
// an instance, and the models it uses by their names.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lang/check/name_table.h"
#include "lang/check/resolve.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/ast.h"

namespace acre::lang::resolving {

// A statement that makes lines: one for a given or a line, three for a cost or an event.
struct Symbol {
    enum class Kind : std::uint8_t { Given, Line, Cost, Event };
    Kind kind = Kind::Line;
    std::string_view name;
    Span span;
    std::uint32_t statement = 0;
    std::uint32_t part = none; // which part of its module
    std::uint32_t offset = 0;  // of its first line among those of an instance, were there one block
    std::uint32_t each_before = 0; // lines of each-block parts that stand before its own part
    std::uint32_t stride = 0;      // lines of its each-block part; 0: computed once for the job

    bool each_block() const { return stride != 0; }
    std::uint32_t line_count() const { return kind == Kind::Cost || kind == Kind::Event ? 3 : 1; }
};

// The name of a symbol's line after the symbol's own: "", ".quantity", ".amount" of a cost; "",
// ".amount", ".money" of an event.
std::string_view suffix_of(Symbol::Kind kind, std::uint32_t which);
// The other way round; `tail` without its dot. none: there is no such line.
std::uint32_t line_with_suffix(Symbol::Kind kind, std::string_view tail);

struct Alias {
    std::string name; // `as`, or the stem of the file
    Span span;
    std::uint32_t statement = 0;
    std::uint32_t module = none; // none: could not be loaded, or reported otherwise
    bool own = false;            // with bindings
    bool each_block = false;     // an instance for each block: with bindings, in an each-block part
};

struct Scope {
    const ast::Module* module = nullptr;
    std::vector<Symbol> symbols; // in the order written
    std::vector<Alias> aliases;
    std::vector<std::uint32_t> parts;       // statements that open a part
    std::vector<std::uint32_t> part_number; // by statement: into parts, if it opens one
    std::uint32_t plain_lines = 0, each_lines = 0;
    bool has_costs = false;

    const Symbol* find(std::string_view name) const;
    const Alias* find_alias(std::string_view name) const;
    bool in_each_block(const ast::Statement& statement) const;
    std::uint32_t part_of(const ast::Statement& statement) const; // into parts, or none

    NameTable symbol_names, alias_names;
};

// "models/season-prices.rate" is season_prices.
std::string stem_of(std::string_view file_name);

// Reports N202. `uses`: the modules that the Use statements name, in order.
Scope make_scope(const ast::Module& module, const std::vector<std::uint32_t>& uses,
                 const Program& program, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang::resolving
