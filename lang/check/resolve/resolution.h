// What the stages of resolve share: the sheet in the making, the scopes of the modules, the
// instances made of them.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lang/check/resolve.h"
#include "lang/check/resolve/list_functions.h"
#include "lang/check/resolve/lists.h"
#include "lang/check/resolve/report.h"
#include "lang/check/resolve/scope.h"
#include "lang/check/resolve/unit_texts.h"
#include "lang/check/sheet.h"

namespace acre::lang::resolving {

struct Instance {
    std::uint32_t module = none;
    std::string prefix;         // "haul.truck."; empty for the job's own model
    std::uint32_t owner = none; // the instance whose `use` made it; none for the job's own model
    std::uint32_t alias = none; // of the owner's aliases
    Entries at;                 // it was made for these entries
    std::uint32_t join = none;  // the part in which its costs count
    std::uint32_t first_part = 0;
    std::vector<LineId> first_lines; // by run of its scope
    std::vector<std::uint32_t>
        targets; // by alias: the instance, or the first of one for each entry; none: reported
};

// A function or a table: called by name, one for the whole compilation.
struct Callable {
    enum class Kind : std::uint8_t { Function, Table } kind = Kind::Function;
    std::string_view name;
    Span name_span;
    std::uint32_t module = 0, statement = 0;
    std::uint32_t index = 0; // into Sheet::functions or Sheet::tables; of a function over a list
                             // the copy for one row
    std::vector<std::pair<std::uint32_t, std::uint32_t>>
        copies{}; // rows, index; over no list: none
};

// Where a formula stands, and so what its names mean.
struct Where {
    const ast::Module* module = nullptr; // whose text it is
    std::uint32_t instance = none;       // whose names it sees; none: no lines at all
    Entries at;                          // in which entries of which lists it stands
    const Function* function = nullptr;  // within a define: its parameters and lines
    bool outside =
        false; // a job, a season, the command line: dotted names of the sheet are seen as well
    std::uint32_t row = no_row; // within a line of a function that stands for one row
};

// The options of a choice are its range: neither `choose` nor shares of it.
inline bool takes_no_range(const ast::Given& given, const Type& type) {
    return (given.chosen || given.of_it) && type.kind == Type::Kind::Choice;
}

// Over which lists a `sum` adds up a given, and where it is written; see added_up.h.
struct AddedUp {
    Lists over;
    Span sum;
};

// The sheet in the making, and what is known of names on the way.
struct Resolved {
    Sheet sheet;
    std::vector<std::vector<std::uint32_t>>
        uses;                            // of the program, without the uses that would loop
    std::vector<Scope> scopes;           // by module
    std::vector<std::vector<bool>> sees; // by module: the modules whose functions it may call
    std::vector<Instance> instances;     // 0 is the job's own model
    std::vector<std::uint32_t> shared;   // by module: its shared instance, or none
    std::vector<List> lists;
    std::vector<ListEntry> entries;             // of all lists: those with a name
    NameTable entry_names;                      // of `entries`
    std::vector<Entries> places;                // by entry of the sheet
    std::map<Entries, std::uint32_t> place_ids; // of `places`
    std::vector<Callable> callables;
    NameTable callable_names;
    std::vector<bool> wanted;                  // by callable: its formulas are asked for
    std::vector<std::uint32_t> to_be_filled;   // callables wanted and not filled yet
    std::vector<FunctionNames> function_names; // by function
    std::vector<NameTable> option_names;       // by choice
    NameTable choice_names;                    // of the choices that have a name of their own
    std::vector<AddedUp> added_up;             // by line: see added_up.h
    bool full = false;                         // the sheet is as large as it may be
    std::size_t name_bytes = 0;                // of names, labels and reasons of the lines so far
};

struct Resolution : Resolved {
    Resolution(const Program& p, const SourceMap& s, Diagnostics& d)
        : program(p),
          sources(s),
          diagnostics(d),
          units(sheet.units, s, d) {}
    Resolution(const Resolution&) = delete;
    Resolution& operator=(const Resolution&) = delete;
    // As far as another has come, of the same trees.
    void take(const Resolution& other) {
        Resolved::operator=(other);
        units.take(other.units, program.modules);
    }

    const Program& program;
    const SourceMap& sources;
    Diagnostics& diagnostics;
    UnitTexts units;

    Where where(std::uint32_t instance, const Entries& at) const {
        return {scopes[instances[instance].module].module, instance, at, nullptr, false};
    }
    std::uint32_t find_list(std::string_view name) const; // none if there is no such list
    // How many copies there are of something computed for each entry of these lists, in a place
    // that has an entry of some of them already; the entries of a copy; which copy a place sees.
    std::uint32_t copies(const Lists& of, const Entries& fixed) const;
    Entries copy(const Lists& of, Entries fixed, std::uint32_t index) const;
    std::uint32_t copy_index(const Lists& of, const Entries& fixed, const Entries& at) const;
    Lists open(const Lists& of, const Entries& at) const; // those that `at` has no entry of
    // "river.pan.": what the names of a copy begin with; empty where the job lists no entries.
    std::string entry_prefix(const Lists& of, const Entries& fixed, const Entries& at) const;
    std::uint32_t place_of(const Entries& at); // an entry of the sheet; none: nothing has a name
    Lists lists_of(const ast::Part& part) const;
    const Callable* find_callable(std::string_view name) const;
    void want(const Callable& callable);               // the formulas of a function that is called
    ChoiceId find_choice(std::string_view name) const; // none if there is no such choice
    ChoiceId add_choice(const ast::Word& name,
                        const std::vector<ast::Word>& options); // reports N202
    std::uint32_t find_option(ChoiceId choice,
                              std::string_view name) const; // none if it is not one of the choice
    const FunctionNames& names_of(const Function& function) const;
    NameInFunction find_in_function(const Function& function, std::string_view name) const {
        return names_of(function).find(name);
    }
    // The type a unit text declares: of a choice if there is one of this name. Poison when it is
    // reported.
    Type declared_type(const ast::UnitText& text);
    void add(Diagnostic diagnostic) { diagnostics.add(std::move(diagnostic)); }
    // N214: `what` are more than `limit`. The sheet is given up.
    void too_many(std::string_view what, std::size_t limit, Span span,
                  std::vector<std::string> helps = {});
};

void report_set_twice(Resolution& r, const ast::Word& name, Span first); // I604

// The stages, in order; lay_bindings is the first step of lay_values.
void make_scopes(Resolution& r);       // and which modules see which; reports N202, N207
void declare_choices(Resolution& r);   // reports N202, N210
void declare_callables(Resolution& r); // after list_entries: lists say how many rows there are
void declare_lists(Resolution& r);     // before make_scopes; reports N202, N210, N217, S108, L824
void list_entries(Resolution& r);      // reports N202, N217, L810
void make_instances(Resolution& r);    // reports N210, N214
void declare_lines(Resolution& r);     // reports N202, S105
void declare_prices(Resolution& r);    // after all other lines
void fill_lines(Resolution& r);
void lay_bindings(Resolution& r);
void lay_values(Resolution& r);        // reports I601, I604, I605, I606, I607, I610, L807, L821
void keep_as_modeled(Resolution& r);   // takes away what was set outside the models
void start_from_shared(Resolution& r); // the last step but one of lay_values
void type_quantities(Resolution& r);
void fill_prices(Resolution& r); // reports N208, U311
void take_counts(Resolution& r); // reports N201, N202, N216, U304, U309
void take_shown(Resolution& r);  // after the prices; reports N201, L809
void add_tried(Resolution& r);
void fill_callables(Resolution& r); // after every formula that may call one
void describe_job(Resolution& r);

} // namespace acre::lang::resolving
