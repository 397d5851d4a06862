// The sheet: every line of every used model, flat, with all names resolved. One job, one sheet.
//
// Sheet is what resolve makes. CheckedSheet is what check makes of it: every node has a type, every
// unlike but compatible pair of units an explicit Convert node. Only check can make one.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lang/check/name_table.h"
#include "lang/check/type.h"
#include "lang/earlier/rules.h"
#include "lang/source/source_map.h"
#include "lang/source/span.h"
#include "lang/syntax/ast.h"
#include "lang/units/catalog.h"

namespace acre::lang {

using NodeId = std::uint32_t;
using LineId = std::uint32_t;
inline constexpr std::uint32_t none = 0xFFFFFFFF;

// No formula is deeper than max_formula_depth of syntax/parse.h: later stages may recurse over one
// formula. Instances and entries multiply a text: past these, N214.
inline constexpr std::uint32_t max_instances = 1'000;
inline constexpr std::uint32_t max_lists = 16;      // of all models of a job
inline constexpr std::uint32_t max_entries = 1'000; // of a list
inline constexpr std::uint32_t max_job_options = 200;
inline constexpr std::uint32_t max_parts = 20'000;      // of all instances
inline constexpr std::uint32_t max_conditions = 10'000; // requirements and cautions, in every entry
inline constexpr std::uint32_t max_correlations = 1'000; // in every entry
inline constexpr std::uint32_t max_sheet_lines = 100'000;
inline constexpr std::uint32_t max_sheet_nodes = 500'000; // steps of calculation
inline constexpr std::uint32_t max_sheet_name_bytes =
    64U << 20U; // of names, labels and reasons of all lines

enum class Op : std::uint8_t {
// Of one value a; of two, a and b; of a function, a and b, or args where it takes many. `and`
// and `or` do not ask for b when a decides. Ceil, Floor, Round without b: to whole numbers. The
// args of Sum, Most, Least are Line nodes: the lines of the entries, or (Sum) the amounts that a
// price adds up, of $; one at least.
#define ACRE_PREFIX(op, ...) op,
#define ACRE_BINARY(op, ...) op,
#define ACRE_FUNCTION(op, ...) op,
#include "lang/syntax/operations.def"
    When,      // a condition, b then, c otherwise
    Number,    // number, in the unit of its type
    Choice,    // index: which option
    Line,      // index: LineId
    Parameter, // index: which parameter of the define
    Local,     // index: which local of the define
    Table,     // index: table, a
    Define,    // index: define, args
    Convert,   // a, by `conversion`; made by check only
    Missing,   // reported already
};

struct Node {
    Op op = Op::Missing;
    Span span;    // the whole expression
    Span op_span; // the operator or function name
    NodeId a = none, b = none, c = none;
    std::uint32_t index = 0;
    std::uint32_t first_arg = 0, arg_count = 0; // into Sheet::args
    double number = 0;
    Conversion conversion;
    Type type; // Number, Choice: by resolve; Missing: poison; the rest: filled by check
};

struct ChoiceType {
    std::string name;
    std::vector<std::string> options;
    Span span;
};

// Which layer of values set a given. Later wins.
enum class Layer : std::uint8_t {
    Model,
    Binding,
    Season,
    Values,
    Job,
    Field,
    Entry,
    Option,
    CommandLine
};

struct Setting {
    Layer layer = Layer::Model;
    Span span; // the statement
    NodeId value = none;
    std::string because;
    std::uint32_t over = 0;             // how many lists it is set for all entries of
    std::optional<ast::Dates> within{}; // of a season: the days on which it holds
};

enum class Role : std::uint8_t {
    Given,
    Line,
    CostRate,
    CostQuantity,
    CostAmount,
    EventCount,
    EventAmount,
    EventMoney,
    PriceLine,
    Total
};

struct Line {
    std::string
        name; // dotted, the same everywhere: "crawler.fuel_price", "north.area", "ripping.amount"
    std::string label;   // may be empty
    std::string because; // of a line; a given has it in its settings
    Span name_span;
    Span span; // the statement, for `explain`
    Role role = Role::Line;
    Type type; // declared. A quantity of a cost declares none: its formula's, or poison if that has
               // none
    std::string unit_text;        // as the author wrote it ("$/ac"); empty for a choice
    NodeId value = none;          // the formula in force, by the last setting; none: yours to set
    std::uint32_t part = none;    // into parts
    std::uint32_t entry = none;   // into entries, for a line of a part `each` of a list; where
                                  // nothing is listed there is none
    std::uint32_t given = none;   // into givens
    bool may_be_negative = false; // it says so
    bool shown = false;           // the customer may see it: the job's model says so
};

struct Given {
    LineId line = none;
    std::vector<Setting> settings;                // in order of layers; the last is in force
    std::vector<Setting> of_other_days;           // of the season, and not for this job
    NodeId within_low = none, within_high = none; // none: no bound
    NodeId swing_low = none, swing_high = none;   // of `swing` or `choose`
    bool chosen = false; // of `choose`: settled before work starts, so risk holds it still
    bool of_it = false;  // the bounds are shares of the value in force, in %
    ast::SwingShape shape = ast::SwingShape::Unstated;
    Span within_span, swing_span;

    const char* swing_name() const { return chosen ? "range of choice" : "swing"; } // in messages
};

struct Part {
    std::string title;
    std::string instance; // the instance it belongs to, "haul.truck"; empty for the job's own model
    bool each_entry = false; // computed for each entry of a list
};
// An entry of a list, or one of each of several ("hill.pan"): those that the job lists come first,
// in its order. Where nothing is listed there is one of each list, without a name, and none of it
// here.
struct Entry {
    std::string name, label;
    std::string field_path, field_within; // as written; empty: none
    NodeId field_heading = none;
    Span span;
};
struct Cost {
    LineId rate = none, quantity = none, amount = none;
    std::uint32_t part = none; // the part of the job's model it counts in (a used model's costs
                               // join the part that uses it)
};
struct PriceStep {
    ast::StepKind kind;
    NodeId value = none;
    LineId line = none;    // the sum after this step
    bool per_unit = false; // at least, round: the value is money per unit of the item
    Span span;
};
struct PriceItem {
    std::string title, name; // "Ripping", "ripping"
    std::string per_text;    // "ac"; empty: a lump
    std::vector<std::uint32_t> costs;
    LineId cost = none, quantity = none, amount = none,
           rate = none; // quantity and rate: none for a lump
    std::vector<PriceStep> steps;
    Span span;
};
struct Condition {           // require or caution
    NodeId condition = none; // none: always
    NodeId costs = none;     // of a requirement: what the firm is out when it is not met
    std::string message;
    Span span;
    std::uint32_t entry = none;
};
struct Event {
    LineId count = none, amount = none, money = none; // NAME, NAME.amount, NAME.money: of one event
};
struct Counted { // what a log counts
    LineId line = none;
    LineId many = none;  // how many of the machine are on the job; none: one
    std::string machine; // whose meter it is: an instance with a fleet, "crawler"; may be empty
};
struct Fleet {                        // a machine, as its model says
    std::string name;                 // of the instance; of the job's own model, its file's
    NodeId costs = none, over = none; // a year, $/yr; hours a year, h/yr
};
struct Correlation {
    std::uint32_t first = none, second = none; // givens
    NodeId strength = none;
};
struct Table {
    std::string name, label;
    Type parameter, result;
    std::string parameter_name, parameter_text, result_text;
    std::vector<double> x, y;
    bool staircase = false, hold_below = false, hold_above = false;
    Span span;
};
struct FunctionRange {
    std::uint32_t parameter;
    NodeId low, high;
    Span span;
    std::string reason; // of a limit: a note of the error; may be empty
};
struct Local {
    std::string name;
    Type type;
    NodeId value = none;
    Span span;
};
struct FunctionExample {
    NodeId call = none, expected = none, tolerance = none;
    Span span;
};
// A define; checked once by itself, inlined where it is called. One over a list is here once for
// every number of rows that it is called with, its columns and what rests on them written out: of
// `each layer (thick : ft)` with two rows the last parameters are thick_1 and thick_2.
struct Function {
    std::string name;
    std::string label; // may be empty
    std::vector<std::string> parameters;
    std::vector<std::string> parameter_texts; // units or choices as written
    std::vector<Type> parameter_types;
    std::string list;                 // it is over this one; empty: over none
    std::vector<std::string> columns; // their names
    std::uint32_t rows = 0;
    Type type;
    std::string type_text;
    bool native = false;
    NodeId value = none;
    std::vector<Local> locals;
    std::vector<FunctionRange> tested, limits;
    std::vector<FunctionExample> examples;
    std::vector<std::string> sources, notes;
    ast::Known known = ast::Known::Unstated;
    Span span, name_span;
    FileId file = 0;
};

// "2027-11-15 .. 2028-02-28"
std::string days_text(const ast::Dates& days);

struct DatedSet { // of a season: what it sets for jobs of these days alone
    std::string given;
    Span span;
    ast::Dates within;
    bool in_force = false; // for this job

    bool holds_on(long day) const; // since 1970-01-01
};

struct JobInfo {
    std::string title, who, option;
    std::vector<std::pair<std::string, std::string>> words; // for the pages of its quote
    std::vector<std::string> notes;                         // for the crew alone
    std::optional<ast::Date> date;                          // its earliest start
    std::optional<ast::Date> latest;                        // its latest end
    std::vector<ast::Closed> closed; // what its season says; labels are views into the sources
    std::string model_title, season_title;
    std::vector<DatedSet> dated_sets;       // of givens that are there
    std::vector<std::string> season_unused; // names that the season sets and nothing here has
    std::string model_file, season_file;    // names of the texts; no season: empty
    Span model_span;                        // of the model's title
    std::vector<std::string> options;       // titles of all options of the job
    std::string field_path, field_within;   // as written; empty: none
    NodeId field_heading = none;
};

struct Firm { // of the job; without a file it has no name and works in dollars
    std::string name, file;
    Currency money;
    std::vector<std::pair<std::string, std::string>> words; // for the pages it signs
};

struct Sheet {
    JobInfo job;
    Firm firm;
    std::uint32_t notation = current_notation; // the version whose rules hold
    std::vector<Node> nodes;
    std::vector<NodeId> args;
    std::vector<Line> lines;
    std::vector<Given> givens;
    std::vector<Part> parts;
    std::vector<Entry> entries;
    std::vector<Cost> costs;
    std::vector<PriceItem> prices;
    std::vector<Condition> requires_, cautions;
    std::vector<Event> events;
    std::vector<Correlation> correlations;
    std::vector<Counted> counted; // those of the job's own model first
    std::vector<Fleet> fleets;
    std::vector<Table> tables;
    std::vector<Function> functions;
    std::vector<ChoiceType> choices;
    UnitCatalog units;
    // always there when the model has a price; overhead and contribution from notation 3 on
    LineId cost_total = none, price_total = none, price_per_unit = none, overhead_total = none,
           contribution_total = none, contribution_share = none, profit_total = none,
           profit_share = none;

    LineId find(std::string_view name) const; // none if there is no such line
    LineId add(Line line); // a name that is there already stays with its first line: then
                           // find(name) is another id

    NameTable line_names; // of `lines`
};

// What a step of a formula is made of, in the order written.
template <class Function>
void for_each_child(const Sheet& sheet, const Node& node, Function function) {
    for (const NodeId child : {node.a, node.b, node.c})
        if (child != none)
            function(child);
    for (std::uint32_t i = 0; i < node.arg_count; ++i)
        function(sheet.args[node.first_arg + i]);
}

class CheckedSheet {
  public:
    const Sheet& operator*() const { return sheet_; }
    const Sheet* operator->() const { return &sheet_; }

  private:
    explicit CheckedSheet(Sheet sheet) : sheet_(std::move(sheet)) {}
    Sheet sheet_;
    friend std::optional<CheckedSheet> check(Sheet sheet, const SourceMap& sources,
                                             class Diagnostics& diagnostics);
};

} // namespace acre::lang
