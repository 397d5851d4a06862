// Units as authors write them: the catalog of one compilation, and a memory of the texts already
// read.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "lang/check/name_table.h"
#include "lang/check/resolve.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/ast.h"
#include "lang/units/catalog.h"

namespace acre::lang::resolving {

// The text with its dollar, words as they are written here: "$/ac" of `$/acre`.
std::string full_text(const ast::UnitText& unit);

class UnitTexts {
  public:
    UnitTexts(UnitCatalog& catalog, const SourceMap& sources, Diagnostics& diagnostics)
        : catalog_(catalog),
          sources_(sources),
          diagnostics_(diagnostics) {}

    // First. Adds the nouns and units of all modules, in whatever order they are written. Reports
    // N202, N203, N209, N210, S107, U312.
    void declare(const Modules& modules);

    // What another has read of the same texts; `modules` are those declared.
    void take(const UnitTexts& other, const Modules& modules);

    // nullptr when the text is not a unit; it is reported (N203, S107, U312) where the text first
    // stands. The unit stays where it is until the next call.
    const Unit* read(const ast::UnitText& text);

  private:
    struct Known {
        std::string_view text;
        Unit unit;
        bool good = false;
    };
    struct Declared {
        std::string_view name;
        Span span;
        bool noun = false;
    };

    // Definitions by the name of the unit that they wait for.
    using Waiting = std::unordered_map<std::string, std::vector<const ast::UnitDefinition*>>;

    void declare_noun(const ast::Noun& noun);
    bool declare_unit(const ast::UnitDefinition& definition, std::string& missing);
    void report_waiting(const Waiting& waiting);
    bool is_new(const ast::Word& name, bool noun);
    std::optional<Unit> read_text(const ast::UnitText& text, UnitError& error) const;
    void report(const ast::UnitText& text, const UnitError& error);

    UnitCatalog& catalog_;
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
    const Modules* modules_ = nullptr; // those declared: they outlive the reading of their units
    std::vector<Known> known_[2];      // without and with a dollar
    NameTable names_[2];
    std::vector<Declared> declared_;
    NameTable declared_names_;
    std::unordered_set<std::string> failed_; // defined, and not to be had
};

} // namespace acre::lang::resolving
