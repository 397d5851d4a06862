// The grammar itself: no rule may loop without reading on. PEGTL proves it from the rules.
#include "lang/syntax/grammar.h"

#include <doctest/doctest.h>

#include <tao/pegtl/contrib/analyze.hpp>

namespace tao::pegtl {

// The three rules that read by hand read a name at least.
template <typename Name, acre::lang::Keyword K>
struct analyze_traits<Name, acre::lang::grammar::word_text<K>> : analyze_any_traits<> {};
template <typename Name>
struct analyze_traits<Name, acre::lang::grammar::used_text> : analyze_any_traits<> {};
template <typename Name>
struct analyze_traits<Name, acre::lang::grammar::unit_word> : analyze_any_traits<> {};

} // namespace tao::pegtl

TEST_CASE("no rule of the grammar can loop without reading on") {
    CHECK(tao::pegtl::analyze<acre::lang::grammar::statement>(-1) == 0);
    CHECK(tao::pegtl::analyze<acre::lang::grammar::row>(-1) == 0);
}
