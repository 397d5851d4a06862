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
//   primary     = literal | NAME [ "(" [ values ] ")" ] | "(" formula ")"
//   values      = formula { "," formula } [ "," each ] | each
//   each        = "each" LIST [ row { "," row } ]       row = "(" formula { "," formula } ")"
//   literal     = SIGN NUMBER { unit_tail } | NUMBER [ unit ]      SIGN: $ € £ ¥
//               | HOURS ":" MINUTES
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
//   show        = "show" NAME { "," NAME }          count = "count" counted { "," counted }
//   fleet       = "fleet" "costs" formula "over" formula     counted = NAME [ "of" [ NAME ] NAME ]
//   require     = "require" formula TEXT [ "costs" formula ]
//   caution     = "caution" [ "when" disjunction ] TEXT
//   price       = "price" TEXT ( "lump" | "per" unit "of" formula ) [ "covers" TEXT { "," TEXT } ]
//   step        = ( "overhead" | "reserve" | "markup" | "margin" | "at" "least"
//               | "round" [ "up" ] "to" ) formula
//   table       = "table" NAME "(" NAME ":" unit ")" ":" [ "step" ] unit
//                 { clause | ( "below" | "above" ) ( "hold" | "error" ) }
//   define      = "define" NAME "(" [ parameters ] ")" [ "each" LIST "(" parameters ")" ] ":" unit
//                 ( "native" | "=" formula ) [ TEXT ]   parameters = NAME ":" unit { "," … }
//   inner       = line | ( "source" | "note" ) TEXT | "known" WORD
//               | ( "tested" | "limit" ) NAME range [ TEXT ]
//               | "example" disjunction "=" disjunction [ "within" disjunction ]
//   set         = "set" NAME "=" formula { because | "swing" … as of a given | "within" days }
//   option      = "option" TEXT                          because = "because" TEXT
//   field       = "field" TEXT [ "within" TEXT ] [ "heading" formula ]
//   row         = [ "-" ] NUMBER [ "-" ] NUMBER
//   reference   = ( a word of the heads of files, "with" or "for" ) TEXT
//   money       = "money" CODE [ TEXT "to" literal ]     the rest in a firm's file only
//   page_word   = ":" NAME "=" TEXT                 days = DATE [ ".." DATE ]
//   date        = "date" days                       DATE: YEAR "-" MONTH "-" DAY
//   closed      = "closed" ( WEEKDAY | days ) [ TEXT ]
//   given_clause = clause | "within" range | "choose" range
//                | "swing" [ "pert" | "even" | "whole" ] range [ "of" "it" ]
#pragma once

#include "lang/syntax/grammar_tokens.h"

namespace acre::lang::grammar {

// clang-format off

// --- formulas, from the strongest to the weakest
struct formula;
struct signed_value;
struct bracket_open    : open {};
struct bracket_close   : close {};
struct bracketed       : seq<bracket_open, must<formula>, must<bracket_close>> {};
struct call_open       : open {};
struct call_close      : close {};
struct call_list_text  : name_text {};
struct call_list       : token<call_list_text> {};
struct row_open        : open {};
struct row_close       : close {};
struct call_row        : seq<row_open, must<formula>, star<comma, must<formula>>,
                             must<row_close>> {};
struct call_each       : seq<word<Keyword::Each>, must<call_list>,
                             opt<call_row, star<comma, must<call_row>>>> {};
struct call_values     : sor<call_each, seq<must<formula>, star<comma,
                             not_at<word<Keyword::Each>>, must<formula>>,
                             opt<comma, call_each>>> {};
struct call_tail       : seq<call_open, sor<call_close, seq<call_values, must<call_close>>>> {};
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
struct stepwise        : sor<word<Keyword::Whole>, word<Keyword::Step>> {};
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
struct shown           : seq<target> {};
struct show            : seq<word<Keyword::Show>, must<shown>, star<comma, must<shown>>,
                             must<end>> {};
struct counted_of      : seq<word<Keyword::Of>, must<target>, opt<target>> {};
struct counted         : seq<target, opt<counted_of>> {};
struct count           : seq<word<Keyword::Count>, must<counted>, star<comma, must<counted>>,
                             must<end>> {};
struct fleet           : seq<word<Keyword::Fleet>, must<word<Keyword::Costs>>, must<formula>,
                             quantity, must<end>> {};
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
struct step_head       : sor<word<Keyword::Overhead>, word<Keyword::Contingency>, word<Keyword::Reserve>,
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
struct define_list_text : name_text {};
struct define_list     : token<define_list_text> {};
struct columns         : seq<word<Keyword::Each>, must<define_list>, must<head_open>,
                             must<parameter>, star<comma, must<parameter>>, must<head_close>> {};
struct define          : seq<word<Keyword::Define>, must<new_name>, must<head_open>, parameters,
                             must<head_close>, opt<columns>, must<colon>, must<unit>,
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
struct option          : seq<word<Keyword::Option>, must<text>, must<end>> {};
struct entry           : seq<must<target>, must<new_name>, star<label>, must<end>> {};
struct field           : seq<word<Keyword::Field>, must<text>, opt<word<Keyword::Within>, must<text>>,
                             opt<word<Keyword::Heading>, must<formula>>, must<end>> {};
struct date_text       : seq<rep<4, digit>, one<'-'>, rep<2, digit>, one<'-'>, rep<2, digit>,
                             not_at<name_char>> {};
struct day             : token<date_text> {};
struct days            : seq<must<day>, opt<dots, must<day>>> {};
struct date            : seq<word<Keyword::Date>, days, must<end>> {};
struct within_days     : seq<word<Keyword::Within>, days> {};
struct set             : seq<word<Keyword::Set>, must<target>, must<equals>, must<formula>,
                             star<sor<because, swing, within_days>>, must<end>> {};
struct weekday         : name_text {};
struct closed          : seq<word<Keyword::Closed>, sor<token<weekday>, days>, star<label>,
                             must<end>> {};
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
struct page_word       : seq<colon, must<new_name>, must<equals>, must<text>, must<end>> {};
struct statement       : sor<use, noun, unit_definition, choice, part, given, cost, event,
                             correlate, require, caution, price, step, table, define,
                             known, parameter_range, example, set, option, field, date, closed,
                             text_line, money_of_firm, page_word, list_statement, show, count,
                             fleet, line> {};
// clang-format on

} // namespace acre::lang::grammar
