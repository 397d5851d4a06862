// Reads statements with the grammar: one run of PEGTL each, errors caught at the end of the
// statement.
#include "lang/syntax/parse.h"

#include <fmt/format.h>

#include "lang/syntax/actions.h"
#include "lang/syntax/assemble.h"
#include "lang/syntax/layout.h"
#include "lang/syntax/messages.h"
#include "lang/syntax/syntax_error.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

namespace pegtl = tao::pegtl;
namespace g = grammar;

// What a rule that must match stands for, when it does not.
struct Expectation {
    Expected expected;
    Keyword word = Keyword::None;
};
template <typename Rule> inline constexpr Expectation expectation{Expected::Value};
template <Keyword K> inline constexpr Expectation expectation<g::word<K>>{Expected::Word, K};
template <> inline constexpr Expectation expectation<g::end>{Expected::End};
template <> inline constexpr Expectation expectation<g::quote_close>{Expected::QuoteClose};
template <> inline constexpr Expectation expectation<g::unit_power>{Expected::UnitPower};
template <> inline constexpr Expectation expectation<g::unit_inside>{Expected::UnitInside};
template <> inline constexpr Expectation expectation<g::unit_close>{Expected::UnitClose};
template <> inline constexpr Expectation expectation<g::unit>{Expected::Unit};
template <> inline constexpr Expectation expectation<g::bracket_close>{Expected::BracketClose};
template <> inline constexpr Expectation expectation<g::call_close>{Expected::BracketClose};
template <> inline constexpr Expectation expectation<g::head_open>{Expected::BracketOpen};
template <> inline constexpr Expectation expectation<g::head_close>{Expected::BracketClose};
template <> inline constexpr Expectation expectation<g::is_choice>{Expected::ChoiceName};
template <> inline constexpr Expectation expectation<g::choice_name>{Expected::ChoiceName};
template <> inline constexpr Expectation expectation<g::choices>{Expected::ChoiceName};
template <> inline constexpr Expectation expectation<g::new_name>{Expected::Name};
template <> inline constexpr Expectation expectation<g::target>{Expected::Name};
template <> inline constexpr Expectation expectation<g::binding>{Expected::Name};
template <> inline constexpr Expectation expectation<g::shown>{Expected::Name};
template <> inline constexpr Expectation expectation<g::counted>{Expected::Name};
template <> inline constexpr Expectation expectation<g::call_list>{Expected::Name};
template <> inline constexpr Expectation expectation<g::define_list>{Expected::Name};
template <> inline constexpr Expectation expectation<g::row_close>{Expected::BracketClose};
template <> inline constexpr Expectation expectation<g::call_row>{Expected::Row};
template <> inline constexpr Expectation expectation<g::parameter>{Expected::Name};
template <> inline constexpr Expectation expectation<g::text>{Expected::Text};
template <> inline constexpr Expectation expectation<g::colon>{Expected::Colon};
template <> inline constexpr Expectation expectation<g::comma>{Expected::Comma};
template <> inline constexpr Expectation expectation<g::equals>{Expected::Equals};
template <> inline constexpr Expectation expectation<g::dots>{Expected::Dots};
template <> inline constexpr Expectation expectation<g::exact>{Expected::Number};
template <> inline constexpr Expectation expectation<g::number>{Expected::Number};
template <> inline constexpr Expectation expectation<g::dollar_number>{Expected::Number};
template <> inline constexpr Expectation expectation<g::cell>{Expected::Cell};
template <> inline constexpr Expectation expectation<g::priced>{Expected::PriceForm};
template <> inline constexpr Expectation expectation<g::table_end>{Expected::TableEnd};
template <> inline constexpr Expectation expectation<g::token<g::known_text>>{Expected::Known};
template <> inline constexpr Expectation expectation<g::money_code>{Expected::MoneyCode};
template <> inline constexpr Expectation expectation<g::day>{Expected::Date};

constexpr std::size_t bytes_a_value =
    12; // of text, for each piece of a formula: few texts have more pieces
constexpr std::size_t large_text = 256 * 1024;

struct Failure { // thrown by a rule that must match; becomes a message where the statement is known
    Expectation expectation;
    const char* at;
};

template <typename Rule> struct control : pegtl::normal<Rule> {
    template <typename Input>
    [[noreturn]] static void raise(const Input& in, Reading& /*reading*/) {
        throw Failure{expectation<Rule>, in.current()};
    }
};

class StatementReader {
  public:
    StatementReader(ast::Module& module, std::string_view text, Diagnostics& diagnostics)
        : text_(text),
          file_(module.file),
          diagnostics_(diagnostics),
          formulas_(module, text.data()) {}

    // False when the statement cannot be read; the reason is reported.
    bool read(const LogicalLine& line, Form form) {
        if (line.end - line.begin > max_statement_bytes) {
            report_too_long(line);
            return false;
        }
        draft_.clear();
        const std::string_view statement = text_.substr(line.begin, line.end - line.begin);
        formulas_.begin_statement(statement);
        try {
            run(statement, form);
            return true;
        } catch (const Failure& failure) {
            diagnostics_.add(describe({text_, file_, line.begin, line.end,
                                       static_cast<std::uint32_t>(failure.at - text_.data()),
                                       failure.expectation.expected, failure.expectation.word,
                                       line.head, form == Form::Row, formulas_.open_brackets()}));
        } catch (SyntaxError& error) {
            diagnostics_.add(std::move(error.diagnostic));
        }
        nested_errors_ += formulas_.nesting();
        formulas_.drop_statement();
        return false;
    }
    // Where statements ended early, in how many brackets, conditions and signs, all together.
    std::size_t nested_errors() const { return nested_errors_; }
    Draft& draft() { return draft_; }
    Formulas& formulas() { return formulas_; }

  private:
    void report_too_long(const LogicalLine& line) {
        diagnostics_.add(
            {Code::S120,
             fmt::format("the statement has {} bytes, more than the limit of {}",
                         number_text(line.end - line.begin), number_text(max_statement_bytes)),
             {{file_, line.begin, line.begin + 1}, "starts here"},
             {},
             {},
             {{"move parts of it to lines of their own", {}}}});
    }

    template <typename Rule> void run_rule(std::string_view statement) {
        pegtl::memory_input<pegtl::tracking_mode::lazy, pegtl::eol::lf, const char*> in(
            statement.data(), statement.data() + statement.size(), "");
        Reading reading{formulas_, draft_};
        const bool read = pegtl::parse<Rule, g::action, control>(in, reading);
        if (!read) // a rule begins with the word it was chosen by, so it cannot fail before it must
                   // match
            throw Failure{{Expected::End}, in.current()};
    }

    void run_of_a_firm(std::string_view s, Form form) {
        if (form == Form::ModelMoney)
            return run_rule<g::money_of_model>(s);
        if (form == Form::FirmMoney)
            return run_rule<g::money_of_firm>(s);
        run_rule<g::page_word>(s);
    }

    void run(std::string_view s, Form form) {
        switch (form) {
        case Form::Use:
            return run_rule<g::use>(s);
        case Form::Noun:
            return run_rule<g::noun>(s);
        case Form::UnitDefinition:
            return run_rule<g::unit_definition>(s);
        case Form::Choice:
            return run_rule<g::choice>(s);
        case Form::Part:
            return run_rule<g::part>(s);
        case Form::Given:
            return run_rule<g::given>(s);
        case Form::Line:
            return run_rule<g::line>(s);
        case Form::Cost:
            return run_rule<g::cost>(s);
        case Form::Event:
            return run_rule<g::event>(s);
        case Form::Correlate:
            return run_rule<g::correlate>(s);
        case Form::Require:
            return run_rule<g::require>(s);
        case Form::Caution:
            return run_rule<g::caution>(s);
        case Form::Price:
            return run_rule<g::price>(s);
        case Form::Step:
            return run_rule<g::step>(s);
        case Form::Table:
            return run_rule<g::table>(s);
        case Form::Row:
            return run_rule<g::row>(s);
        case Form::Define:
            return run_rule<g::define>(s);
        case Form::Known:
            return run_rule<g::known>(s);
        case Form::ParameterRange:
            return run_rule<g::parameter_range>(s);
        case Form::Example:
            return run_rule<g::example>(s);
        case Form::Set:
            return run_rule<g::set>(s);
        case Form::Option:
            return run_rule<g::option>(s);
        case Form::List:
            return run_rule<g::list_statement>(s);
        case Form::Show:
            return run_rule<g::show>(s);
        case Form::Count:
            return run_rule<g::count>(s);
        case Form::Fleet:
            return run_rule<g::fleet>(s);
        case Form::Entry:
            return run_rule<g::entry>(s);
        case Form::Field:
            return run_rule<g::field>(s);
        case Form::Date:
            return run_rule<g::date>(s);
        case Form::Closed:
            return run_rule<g::closed>(s);
        case Form::TextLine:
            return run_rule<g::text_line>(s);
        default:
            return run_of_a_firm(s, form);
        }
    }

    std::string_view text_;
    FileId file_;
    Diagnostics& diagnostics_;
    Formulas formulas_;
    Draft draft_;
    std::size_t nested_errors_ = 0;
};

} // namespace

ast::Module parse(const SourceMap& sources, FileId file, FileKind kind, Diagnostics& diagnostics) {
    ast::Module module;
    module.file = file;
    module.kind = kind;
    const LogicalLines layout = lay_out(sources, file, kind, diagnostics);
    if (!layout.readable)
        return module;
    const std::string_view text = sources.file(file).text();
    module.statements.reserve(layout.lines.size());
    // No node has less than a byte. A large text would grow its tree while it is read, and have it
    // twice for a moment; what is reserved and not touched takes no memory.
    module.exprs.reserve(text.size() < large_text ? text.size() / bytes_a_value : text.size());
    StatementReader reader(module, text, diagnostics);
    Assembler assembler(module, layout.lines, text, kind, diagnostics);
    const std::size_t errors_before = diagnostics.error_count();
    const auto errors = [&] {
        return diagnostics.error_count() - errors_before + reader.nested_errors();
    };
    for (std::uint32_t i = 0; i < layout.lines.size() && errors() < max_syntax_errors; ++i) {
        const LogicalLine& line = layout.lines[i];
        const std::optional<Form> form = assembler.form_of(i);
        if (form && !line.damaged && reader.read(line, *form))
            assembler.add(i, reader.draft(), reader.formulas());
    }
    assembler.finish();
    return module;
}

} // namespace acre::lang
