// The grammar of one statement, as rules of PEGTL. layout.h decides which lines make a statement,
// actions.h tells what the rules build, messages.h what they say.
//
//   formula     = "when" disjunction "then" disjunction { "when" … "then" … } "otherwise" formula
//               | disjunction
//   disjunction = conjunction { "or" conjunction }  range = disjunction ".." disjunction
//   conjunction = negation { "and" negation }       negation = "not" negation | comparison
//   comparison  = sum [ ( "<=" | "<" | ">=" | ">" | "==" | "!=" ) sum | "is" [ "not" ] CHOICE ]
//   sum         = product { ( "+" | "-" ) product }     product = signed { ( "*" | "/" ) signed }
//   signed      = "-" signed | power            power = primary [ "^" signed ]   from the right
//   primary     = literal | NAME [ "(" [ formula { "," formula } ] ")" ] | "(" formula ")"
//   literal     = SIGN NUMBER { unit_tail } | NUMBER [ unit ]      SIGN: $ € £ ¥
//   unit        = unit_head { unit_tail }                           no blanks inside
//   unit_head   = unit_name [ "^" [ "-" ] DIGITS ] | "(" unit ")" [ "^" [ "-" ] DIGITS ] | "1"
//   unit_tail   = ( "." | "/" ) unit_head                           after "/" and "." never "1"
//   use         = "use" TEXT [ "as" NAME ] [ "with" NAME "=" formula { "," NAME "=" formula } ]
//   noun        = "noun" NAME                       unit_def = "unit" NAME "=" NUMBER unit
//   choice      = "choice" NAME "=" options         options = CHOICE { "|" CHOICE }
//   list        = "list" NAME [ "=" options ] [ TEXT ]   clause = TEXT | because | sign
//   part        = "part" TEXT [ "each" NAME [ "of" NAME ] ]
//   given       = "given" NAME [ ":" unit ] [ "=" ( options | formula ) ] { given_clause }
//   line        = NAME ":" unit "=" formula { clause }   sign = "may" "be" "negative"
//   cost        = "cost" NAME ":" unit "=" formula "over" formula { clause }
//   event       = "event" NAME "=" formula "over" formula "costs" formula [ TEXT ]
//   correlate   = "correlate" NAME "," NAME formula      entry = NAME NAME [ TEXT ]
//   require     = "require" formula TEXT [ "costs" formula ]
//   caution     = "caution" [ "when" disjunction ] TEXT
//   price       = "price" TEXT ( "lump" | "per" unit "of" formula ) [ "covers" TEXT { "," TEXT } ]
//   step        = ( "overhead" | "contingency" | "markup" | "margin" | "at" "least"
//               | "round" [ "up" ] "to" ) formula
//   table       = "table" NAME "(" NAME ":" unit ")" ":" [ "step" ] unit
//                 { clause | ( "below" | "above" ) ( "hold" | "error" ) }
//   define      = "define" NAME "(" [ NAME ":" unit { "," NAME ":" unit } ] ")" ":" unit
//                 ( "native" | "=" formula ) [ TEXT ]
//   inner       = line | ( "source" | "note" ) TEXT | "known" WORD
//               | ( "tested" | "limit" ) NAME range [ TEXT ]
//               | "example" disjunction "=" disjunction [ "within" disjunction ]
//   set         = "set" NAME "=" formula { because | "swing" … as of a given }
//   option      = "option" TEXT                          because = "because" TEXT
//   field       = "field" TEXT [ "heading" formula ]     row = [ "-" ] NUMBER [ "-" ] NUMBER
//   reference   = ( a word of the heads of files, "with" or "for" ) TEXT
//   money       = "money" CODE [ TEXT "to" literal ]     the rest in a firm's file only
//   firm_word   = ":" NAME "=" TEXT                 date = "date" YEAR "-" MONTH "-" DAY
//   given_clause = clause | "within" range | "choose" range
//                | "swing" [ "triangular" | "pert" | "even" | "step" ] range [ "of" "it" ]
#pragma once

#include <tao/pegtl.hpp>

#include "lang/syntax/words.h"

namespace acre::lang::grammar {

using namespace tao::pegtl; // of this namespace only: the page below is made of its rules

// clang-format off

// --- blanks, signs, texts, words. A token takes the blanks behind it along, so that the next rule
// looks at a sign.
struct comment         : seq<one<'#'>, until<at<sor<one<'\n'>, eof>>>> {};
struct blanks          : star<sor<one<' ', '\t', '\n', '\r'>, comment>> {};
struct end             : eof {};
template <typename T> struct token : seq<T, blanks> {};
template <char C> struct sign : seq<one<C>, blanks> {};
template <Keyword K> struct word_text; // below
template <Keyword K> struct word : seq<word_text<K>, blanks> {};

struct quote_close     : one<'"'> {};
struct text_text       : seq<one<'"'>, star<not_one<'"', '\n'>>, must<quote_close>> {};
struct text            : token<text_text> {};
struct colon           : sign<':'> {};
struct comma           : sign<','> {};
struct bar             : sign<'|'> {};
struct equals          : seq<one<'='>, not_at<one<'='>>, blanks> {};
struct dots            : seq<one<'.'>, one<'.'>, blanks> {};
struct open            : sign<'('> {};
struct close           : sign<')'> {};

// --- names. A used name ends before a word of the notation; a new one takes it and is told so.
struct name_char       : ranges<'a', 'z', 'A', 'Z', '0', '9', '_'> {};
struct name_text       : seq<alpha, star<name_char>> {};
struct dotted_text     : seq<name_text, star<one<'.'>, name_text>> {};
struct used_text; // below
struct used_name       : token<used_text> {};
struct new_text        : dotted_text {};
struct new_name        : token<new_text> {};
struct target_text     : dotted_text {};
struct target          : token<target_text> {};
struct choice_text     : name_text {};
struct choice_name     : token<choice_text> {};
struct choices         : seq<choice_name, star<bar, must<choice_name>>> {};

// --- numbers and units
struct digits          : plus<digit> {};
struct number_text     : seq<digits, star<one<','>, digits>, opt<one<'.'>, digits>, opt<one<'e',
                             'E'>, opt<one<'+', '-'>>, digits>> {};
struct number          : token<number_text> {};
struct money_sign      : sor<one<'$'>, string<'\xE2', '\x82', '\xAC'>, string<'\xC2', '\xA3'>,
                             string<'\xC2', '\xA5'>> {}; // $ € £ ¥
struct unit_power      : seq<opt<one<'-'>>, digits> {};
struct unit_raised     : opt<one<'^'>, must<unit_power>> {};
struct unit_start      : at<sor<alpha, one<'%', '('>, money_sign>> {};
struct unit_per        : seq<one<'1'>, at<one<'/'>, unit_start>> {}; // `1/h`
struct unit_factor     : seq<sor<name_text, one<'%'>, money_sign>, unit_raised> {};
struct unit_part       : seq<one<'.', '/'>, at<sor<alpha, one<'%'>, money_sign>>, unit_factor> {};
struct unit_inside     : seq<sor<unit_factor, unit_per>, star<unit_part>> {};
struct unit_close      : one<')'> {};
struct unit_bracket    : seq<one<'('>, must<unit_inside>, must<unit_close>, unit_raised> {};
struct unit_tail       : sor<unit_part, seq<one<'.', '/'>, at<one<'('>>, unit_bracket>> {};
struct unit_one        : seq<one<'1'>, not_at<name_char>> {};
struct unit_declared   : seq<sor<unit_factor, unit_bracket, unit_one>, star<unit_tail>> {};
struct unit            : token<unit_declared> {};
struct unit_word; // below
struct unit_behind     : seq<sor<seq<sor<unit_word, one<'%'>, money_sign>, unit_raised>, unit_per>,
                             star<unit_tail>> {};
struct dollar_number   : number_text {};
struct dollar_tail     : plus<unit_tail> {};
struct dollar_start    : seq<money_sign, must<dollar_number>> {};
struct dollar_amount   : seq<dollar_start, opt<dollar_tail>, blanks> {};
struct gap             : star<one<' ', '\t'>> {}; // a unit stands on the line of its number
struct plain_amount    : seq<number_text, opt<gap, unit_behind>, blanks> {};
struct literal         : sor<dollar_amount, plain_amount> {};

// --- formulas, from the strongest to the weakest
struct formula;
struct signed_value;
struct bracket_open    : open {};
struct bracket_close   : close {};
struct bracketed       : seq<bracket_open, must<formula>, must<bracket_close>> {};
struct call_open       : open {};
struct call_close      : close {};
struct call_tail       : seq<call_open, sor<call_close, seq<must<formula>, star<comma,
                             must<formula>>, must<call_close>>>> {};
struct reference       : seq<used_name, opt<call_tail>> {};
struct primary         : sor<literal, reference, bracketed> {};
struct power_sign      : sign<'^'> {};
struct power_tail      : seq<power_sign, must<signed_value>> {};
struct power           : seq<primary, opt<power_tail>> {};
struct minus           : sign<'-'> {};
struct negative        : seq<minus, must<signed_value>> {};
struct signed_value    : sor<negative, power> {};
struct product_sign    : one<'*', '/'> {};
struct product_tail    : seq<token<product_sign>, must<signed_value>> {};
struct product         : seq<signed_value, star<product_tail>> {};
struct sum_sign        : one<'+', '-'> {};
struct sum_tail        : seq<token<sum_sign>, must<product>> {};
struct sum             : seq<product, star<sum_tail>> {};
struct compare_sign    : sor<string<'<', '='>, string<'>', '='>, string<'=', '='>, string<'!',
                             '='>, one<'<', '>'>> {};
struct compare_tail    : seq<token<compare_sign>, must<sum>> {};
struct is_not          : word<Keyword::Not> {};
struct is_text         : name_text {};
struct is_choice       : token<is_text> {};
struct is_tail         : seq<word<Keyword::Is>, opt<is_not>, must<is_choice>> {};
struct comparison      : seq<sum, opt<sor<compare_tail, is_tail>>> {};
struct negation;
struct not_sign        : word<Keyword::Not> {};
struct denied          : seq<not_sign, must<negation>> {};
struct negation        : sor<denied, comparison> {};
struct and_sign        : word<Keyword::And> {};
struct and_tail        : seq<and_sign, must<negation>> {};
struct conjunction     : seq<negation, star<and_tail>> {};
struct or_sign         : word<Keyword::Or> {};
struct or_tail         : seq<or_sign, must<conjunction>> {};
struct disjunction     : seq<conjunction, star<or_tail>> {};
struct when_first      : word<Keyword::When> {};
struct when_next       : word<Keyword::When> {};
struct when_arm        : seq<must<disjunction>, must<word<Keyword::Then>>, must<disjunction>> {};
struct when_form       : seq<when_first, when_arm, star<when_next, when_arm>,
                             must<word<Keyword::Otherwise>>, must<formula>> {};
struct formula         : sor<when_form, disjunction> {};
struct range           : seq<must<disjunction>, must<dots>, must<disjunction>> {};

// --- clauses, in any order
struct label           : text {};
struct because         : seq<word<Keyword::Because>, must<text>> {};
struct within          : seq<word<Keyword::Within>, range> {};
struct triangular      : word<Keyword::Triangular> {};
struct pert            : word<Keyword::Pert> {};
struct even            : word<Keyword::Even> {};
struct stepwise        : word<Keyword::Step> {};
struct of_it           : seq<word<Keyword::Of>, must<word<Keyword::It>>> {};
struct swing           : seq<word<Keyword::Swing>, opt<sor<triangular, pert, even, stepwise>>,
                             range, opt<of_it>> {};
struct choose          : seq<word<Keyword::Choose>, range> {};
struct may_be_negative : seq<word<Keyword::May>, must<word<Keyword::Be>>,
                             must<word<Keyword::Negative>>> {};
struct hold            : word<Keyword::Hold> {};
struct table_end       : sor<hold, word<Keyword::Error>> {};
struct below           : seq<word<Keyword::Below>, must<table_end>> {};
struct above           : seq<word<Keyword::Above>, must<table_end>> {};

// --- statements of a model
struct binding         : seq<target, must<equals>, must<formula>> {};
struct alias           : seq<word<Keyword::As>, must<new_name>> {};
struct bindings        : seq<word<Keyword::With>, must<binding>, star<comma, must<binding>>> {};
struct use             : seq<word<Keyword::Use>, must<text>, opt<alias>, opt<bindings>,
                             must<end>> {};
struct noun            : seq<word<Keyword::Noun>, must<new_name>, must<end>> {};
struct exact_number    : number_text {};
struct exact           : token<exact_number> {};
struct unit_definition : seq<word<Keyword::Unit>, must<new_name>, must<equals>, must<exact>,
                             must<unit>, must<end>> {};
struct choice          : seq<word<Keyword::Choice>, must<new_name>, must<equals>, must<choices>,
                             must<end>> {};
struct each_of         : seq<word<Keyword::Of>, must<target>> {};
struct each_entry      : seq<word<Keyword::Each>, must<target>, opt<each_of>> {};
struct part            : seq<word<Keyword::Part>, must<text>, opt<each_entry>, must<end>> {};
struct list_statement   : seq<word<Keyword::List>, must<new_name>, opt<equals, must<choices>>,
                             star<label>, must<end>> {};
struct given_value     : sor<seq<at<choice_name, bar>, choices>, formula> {};
struct given           : seq<word<Keyword::Given>, must<new_name>, opt<colon, must<unit>>,
                             opt<equals, must<given_value>>,
                             star<sor<label, because, may_be_negative, within, swing, choose>>,
                             must<end>> {};
struct line_body       : seq<must<colon>, must<unit>, must<equals>, must<formula>> {};
struct line            : seq<must<new_name>, line_body, star<sor<label, because, may_be_negative>>,
                             must<end>> {};
struct quantity        : seq<must<word<Keyword::Over>>, must<formula>> {};
struct cost            : seq<word<Keyword::Cost>, must<new_name>, line_body, quantity,
                             star<sor<label, because, may_be_negative>>,
                             must<end>> {};
struct event           : seq<word<Keyword::Event>, must<new_name>, must<equals>, must<formula>,
                             quantity, must<word<Keyword::Costs>>, must<formula>,
                             star<label>, must<end>> {};
struct correlate       : seq<word<Keyword::Correlate>, must<target>, must<comma>, must<target>,
                             must<formula>, must<end>> {};
struct require         : seq<word<Keyword::Require>, must<formula>, must<text>,
                             opt<word<Keyword::Costs>, must<formula>>,
                             must<end>> {};
struct caution         : seq<word<Keyword::Caution>, opt<word<Keyword::When>, must<disjunction>>,
                             must<text>, must<end>> {};
struct lump            : word<Keyword::Lump> {};
struct priced          : sor<lump, seq<word<Keyword::Per>, must<unit>, must<word<Keyword::Of>>,
                             must<formula>>> {};
struct covers          : seq<word<Keyword::Covers>, must<text>, star<comma, must<text>>> {};
struct price           : seq<word<Keyword::Price>, must<text>, must<priced>, opt<covers>,
                             must<end>> {};
struct round_up        : word<Keyword::Up> {};
struct step_head       : sor<word<Keyword::Overhead>, word<Keyword::Contingency>,
                             word<Keyword::Markup>, word<Keyword::Margin>,
                             seq<word<Keyword::At>, must<word<Keyword::Least>>>,
                             seq<word<Keyword::Round>, opt<round_up>, must<word<Keyword::To>>>> {};
struct step            : seq<step_head, must<formula>, must<end>> {};
struct head_open       : open {};
struct head_close      : close {};
struct parameter       : seq<new_name, must<colon>, must<unit>> {};
struct staircase       : seq<word<Keyword::Step>, not_at<sor<word<Keyword::Below>,
                             word<Keyword::Above>, word<Keyword::Because>>>,
                             sor<unit_start, at<one<'1'>>>> {};
struct table           : seq<word<Keyword::Table>, must<new_name>, must<head_open>,
                             must<parameter>, must<head_close>, must<colon>, opt<staircase>,
                             must<unit>, star<sor<label, because, below, above>>, must<end>> {};
struct negative_cell   : seq<minus, must<number>> {};
struct cell            : sor<negative_cell, number> {};
struct row             : seq<must<cell>, must<cell>, must<end>> {};
struct native          : word<Keyword::Native> {};
struct parameters      : opt<parameter, star<comma, must<parameter>>> {};
struct define          : seq<word<Keyword::Define>, must<new_name>, must<head_open>, parameters,
                             must<head_close>, must<colon>, must<unit>,
                             sor<native, seq<must<equals>, must<formula>>>, star<label>,
                             must<end>> {};
struct known_text      : name_text {};
struct known           : seq<word<Keyword::Known>, must<token<known_text>>, must<end>> {};
struct parameter_range : seq<sor<word<Keyword::Tested>, word<Keyword::Limit>>, must<target>, range,
                             star<label>, must<end>> {};
struct example         : seq<word<Keyword::Example>, must<disjunction>, must<equals>,
                             must<disjunction>,
                             opt<word<Keyword::Within>, must<disjunction>>, must<end>> {};

// --- statements of a season or a job
struct set             : seq<word<Keyword::Set>, must<target>, must<equals>, must<formula>,
                             star<sor<because, swing>>, must<end>> {};
struct option          : seq<word<Keyword::Option>, must<text>, must<end>> {};
struct entry           : seq<must<target>, must<new_name>, star<label>, must<end>> {};
struct field           : seq<word<Keyword::Field>, must<text>, opt<word<Keyword::Heading>,
                             must<formula>>, must<end>> {};
struct date_text       : seq<rep<4, digit>, one<'-'>, rep<2, digit>, one<'-'>, rep<2, digit>,
                             not_at<name_char>> {};
struct date            : seq<word<Keyword::Date>, must<date_text>, blanks, must<end>> {};
struct text_line       : seq<sor<word<Keyword::Model>, word<Keyword::Library>,
                             word<Keyword::Season>, word<Keyword::Values>, word<Keyword::With>,
                             word<Keyword::Job>, word<Keyword::Firm>, word<Keyword::For>,
                             word<Keyword::Source>, word<Keyword::Note>>, must<text>,
                             must<end>> {};
struct code_text       : name_text {};
struct money_code      : token<code_text> {};
struct money_of_model  : seq<word<Keyword::Money>, must<money_code>, must<end>> {};
struct money_of_firm   : seq<word<Keyword::Money>, must<money_code>, must<text>,
                             must<word<Keyword::To>>, must<literal>, must<end>> {};
struct firm_word       : seq<colon, must<new_name>, must<equals>, must<text>, must<end>> {};
struct statement       : sor<use, noun, unit_definition, choice, part, given, cost, event,
                             correlate, require, caution, price, step, table, define,
                             known, parameter_range, example, set, option, field, date,
                             text_line, money_of_firm, firm_word, list_statement, line> {};

// --- the three rules that ask the table of words
template <Keyword K> struct word_text {
    using rule_t = word_text;
    using subs_t = empty_list;
    template <typename Input> static bool match(Input& in) {
        constexpr std::string_view spelling = spelling_of(K);
        const char* const p = in.current();
        const std::size_t left = in.size();
        if (left < spelling.size() || *p != spelling.front() ||
            std::string_view(p, spelling.size()) != spelling)
            return false;
        if (left > spelling.size() && is_name_char(p[spelling.size()]))
            return false;
        in.bump_in_this_line(spelling.size());
        return true;
    }
};
struct used_text {
    using rule_t = used_text;
    using subs_t = empty_list;
    template <typename Input> static bool match(Input& in) {
        const char* last = end_of_dotted_name(in.current(), in.end());
        const std::string_view name(in.current(), static_cast<std::size_t>(last - in.current()));
        if (name.empty() || !may_be_used(keyword_of(name), last, in.end()))
            return false;
        in.bump_in_this_line(name.size());
        return true;
    }
    // `sum`, `most` and `least` are names of functions only.
    static bool may_be_used(Keyword word, const char* p, const char* end) {
        if (is_value_word(word))
            return true;
        if (role_of(word) != WordRole::Value)
            return false;
        while (p != end && (*p == ' ' || *p == '\t'))
            ++p;
        return p != end && *p == '(';
    }
};
struct unit_word {
    using rule_t = unit_word;
    using subs_t = empty_list;
    template <typename Input> static bool match(Input& in) {
        const char* last = end_of_word(in.current(), in.end());
        const std::string_view name(in.current(), static_cast<std::size_t>(last - in.current()));
        if (name.empty() || is_reserved(keyword_of(name)))
            return false;
        in.bump_in_this_line(name.size());
        return true;
    }
};
// clang-format on

} // namespace acre::lang::grammar
