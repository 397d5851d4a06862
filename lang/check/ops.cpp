#include "lang/check/ops.h"

#include "lang/check/operations.h"

namespace acre::lang {
namespace {

const Unit degree = [] {
    Unit unit;
    unit.dim.exponent[Angle] = 1;
    return unit;
}();

Type number(const Unit& unit) {
    return {Type::Kind::Number, 0, unit};
}
Type truth() {
    return {Type::Kind::Truth, 0, {}};
}

Applied fails(Mismatch mismatch, int operand = 0) {
    Applied out;
    out.mismatch = mismatch;
    out.operand = operand;
    out.type.kind = Type::Kind::Poison;
    return out;
}

Applied gives(const Type& type, const Unit& first, const Unit& second = one) {
    Applied out;
    out.type = type;
    out.first = first;
    out.second = second;
    return out;
}

Applied gives(const std::optional<Unit>& unit, const Unit& first, const Unit& second = one) {
    return unit ? gives(number(*unit), first, second) : fails(Mismatch::TooLarge);
}

Applied root(const Type& a) {
    if (a.unit.is_plain())
        return gives(number(one), one);
    if (const auto unit = square_root(a.unit))
        return gives(number(*unit), a.unit);
    const Unit in_bases{a.unit.dim, {}};
    const auto unit = square_root(in_bases);
    return unit ? gives(number(*unit), in_bases) : fails(Mismatch::OddRoot);
}

Applied raised(const Type& a, const Type& b, std::optional<int> exponent) {
    if (exponent && b.unit == one)
        return gives(power(a.unit, *exponent), a.unit);
    if (!b.unit.is_plain())
        return fails(Mismatch::WantsPlain, 1);
    if (!a.unit.is_plain())
        return fails(Mismatch::NotAPower);
    return gives(number(one), one);
}

// Sides of one kind; the right one takes the unit of the left.
Applied alike(const Type& a, const Type& b, bool gives_truth) {
    if (a.unit.dim != b.unit.dim)
        return fails(Mismatch::UnlikeUnits);
    return gives(gives_truth ? truth() : number(a.unit), a.unit, a.unit);
}

} // namespace

Applied apply(Op op, const Type& a) {
    const UnitRule rule = row_of(op).units;
    if (a.kind == Type::Kind::Poison)
        return fails(Mismatch::Poisoned);
    if (rule == UnitRule::Truths)
        return a.kind == Type::Kind::Truth ? gives(truth(), one) : fails(Mismatch::WantsTruth);
    if (a.kind != Type::Kind::Number)
        return fails(Mismatch::WantsNumber);
    switch (rule) {
    case UnitRule::Root:
        return root(a);
    case UnitRule::Plain:
        return a.unit.is_plain() ? gives(number(one), one) : fails(Mismatch::WantsPlain);
    case UnitRule::Steps:
        return a.unit.is_plain() ? gives(number(one), one) : fails(Mismatch::WantsPlain, 1);
    case UnitRule::ToAngle:
        return a.unit.is_plain() ? gives(number(degree), one) : fails(Mismatch::WantsPlain);
    case UnitRule::OfAngle:
        return a.unit.dim == degree.dim ? gives(number(one), degree) : fails(Mismatch::WantsAngle);
    default: // Same, and Alike of one value
        return gives(a, a.unit);
    }
}

Applied apply(Op op, const Type& a, const Type& b, std::optional<int> exponent) {
    const UnitRule rule = row_of(op).units;
    if (a.kind == Type::Kind::Poison || b.kind == Type::Kind::Poison)
        return fails(Mismatch::Poisoned);
    if (rule == UnitRule::Truths) {
        if (a.kind != Type::Kind::Truth || b.kind != Type::Kind::Truth)
            return fails(Mismatch::WantsTruth, a.kind != Type::Kind::Truth ? 0 : 1);
        return gives(truth(), one);
    }
    if (rule == UnitRule::Equality &&
        (a.kind == Type::Kind::Choice || b.kind == Type::Kind::Choice)) {
        if (a.kind != b.kind)
            return fails(Mismatch::UnlikeKinds);
        return a.choice == b.choice ? gives(truth(), one) : fails(Mismatch::UnlikeChoices);
    }
    if (a.kind != Type::Kind::Number || b.kind != Type::Kind::Number)
        return fails(Mismatch::WantsNumber, a.kind != Type::Kind::Number ? 0 : 1);
    switch (rule) {
    case UnitRule::Product:
        return gives(multiply(a.unit, b.unit), a.unit, b.unit);
    case UnitRule::Quotient:
        return gives(divide(a.unit, b.unit), a.unit, b.unit);
    case UnitRule::Power:
        return raised(a, b, exponent);
    case UnitRule::Order:
    case UnitRule::Equality:
        return alike(a, b, true);
    default: // Alike, Steps
        return alike(a, b, false);
    }
}

Applied apply_when(const Type& then, const Type& otherwise) {
    const Mismatch mismatch = fit(otherwise, then);
    if (mismatch == Mismatch::WantsTruth || mismatch == Mismatch::WantsNumber)
        return fails(Mismatch::UnlikeKinds);
    return mismatch == Mismatch::None ? gives(then, then.unit, then.unit) : fails(mismatch);
}

Mismatch fit(const Type& given, const Type& wanted) {
    if (given.kind == Type::Kind::Poison || wanted.kind == Type::Kind::Poison)
        return Mismatch::Poisoned;
    if (given.kind != wanted.kind)
        return wanted.kind == Type::Kind::Truth  ? Mismatch::WantsTruth
               : given.kind == Type::Kind::Truth ? Mismatch::WantsNumber
                                                 : Mismatch::UnlikeKinds;
    if (given.kind == Type::Kind::Choice)
        return given.choice == wanted.choice ? Mismatch::None : Mismatch::UnlikeChoices;
    return given.kind == Type::Kind::Number && given.unit.dim != wanted.unit.dim
               ? Mismatch::UnlikeUnits
               : Mismatch::None;
}

} // namespace acre::lang
