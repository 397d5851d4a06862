// A unit text taken apart, put together with another, and written again.
#include "lang/units/unit_text.h"

#include <string>
#include <string_view>

#include <doctest/doctest.h>

namespace unit_text_test {

using namespace acre::lang;

namespace {

UnitTerms read(std::string_view text) {
    UnitError error;
    const auto terms = read_terms(text, error);
    REQUIRE_MESSAGE(terms.has_value(), std::string(text));
    return *terms;
}
std::string joined(std::string_view a, std::string_view b, int sign) {
    const auto both = combine(read(a), read(b), sign);
    return both ? to_text(*both) : "none";
}
std::string names(int count) {
    std::string out;
    for (int i = 0; i < count; ++i)
        out += (i == 0 ? "n" : ".n") + std::to_string(i);
    return out;
}

} // namespace

TEST_CASE("each name has its exponent and its place, and is written above or below the line") {
    struct Row {
        std::string_view text, written;
    };
    for (const Row& row :
         {Row{"ft", "ft"}, Row{"$/ac/ft", "$/(ac.ft)"}, Row{"1/h", "1/h"}, Row{"h^-1", "1/h"},
          Row{"1", "1"}, Row{"(mi/h)^2", "mi^2/h^2"}, Row{"a/(b/(c/d))", "a.c/(b.d)"},
          Row{"lb.ft/s^2", "lb.ft/s^2"}, Row{"ft^127", "ft^127"},
          Row{"(a.b)^-127", "1/(a^127.b^127)"}, Row{"(ft^-1)^127", "1/ft^127"}, Row{"%/ft^0", "%"},
          Row{"a.1.b", "a.b"}, Row{"\u20AC/x_1", "\u20AC/x_1"}}) {
        CAPTURE(std::string(row.text));
        CHECK(to_text(read(row.text)) == row.written);
    }
    const UnitTerms terms = read("$/(ac.ft^2)");
    REQUIRE(terms.count == 3);
    CHECK(terms.terms[0].begin == 0);
    CHECK(terms.terms[1].begin == 3);
    CHECK(terms.terms[2].begin == 6);
    CHECK(terms.terms[2].exponent == -2);
    CHECK(read(names(16)).count == 16);
}

TEST_CASE("what is no unit text says where, and what is too large says so") {
    using Kind = UnitError::Kind;
    struct Row {
        std::string text;
        Kind kind;
        std::size_t begin, end;
    };
    for (const Row& row :
         {Row{"", Kind::Malformed, 0, 0}, Row{"ft.", Kind::Malformed, 3, 3},
          Row{"/ft", Kind::Malformed, 0, 1}, Row{"ft^", Kind::Malformed, 2, 3},
          Row{"ft^-", Kind::Malformed, 2, 4}, Row{"(ft", Kind::Malformed, 0, 3},
          Row{"a.(b.c", Kind::Malformed, 2, 6}, Row{"ft)", Kind::Malformed, 2, 3},
          Row{"12", Kind::Malformed, 0, 1}, Row{"ft^128", Kind::TooLarge, 2, 6},
          Row{"a.ft^99999999999", Kind::TooLarge, 4, 16}, Row{"(a^64)^2", Kind::TooLarge, 0, 8},
          Row{"a.(b^2)^-64", Kind::TooLarge, 2, 11},
          Row{names(16) + ".last", Kind::TooLarge, names(16).size() + 1, names(16).size() + 5}}) {
        CAPTURE(row.text);
        UnitError error;
        CHECK_FALSE(read_terms(row.text, error));
        CHECK(error.kind == row.kind);
        CHECK(error.begin == row.begin);
        CHECK(error.end == row.end);
        CHECK(error.word == row.text.substr(row.begin, row.end - row.begin));
    }
}

TEST_CASE("of two units names that are alike are one, and those that cancel are gone") {
    CHECK(joined("$/ac", "ac/h", 1) == "$/h");
    CHECK(joined("$/ac", "$/ac", -1) == "1");
    CHECK(joined("ft", "ft.ft", 1) == "ft^3");
    CHECK(joined("h", "$", -1) == "h/$");
    CHECK(joined("ft^100", "ft^27", 1) == "ft^127");
    CHECK(joined("ft^100", "ft^28", 1) == "none");
    CHECK(joined("ft^-100", "ft^28", -1) == "none");
    CHECK(joined(names(16), "n3", -1) == joined(names(16), "n3^-1", 1));
    CHECK(joined(names(16), "n15", 1).ends_with(".n15^2"));
    CHECK(joined(names(16), "more", 1) == "none"); // a seventeenth
}

} // namespace unit_text_test
