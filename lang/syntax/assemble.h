// Puts statements together: which may stand where, inner lines into the statement they belong to.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/syntax/ast.h"
#include "lang/syntax/draft.h"
#include "lang/syntax/layout.h"

namespace acre::lang {

// Which rule of the grammar reads a statement.
enum class Form : std::uint8_t {
    Use,
    Noun,
    UnitDefinition,
    Choice,
    Part,
    Given,
    Line,
    Cost,
    Event,
    Correlate,
    Require,
    Caution,
    Price,
    Step,
    Table,
    Row,
    Define,
    Known,
    ParameterRange,
    Example,
    Set,
    Option,
    List,
    Entry,
    Field,
    Date,
    Closed,
    TextLine,
    ModelMoney,
    FirmMoney,
    PageWord,
    Show,
    Count,
    Fleet
};

class Assembler {
  public:
    // `kind` is the kind of file by its name; the module gets the kind its text says.
    Assembler(ast::Module& module, const std::vector<LogicalLine>& lines, std::string_view text,
              FileKind kind, Diagnostics& diagnostics);

    // How to read line `index`; empty when it may not stand where it stands (S104, S114, S119 are
    // reported) or belongs to such a statement. Lines are asked for in order.
    std::optional<Form> form_of(std::uint32_t index);
    // Line `index` has been read. Reports S112, S113, S116.
    void add(std::uint32_t index, Draft& draft, Formulas& formulas);
    // After the last line.
    void finish();

  private:
    bool is_header(std::uint32_t index) const {
        return index == 0 && kind_ != FileKind::CommandLine;
    }
    std::optional<Form> header_form(const LogicalLine& line);
    void misplaced(const LogicalLine& line);
    ast::StatementNode make(const LogicalLine& line, Draft& draft, Formulas& formulas);
    void add_inner(const LogicalLine& line, ast::Statement& parent, Draft& draft,
                   Formulas& formulas);
    void add_row(ast::Table& table, const LogicalLine& line, Formulas& formulas);
    void add_to_define(ast::Define& define, const LogicalLine& line, Draft& draft,
                       Formulas& formulas);
    void check_once(const LogicalLine& line);
    ast::Money make_money(const Draft& draft, ast::ExprId step); // S125
    ast::PageWord make_page_word(const Draft& draft);            // S116, S122
    ast::Closed make_closed(const Draft& draft, Span whole);     // S116, S122, S126
    void misplaced_days(Span days);
    bool too_many_inner(const LogicalLine& line); // S122
    void close_table();
    void twice(std::string_view what, Span again, Span first);
    Span span(const LogicalLine& line) const { return {module_.file, line.begin, line.end}; }
    std::string_view first_word(const LogicalLine& line) const;

    ast::Module& module_;
    const std::vector<LogicalLine>& lines_;
    std::string_view text_;
    FileKind kind_;
    bool says_what_it_is_ = false; // the first statement is a header, right or wrong
    Diagnostics& diagnostics_;
    std::vector<std::uint32_t>
        statement_of_; // of a line: index of its statement; no_statement when it has none
    std::vector<bool>
        skipped_; // the statement of the line is misplaced: its inner lines are not read
    std::uint32_t table_line_ = no_parent; // the table whose rows are being read
    std::uint32_t rows_seen_ = 0;
    std::uint32_t counted_ = no_parent; // the statement whose inner lines are being counted
    std::uint32_t inner_seen_ = 0;
    std::optional<double> last_x_;
    std::optional<Span> last_x_span_;
    std::vector<ast::Word> page_words_;
    std::array<std::optional<Span>, 7> closed_weekdays_; // where each is said
    std::uint32_t closed_seen_ = 0;
    std::vector<std::pair<Keyword, Span>> said_once_; // statements of a job that may stand once
};

// A line of a model or of a define; what a job, a season or an entry of a list sets.
ast::Line make_line(const Draft& draft, ast::ExprId value);
ast::Set make_set(const Draft& draft, ast::ExprId value);

ast::Dates make_dates(const Draft& draft);

// The number a table cell or another literal has, with its sign; empty for anything else.
std::optional<double> literal_value(const ast::Module& module, ast::ExprId id);

} // namespace acre::lang
