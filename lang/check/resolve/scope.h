// What one module names, before anybody makes instances of it: its lines and where each stands in
// an instance, and the models it uses by their names.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lang/check/name_table.h"
#include "lang/check/resolve.h"
#include "lang/check/resolve/lists.h"
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
    std::uint32_t run = 0;     // which run of its module
    std::uint32_t offset = 0;  // of its first line among those of a copy of the run

    std::uint32_t line_count() const { return kind == Kind::Cost || kind == Kind::Event ? 3 : 1; }
};

// The name of a symbol's line after the symbol's own: "", ".quantity", ".amount" of a cost; "",
// ".amount", ".money" of an event.
std::string_view suffix_of(Symbol::Kind kind, std::uint32_t which);
// The other way round; `tail` without its dot. none: there is no such line.
std::uint32_t line_with_suffix(Symbol::Kind kind, std::string_view tail);

// Symbols that stand together and are computed for the same lists. A copy of a run has its lines in
// a row, then the next copy.
struct Run {
    Lists of; // none: computed once
    std::uint32_t part =
        none; // the part of which it is, if it is computed for each entry of a list
    std::uint32_t first = 0, last = 0; // symbols
    std::uint32_t lines = 0;           // of one copy
};

struct Alias {
    std::string name; // `as`, or the stem of the file
    Span span;
    std::uint32_t statement = 0;
    std::uint32_t module = none; // none: could not be loaded, or reported otherwise
    bool own = false;            // with bindings
    Lists of; // an instance for each entry of these: with bindings, in a part `each` of them
};

struct Scope {
    const ast::Module* module = nullptr;
    std::vector<Symbol> symbols; // in the order written
    std::vector<Alias> aliases;
    std::vector<std::uint32_t> parts;       // statements that open a part
    std::vector<Lists> part_lists;          // by part
    std::vector<std::uint32_t> part_number; // by statement: into parts, if it opens one
    std::vector<Run> runs;
    bool has_costs = false;

    const Symbol* find(std::string_view name) const;
    const Alias* find_alias(std::string_view name) const;
    std::uint32_t part_of(const ast::Statement& statement) const; // into parts, or none
    const Lists& lists_of(const ast::Statement& statement) const; // of its part
    const Lists& lists_of(const Symbol& symbol) const { return runs[symbol.run].of; }

    NameTable symbol_names, alias_names;
};

// "models/season-prices.rate" is season_prices.
std::string stem_of(std::string_view file_name);

struct Resolution;

// Reports N202. `uses`: the modules that the Use statements name, in order.
Scope make_scope(Resolution& r, const ast::Module& module, const std::vector<std::uint32_t>& uses);

} // namespace acre::lang::resolving
