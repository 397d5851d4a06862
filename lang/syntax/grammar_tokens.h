// The pieces that the rules of grammar.h are made of: blanks, signs, texts, names, numbers, units.
#pragma once

#include <string_view>

#include <tao/pegtl.hpp>

#include "lang/syntax/words.h"

namespace acre::lang::grammar {

using namespace tao::pegtl; // of this namespace only: the page below is made of its rules
using tao::pegtl::one;      // not the unit of that name

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
struct clock_text      : seq<digits, one<':'>, digits> {}; // `19:30`
struct clock_time      : token<clock_text> {};
struct literal         : sor<dollar_amount, clock_time, plain_amount> {};

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
