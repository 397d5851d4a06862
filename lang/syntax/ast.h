// The syntax tree: what a text says, before anybody asks what its names mean. Every node knows its
// span; names and units are views into the text, which the source map keeps alive.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "lang/source/source_map.h"
#include "lang/source/span.h"
#include "lang/syntax/ast_words.h"

namespace acre::lang::ast {

using ExprId = std::uint32_t;
inline constexpr std::uint32_t none = 0xFFFFFFFF;

enum class BinaryOp : std::uint8_t {
#define ACRE_PREFIX(...)
#define ACRE_BINARY(op, ...) op,
#define ACRE_FUNCTION(...)
#include "lang/syntax/operations.def"
};

struct Number {
    double value = 0;
    std::optional<UnitText> unit; // none: a plain number
};
struct Name {
    std::string_view text; // may be dotted
};
struct Negate {
    ExprId of;
};
struct Not {
    ExprId of;
};
struct Binary {
    BinaryOp op;
    Span op_span;
    ExprId left;
    ExprId right;
};
struct Is {
    ExprId value;
    Word choice;
    bool negated = false;
};
struct When {
    ExprId condition;
    ExprId then;
    ExprId otherwise;
};
struct Call {
    Word function;
    std::uint32_t first_arg; // into Module::args
    std::uint32_t arg_count;
    std::uint32_t each = none; // into Module::eaches; none: values alone
};
struct Row {                 // the values of one entry of `each layer (3 ft, …), (1 ft, …)`
    std::uint32_t first_arg; // into Module::args
    std::uint32_t arg_count;
    Span span;
};
struct Each { // what ends the values of a call: `each layer`, or with rows of values of its own
    Word list;
    std::vector<Row> rows; // none: the entries of the list, as the job has them
};

struct Expr {
    Span span;
    std::variant<Number, Name, Negate, Not, Binary, Is, When, Call> node;
};

struct Range {
    ExprId low = none;
    ExprId high = none;
    Span span;
};
enum class SwingShape : std::uint8_t { Unstated, Triangular, Pert, Even, Step };

struct Binding {
    Word name;
    ExprId value;
};
struct Use {
    Text path;
    std::optional<Word> alias;
    std::vector<Binding> bindings;
};
struct Noun {
    Word name;
};
struct UnitDefinition {
    Word name;
    std::string_view number; // decimal text, read exactly
    Span number_span;
    UnitText unit;
};
struct Choice {
    Word name;
    std::vector<Word> options;
};
struct Given {
    Word name;
    std::optional<UnitText> unit; // `: UNIT`; a word that is a choice name is found out by resolve
    std::vector<Word> options;    // `= a | b`: an anonymous choice, the first is the default
    ExprId value = none;          // none with no options: yours to set
    std::optional<Text> label;
    std::optional<Range> within;
    std::optional<Range> swing;
    bool chosen = false; // the range is of `choose`: settled before work starts
    bool of_it = false;  // its bounds are shares of the value
    SwingShape shape = SwingShape::Unstated;
    std::optional<Text> because;
    bool may_be_negative = false;
};
struct Line {
    Word name;
    UnitText unit;
    ExprId value = none;
    std::optional<Text> label;
    std::optional<Text> because;
    bool may_be_negative = false;
};
struct Cost {
    Word name;
    UnitText unit;
    ExprId rate = none;
    ExprId quantity = none;
    std::optional<Text> label;
    std::optional<Text> because;
    bool may_be_negative = false;
};
struct Event {
    Word name;
    ExprId rate = none;
    ExprId quantity = none;
    ExprId money = none;
    std::optional<Text> label;
};
struct Correlate {
    Word first;
    Word second;
    ExprId strength = none;
};
struct Require {
    ExprId condition = none;
    Text message;
    ExprId costs = none; // what the firm is out when it is not met; none: not said
};
struct Caution {
    ExprId condition = none; // none: always
    Text message;
};
enum class StepKind : std::uint8_t {
    Overhead,
    Contingency, // earlier for Reserve
    Reserve,
    Markup,
    Margin,
    AtLeast,
    RoundUp,
    RoundTo
};
struct Step {
    StepKind kind;
    ExprId value = none;
    Span span;
};
struct Price {
    Text title;
    bool lump = false;
    std::optional<UnitText> per; // the unit after `per`
    ExprId quantity = none;      // after `of`; none for a lump
    std::vector<Text> covers;    // empty: every cost no other item names
    std::vector<Step> steps;
};
enum class TableEnd : std::uint8_t { Error, Hold };
struct TableRow {
    ExprId x;
    ExprId y;
    Span span;
};
struct Parameter {
    Word name;
    UnitText type; // a unit, or the name of a choice
};
struct Table {
    Word name;
    Parameter parameter;
    UnitText unit;
    bool staircase = false;
    TableEnd below = TableEnd::Error;
    TableEnd above = TableEnd::Error;
    std::optional<Text> label;
    std::optional<Text> because;
    std::vector<TableRow> rows;
};
enum class Known : std::uint8_t { Unstated, Read, Recalled, CommonPractice, Ours };
struct ParameterRange {
    Word name;
    Range range;
    std::optional<Text> reason; // of a limit: shown when it is left
};
struct Example {
    ExprId call = none;
    ExprId expected = none;
    ExprId tolerance = none; // none: equal to 12 digits
    Span span;
};
struct Define {
    Word name;
    std::vector<Parameter> parameters;
    std::optional<Word> each;       // `each layer (…)`: it takes a list too
    std::vector<Parameter> columns; // of which an entry of the list has a value each
    UnitText type;
    bool native = false;
    ExprId value = none;
    std::optional<Text> label;
    std::vector<Line> locals;
    std::vector<Text> sources;
    Known known = Known::Unstated;
    std::vector<ParameterRange> tested;
    std::vector<ParameterRange> limits;
    std::vector<Example> examples;
    std::vector<Text> notes;
};
struct List { // of things that a part is computed for, one by one: `list leg "a stretch of road"`
    Word name;
    std::vector<Word> entries; // where the job lists none
    std::optional<Text> label;
};
struct Show { // what the customer may see
    std::vector<Word> names;
};
struct Counted {
    Word line;
    std::optional<Word> many; // the line that says how many of the machine are on the job
    std::optional<Word> of;   // the used model of the machine whose meter it is
};
struct Count { // what a log counts
    std::vector<Counted> lines;
};
struct Fleet { // `fleet costs … over …`: what a machine costs a year, and over how many hours
    ExprId costs = none;
    ExprId over = none;
    Span span;
};
struct Part {
    Text title;
    std::optional<Word> each; // the list it is computed for
    std::optional<Word> of;   // `each layer of block`: for each of these again
};

// statements of a job or a season
struct Date {
    int year = 0;
    int month = 0;
    int day = 0;
    Span span;
};
struct Dates { // of a job: its earliest start, and its latest end where it says one
    Date first;
    std::optional<Date> last;
};
struct Set {
    Word name;
    ExprId value = none;
    std::optional<Text> because;
    std::optional<Range> swing; // in place of the range that the model has
    bool of_it = false;
    SwingShape shape = SwingShape::Unstated;
    std::optional<Dates> within{}; // of a season: for jobs whose date is one of these days
};
struct Option {
    Text title;
    std::vector<Set> sets;
};
struct Entry { // `leg pass "over the pass"`: the list, then the name of the entry
    Word list;
    Word name;
    std::optional<Text> label;
    std::vector<Set> sets;
    // an entry may have a field of its own
    std::optional<Text> field, within;
    ExprId heading = none;
};
struct ModelReference {
    Text path;
};
struct SeasonReference {
    Text path;
};
struct FirmReference {
    Text path;
};
struct Money { // of a firm, with its sign and step; of a model, the code alone
    Word code;
    std::string_view sign;
    std::int64_t step = 1; // hundredths
};
struct Note { // of a job, for the crew
    Text text;
};
struct PageWord { // `: NAME = TEXT`, of a firm or a job
    Word name;
    Text text;
};
struct ValuesReference { // `with "over-the-pass"`
    Text path;
};
struct For {
    Text who;
};
struct Closed { // days on which nobody works: a day of the week, or from a date to a date
    std::optional<int> weekday; // 0: Sunday
    Date first, last;
    std::optional<Text> label;
};
struct Field {
    Text path;
    std::optional<Text> within; // of this ground only
    ExprId heading = none;      // none: as the layout finds best
};

using StatementNode =
    std::variant<Use, Noun, UnitDefinition, Choice, Part, Given, Line, Cost, Event, Correlate,
                 Require, Caution, Price, Table, Define, Set, Option, List, Entry, Show, Count,
                 Fleet, ModelReference, SeasonReference, ValuesReference, FirmReference, Money,
                 PageWord, Note, For, Dates, Closed, Field>;
struct Statement {
    Span span;                 // the whole statement with its inner lines
    std::uint32_t part = none; // index of the Part statement it stands in
    StatementNode node;
};

struct Module {
    FileId file = 0;
    FileKind kind = FileKind::Model;
    Text title;
    std::vector<Statement> statements; // as written; those of a part follow the part
    std::vector<Expr> exprs;
    std::vector<ExprId> args; // arguments of calls, by range
    std::vector<Each> eaches; // of calls
};

} // namespace acre::lang::ast
