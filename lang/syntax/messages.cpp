#include "lang/syntax/messages.h"

#include <utility>

#include <fmt/format.h>

#include "lang/syntax/habits.h"
#include "lang/syntax/nothing_after.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/tokens.h"

namespace acre::lang {
namespace {

class Describer {
  public:
    explicit Describer(const Break& b)
        : b_(b),
          before_(token_before(b.text, b.begin, b.at)),
          found_(next_solid_token(b.text, b.at, b.end)) {}

    Diagnostic run() const {
        if (b_.expected == Expected::QuoteClose)
            return describe_unclosed_text(b_, b_.text.rfind('"', b_.at - 1));
        if (found_.kind == TokenKind::Text && (found().size() == 1 || found().back() != '"'))
            return describe_unclosed_text(b_, found_.begin);
        if (found_.kind == TokenKind::Sign && is_foreign_sign(found()))
            return describe_foreign_sign(found(), span(found_));
        switch (b_.expected) {
        case Expected::Value:
        case Expected::Number:
            return missing_value();
        case Expected::Name:
        case Expected::ChoiceName:
            return missing_name();
        case Expected::Text:
            return after_value("text in quotes is missing after {}", "write it as \"…\"");
        case Expected::Colon:
            return missing_colon();
        case Expected::Unit:
            return missing_unit();
        case Expected::UnitPower:
            return bad_unit("the power of a unit must be a whole number",
                            "right after a unit, `^` belongs to the unit; to raise the whole "
                            "value, put a space before it");
        case Expected::UnitInside:
        case Expected::UnitClose:
            return bad_unit_bracket();
        case Expected::Equals:
            return missing_equals();
        case Expected::Dots:
            return after_value("`..` and an upper bound are missing after {}",
                               "write a range as  A .. B");
        case Expected::Comma:
            return missing("a comma is missing after {}", "write  correlate A, B 60 %");
        case Expected::Word:
            return missing_word();
        case Expected::BracketOpen:
            return missing("`(` is missing after {}",
                           "list its parameters in parentheses: (NAME : UNIT)");
        case Expected::BracketClose:
            return unclosed_bracket();
        case Expected::Row:
            return missing("another row is missing after {}",
                           "`each` comes last in a call: behind it stand only rows, (…), (…)");
        case Expected::Cell:
            return bad_row();
        case Expected::PriceForm:
            return missing("`per` or `lump` is missing after {}",
                           "write  per UNIT of QUANTITY  or  lump");
        case Expected::TableEnd:
            return missing("`hold` or `error` is missing after {}",
                           "`hold` keeps the value of the last row, `error` stops");
        case Expected::Known:
        case Expected::MoneyCode:
            return missing_special();
        case Expected::Date:
            return bad_date();
        case Expected::QuoteClose:
        case Expected::End:
            break;
        }
        return left_over();
    }

  private:
    std::string_view found() const { return found_.in(b_.text); }
    std::string_view before() const { return before_.in(b_.text); }
    bool at_end() const { return found_.kind == TokenKind::End; }
    Span span(Token t) const { return {b_.file, t.begin, t.end}; }
    std::string_view at_text(Span s) const { return b_.text.substr(s.begin, s.end - s.begin); }
    static std::string quoted(std::string_view text) {
        return fmt::format("`{}`", shortened(text));
    }
    bool begins_a_line(Token t) const {
        std::uint32_t i = t.begin;
        while (i > b_.begin && (b_.text[i - 1] == ' ' || b_.text[i - 1] == '\t'))
            --i;
        return i > b_.begin && b_.text[i - 1] == '\n';
    }
    bool is_value(Token t) const {
        return t.kind == TokenKind::Number || t.in(b_.text) == ")" || t.in(b_.text) == "%" ||
               (t.kind == TokenKind::Name && is_value_word(keyword_of(t.in(b_.text))));
    }
    static Diagnostic make(Code code, std::string title, Span at, std::string label,
                           std::string help) {
        Diagnostic d{code, std::move(title), {at, std::move(label)}, {}, {}, {}};
        if (!help.empty())
            d.helps.push_back({std::move(help), {}});
        return d;
    }
    // Something is missing behind the token before: that token is labelled, since behind it there
    // may be nothing.
    Diagnostic missing(const char* title, std::string help, std::string label = "") const {
        return make(Code::S103, fmt::format(fmt::runtime(title), quoted(before())), span(before_),
                    std::move(label), std::move(help));
    }
    // The same where a formula ends: a value that follows it lacks an operator.
    Diagnostic after_value(const char* title, std::string help) const {
        return at_end() || !breaks_a_formula() ? missing(title, std::move(help)) : left_over();
    }
    bool breaks_a_formula() const {
        const std::string_view f = found();
        return begins_a_line(found_) ||
               (is_value(before_) && (is_value(found_) || f == "(" || f == ")")) ||
               is_comparison(f) || f == "=" || f == ",";
    }
    static bool is_comparison(std::string_view s) {
        return s == "<" || s == ">" || s == "<=" || s == ">=" || s == "==" || s == "!=";
    }

    Diagnostic missing_value() const {
        const Keyword word = found_.kind == TokenKind::Name ? keyword_of(found()) : Keyword::None;
        if (found() == "." && found_.end < b_.end && is_digit(b_.text[found_.end]))
            return leading_point();
        if (word == Keyword::When)
            return make(Code::S103, "a `when` inside a formula needs parentheses", span(found_), "",
                        "write  (when … then … otherwise …)");
        const WordRole role = role_of(word);
        if (!begins_a_line(found_) &&
            (role == WordRole::Opener || role == WordRole::Statement || role == WordRole::Value))
            return reserved(found_);
        const std::string_view label = nothing_after(before());
        Diagnostic d = missing("a value is missing after {}", "", std::string(label));
        if (found_.kind == TokenKind::Text)
            d.notes.emplace_back("text in quotes is not a value");
        return d;
    }

    Diagnostic leading_point() const {
        Diagnostic d = make(Code::S106, "a number cannot start with a decimal point", span(found_),
                            "no digit before it", "");
        const Token digits = next_token(b_.text, found_.end, b_.end);
        d.helps.push_back({fmt::format("write  0.{}", shortened(digits.in(b_.text))),
                           Edit{{b_.file, found_.begin, found_.begin}, "0"}});
        return d;
    }

    Diagnostic reserved(Token t) const {
        return make(
            Code::S108,
            fmt::format("{} is a reserved word and cannot be a name", quoted(t.in(b_.text))),
            span(t), "", fmt::format("choose another name, such as `{}_1`", t.in(b_.text)));
    }

    Diagnostic missing_name() const {
        if (found_.begin == b_.begin)
            return describe_unknown(b_.text, {b_.file, b_.begin, b_.end}, "");
        if (found_.kind == TokenKind::Number)
            return make(Code::S103, fmt::format("a name is missing after {}", quoted(before())),
                        span(found_), "a name must start with a letter", "");
        if (found() == "_")
            return make(Code::S103, "a name must start with a letter", span(found_), "", "");
        return missing(b_.expected == Expected::Name ? "a name is missing after {}"
                                                     : "the name of a choice is missing after {}",
                       "");
    }

    Diagnostic missing_special() const {
        return b_.expected == Expected::Known
                   ? missing("{} needs a word: how sure is the formula?",
                             "write one of  read  recalled  common_practice  ours")
                   : missing("the code of the money is missing after {}",
                             "write its three letters, as in  money USD");
    }

    Diagnostic missing_colon() const {
        const std::string_view name = before();
        const bool head = before_.begin == b_.begin; // the line begins with the name
        if (head && found() != "=")
            return describe_unknown(b_.text, {b_.file, b_.begin, b_.end}, "");
        if (name == ")")
            return make(Code::S105, "a unit is missing after `)`", span(before_), "no unit",
                        "write  ) : UNIT  (for a plain number,  ) : 1)");
        return make(Code::S105, fmt::format("the unit of {} is missing", quoted(name)),
                    span(before_), "no unit",
                    fmt::format("write  {} : UNIT{}  (for a plain number,  {} : 1)", name,
                                found() == "=" ? " = …" : "", name));
    }

    Diagnostic missing_unit() const {
        if (found_.kind == TokenKind::Number)
            return make(Code::S107, "a unit must start with a letter, % or a sign of money",
                        span(found_), "a number", "a plain number has the unit 1");
        return make(Code::S105, fmt::format("a unit is missing after {}", quoted(before())),
                    span(before_), "no unit", "for a plain number, write 1");
    }

    Diagnostic bad_unit(std::string title, std::string help = "") const {
        const Span at = at_end() ? span(before_) : span(found_);
        if (help.empty())
            help = "write units without spaces: $/(ac.ft), ft^2; to divide by a value, put spaces "
                   "around `/`";
        return make(Code::S107, std::move(title), at, "", std::move(help));
    }

    Diagnostic bad_unit_bracket() const {
        const std::string_view f = found();
        if (b_.expected == Expected::UnitInside || f == "." || f == "/" || f == "^")
            return bad_unit("a unit with parentheses must be written without spaces");
        return make(Code::S107, "the parenthesis in a unit is not closed", span(before_),
                    "`)` is missing after this", "write units without spaces:  $/(ac.ft)");
    }

    Diagnostic missing_equals() const {
        const std::string_view f = found();
        if (f == "/" || f == "^" || f == "." || f == "*")
            return bad_unit(
                "a unit is written without spaces, with `.` to multiply and `/` to divide");
        if (f == "==")
            return make(Code::S103, "`==` compares; use `=` to give a value", span(found_), "",
                        "write `=`");
        return missing("`=` and a value are missing after {}", "");
    }

    Diagnostic missing_word() const {
        const std::string word = quoted(spelling_of(b_.word));
        const bool of_when = b_.word == Keyword::Then || b_.word == Keyword::Otherwise;
        if (!at_end() && breaks_a_formula())
            return left_over();
        if (of_when)
            return make(Code::S111, fmt::format("`when` has no {}", word), span(before_),
                        fmt::format("{} is missing after this", word),
                        "write  when CONDITION then VALUE otherwise VALUE");
        std::string help;
        if (b_.word == Keyword::Over)
            help = "write  = RATE over QUANTITY  (a lump sum is over 1)";
        if (b_.word == Keyword::Costs)
            help = "write  costs MONEY";
        if (b_.word == Keyword::Be || b_.word == Keyword::Negative)
            help = "write  may be negative";
        if (b_.word == Keyword::To)
            help = "write  round up to $5/ac  or  round to $5/ac";
        return make(Code::S103, fmt::format("{} is missing after {}", word, quoted(before())),
                    span(before_), "", std::move(help));
    }

    Diagnostic unclosed_bracket() const {
        if ((!at_end() && breaks_a_formula()) || b_.open_brackets.empty())
            return left_over();
        const std::uint32_t open = b_.open_brackets.back();
        Diagnostic d = make(Code::S101, "a parenthesis is not closed", {b_.file, open, open + 1},
                            "opened here", "close it with )");
        if (at_end() && b_.open_brackets.size() == 1 && closes_at_the_end(open))
            d.helps.front().edit = Edit{{b_.file, before_.end, before_.end}, ")"};
        return d;
    }

    // Whether nothing in the parenthesis binds stronger than its sums: then it can only close at
    // the end.
    bool closes_at_the_end(std::uint32_t open) const {
        for (Token t = next_solid_token(b_.text, open + 1, b_.end); t.kind != TokenKind::End;
             t = next_solid_token(b_.text, t.end, b_.end))
            if (const std::string_view sign = t.in(b_.text);
                t.kind == TokenKind::Sign &&
                std::string_view("*/^(),<>").find(sign) != std::string_view::npos)
                return false;
        return true;
    }

    Diagnostic bad_row() const {
        if (found_.begin == b_.begin || at_end())
            return make(Code::S103, "a table row is two numbers", {b_.file, b_.begin, b_.end}, "",
                        "write two numbers with spaces between them, in the units of the table's "
                        "first line");
        return make(Code::S100, "a table row is two numbers", span(found_), "not a number",
                    "the units are in the table's first line");
    }

    Diagnostic bad_date() const {
        const Span at = at_end() ? span(before_) : Span{b_.file, found_.begin, b_.end};
        return describe_date(at_end() ? "" : at_text(at), at);
    }

    Diagnostic left_over() const {
        const std::string_view f = found();
        if (f == ")")
            return make(Code::S101, "a closing parenthesis has no opening one", span(found_),
                        "no ( before this", "");
        if (begins_a_line(found_))
            return make(
                Code::S115,
                fmt::format("{} is indented deeper than the line above, so it continues that line",
                            quoted(f)),
                span(found_), "",
                "to start a new statement, begin in the same column as the one above");
        std::string title = fmt::format("{} does not belong here", quoted(f));
        std::string label;
        std::string help;
        if (b_.row) {
            help = "a row is two numbers, in the units of the table's first line";
        } else if (is_comparison(f)) {
            help = "compare two values at a time: a < b and b < c";
        } else if (f == "=") {
            help = "to compare, write `==`; a choice is compared with `is`";
        } else if (f == "," &&
                   token_before(b_.text, b_.begin, before_.begin).in(b_.text) == "each") {
            help = "`each` comes last in a call, or rows of its own follow it:  (…), (…)";
        } else if (f == ",") {
            help = "without a space after it, a comma groups three digits";
        } else if (f == "|") {
            help = "choices are names: NAME | NAME";
        } else if (found_.kind == TokenKind::Text) {
            label = "unexpected text";
        } else if (is_value(before_) && (is_value(found_) || f == "(")) {
            title = fmt::format("an operator is missing before {}", quoted(f));
            const bool money = before_.kind == TokenKind::Number && before_.begin > b_.begin &&
                               b_.text[before_.begin - 1] == '$';
            help = money ? fmt::format("money per unit is written ${}/{}", before(), f)
                         : "to multiply, write `*`";
            if (const auto near = near_word(f, {WordRole::Joint}); near && f.size() >= 4)
                help = fmt::format("did you mean `{}`?", *near);
        }
        return make(Code::S110, std::move(title), span(found_), std::move(label), std::move(help));
    }

    const Break& b_;
    Token before_;
    Token found_;
};

} // namespace

Diagnostic describe(const Break& b) {
    if (std::optional<Diagnostic> habit = describe_habit(b))
        return std::move(*habit);
    return Describer(b).run();
}

} // namespace acre::lang
