#include <doctest/doctest.h>

#include <string_view>

#include "lang/check/ops.h"

namespace ops_test {

using namespace acre::lang;

namespace {

Type number(std::string_view unit_text) {
    static const UnitCatalog catalog;
    UnitError error;
    const auto unit = read_unit(unit_text, catalog, error);
    REQUIRE(unit);
    return {Type::Kind::Number, 0, *unit};
}

Type choice(ChoiceId id) {
    return {Type::Kind::Choice, id, {}};
}

const Type truth{Type::Kind::Truth, 0, {}};
const Type poison{Type::Kind::Poison, 0, {}};

} // namespace

TEST_CASE("sums, comparisons and the like take two of one kind, and the right side is converted to "
          "the left") {
    struct {
        Op op;
        std::string_view a, b;
        Mismatch mismatch;
    } const rows[] = {
        {Op::Add, "ft", "in", Mismatch::None},
        {Op::Subtract, "$/ac", "$/ac", Mismatch::None},
        {Op::Min, "kW", "hp", Mismatch::None},
        {Op::Ceil, "day", "day", Mismatch::None},
        {Op::Less, "mi/h", "mph", Mismatch::None},
        {Op::Add, "%", "1", Mismatch::None},
        {Op::Add, "gal/ac", "in", Mismatch::None}, // a length both; a warning is another matter
        {Op::Add, "$/yr", "$/h", Mismatch::UnlikeUnits},
        {Op::Add, "$/ac", "$/h", Mismatch::UnlikeUnits},
        {Op::Max, "day", "h", Mismatch::UnlikeUnits},
        {Op::Round, "day", "shift", Mismatch::UnlikeUnits},
        {Op::Equal, "ft", "1", Mismatch::UnlikeUnits}};
    for (const auto& row : rows) {
        CAPTURE(row.a);
        CAPTURE(row.b);
        const Type a = number(row.a);
        const Applied outcome = apply(row.op, a, number(row.b));
        CHECK(outcome.mismatch == row.mismatch);
        if (!outcome.good()) {
            CHECK(outcome.type.kind == Type::Kind::Poison);
            continue;
        }
        CHECK(outcome.first == a.unit);
        CHECK(outcome.second == a.unit);
        const bool condition = row.op == Op::Less || row.op == Op::Equal;
        CHECK(outcome.type.kind == (condition ? Type::Kind::Truth : Type::Kind::Number));
        if (!condition)
            CHECK(outcome.type.unit == a.unit);
    }
}

TEST_CASE("products and quotients multiply units and convert nothing") {
    struct {
        Op op;
        std::string_view a, b, gives;
    } const rows[] = {{Op::Multiply, "$/h", "h/ac", "$/ac"},   {Op::Divide, "mi", "mi/h", "h"},
                      {Op::Multiply, "mi/h", "ft", "mi.ft/h"}, {Op::Divide, "ft", "in", "ft/in"},
                      {Op::Multiply, "%", "ac", "ac.%"},       {Op::Divide, "$/yr", "h/yr", "$/h"},
                      {Op::Multiply, "1", "lbf", "lbf"},       {Op::Divide, "gal", "ac", "gal/ac"}};
    for (const auto& row : rows) {
        CAPTURE(row.gives);
        const Applied outcome = apply(row.op, number(row.a), number(row.b));
        REQUIRE(outcome.good());
        CHECK(outcome.type.unit == number(row.gives).unit);
        CHECK(outcome.first == number(row.a).unit);
        CHECK(outcome.second == number(row.b).unit);
    }
}

TEST_CASE("a whole written power keeps units, any other is for plain numbers") {
    const auto whole = [](std::string_view a, int e) {
        return apply(Op::Power, number(a), number("1"), e);
    };
    CHECK(whole("ft", 2).type.unit == number("ft^2").unit);
    CHECK(whole("ft", -1).type.unit == number("1/ft").unit);
    CHECK(whole("ft", 0).type.unit == one);
    CHECK(whole("mi", 100).mismatch == Mismatch::TooLarge);
    CHECK(apply(Op::Power, number("yr"), number("1")).mismatch == Mismatch::NotAPower);
    CHECK(apply(Op::Power, number("1"), number("ft")).mismatch == Mismatch::WantsPlain);
    CHECK(apply(Op::Power, number("1"), number("ft")).operand == 1);
    const Applied plain = apply(Op::Power, number("%"), number("%"));
    REQUIRE(plain.good()); // both become plain numbers first
    CHECK(plain.first == one);
    CHECK(plain.second == one);
    CHECK(plain.type.unit == one);
}

TEST_CASE("a square root halves the unit, in base units where the scale has no root") {
    CHECK(apply(Op::Sqrt, number("ft^2")).type.unit == number("ft").unit);
    const Applied acre = apply(Op::Sqrt, number("ac"));
    REQUIRE(acre.good());
    CHECK(acre.first == number("in^2").unit);
    CHECK(acre.type.unit == number("in").unit);
    CHECK(apply(Op::Sqrt, number("%")).first == one);
    CHECK(apply(Op::Sqrt, number("ft")).mismatch == Mismatch::OddRoot);
}

TEST_CASE(
    "exponentials take plain numbers, sines take angles, steps are needed where there is a unit") {
    CHECK(apply(Op::Exp, number("%")).first == one);
    CHECK(apply(Op::Log, number("yr")).mismatch == Mismatch::WantsPlain);
    CHECK(apply(Op::Sin, number("deg")).type.unit == one);
    CHECK(apply(Op::Sin, number("1")).mismatch == Mismatch::WantsAngle);
    CHECK(apply(Op::Atan, number("ft/ft")).type.unit == number("deg").unit);
    CHECK(apply(Op::Ceil, number("1")).good());
    CHECK(apply(Op::Ceil, number("day")).mismatch == Mismatch::WantsPlain);
    CHECK(apply(Op::Ceil, number("day")).operand == 1);
    CHECK(apply(Op::Abs, number("$/ac")).type.unit == number("$/ac").unit);
    CHECK(apply(Op::Negate, number("$/ac")).type.unit == number("$/ac").unit);
}

TEST_CASE("conditions, numbers and choices do not stand in for each other") {
    CHECK(apply(Op::And, truth, truth).type.kind == Type::Kind::Truth);
    CHECK(apply(Op::Not, truth).type.kind == Type::Kind::Truth);
    CHECK(apply(Op::Or, truth, number("1")).mismatch == Mismatch::WantsTruth);
    CHECK(apply(Op::Or, truth, number("1")).operand == 1);
    CHECK(apply(Op::Not, choice(0)).mismatch == Mismatch::WantsTruth);
    CHECK(apply(Op::Add, truth, number("1")).mismatch == Mismatch::WantsNumber);
    CHECK(apply(Op::Add, number("1"), choice(1)).operand == 1);
    CHECK(apply(Op::Equal, truth, truth).mismatch == Mismatch::WantsNumber);
    CHECK(apply(Op::Equal, choice(1), choice(1)).type.kind == Type::Kind::Truth);
    CHECK(apply(Op::NotEqual, choice(1), choice(2)).mismatch == Mismatch::UnlikeChoices);
    CHECK(apply(Op::Equal, choice(1), number("1")).mismatch == Mismatch::UnlikeKinds);
    CHECK(apply(Op::Less, choice(1), choice(1)).mismatch == Mismatch::WantsNumber);
    CHECK(apply(Op::Abs, truth).mismatch == Mismatch::WantsNumber);
}

TEST_CASE("what was reported already stays silent") {
    for (const Op op : {Op::Add, Op::Multiply, Op::Power, Op::And, Op::Less, Op::Min}) {
        CHECK(apply(op, poison, number("ft")).mismatch == Mismatch::Poisoned);
        CHECK(apply(op, truth, poison).mismatch == Mismatch::Poisoned);
    }
    CHECK(apply(Op::Sqrt, poison).mismatch == Mismatch::Poisoned);
    CHECK(fit(poison, number("ft")) == Mismatch::Poisoned);
    CHECK(fit(truth, poison) == Mismatch::Poisoned);
}

TEST_CASE("a value fits a declaration of its kind") {
    CHECK(fit(number("in"), number("mi")) == Mismatch::None);
    CHECK(fit(number("1"), number("%")) == Mismatch::None);
    CHECK(fit(number("h"), number("yr")) == Mismatch::UnlikeUnits);
    CHECK(fit(number("1"), truth) == Mismatch::WantsTruth);
    CHECK(fit(truth, number("1")) == Mismatch::WantsNumber);
    CHECK(fit(truth, truth) == Mismatch::None);
    CHECK(fit(choice(2), choice(2)) == Mismatch::None);
    CHECK(fit(choice(2), choice(1)) == Mismatch::UnlikeChoices);
    CHECK(fit(choice(2), number("1")) == Mismatch::UnlikeKinds);
}

} // namespace ops_test
