#include "engine/plan/plan_builder.h"

#include <bit>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/native/native.h"
#include "engine/plan/opcodes.h"
#include "engine/plan/operations.h"

namespace acre::engine {

namespace {

constexpr double poison = std::numeric_limits<double>::quiet_NaN();

bool commutes(OpCode code) {
    return code == OpCode::Add || code == OpCode::Multiply;
}
std::uint64_t hash(const Operation& operation) {
    return mix(mix(mix(static_cast<std::uint64_t>(operation.code), operation.a), operation.b),
               operation.c);
}

} // namespace

Slot PlanBuilder::push(Operation operation) {
    if (plan_.operations.size() >= max_operations_) {
        full_ = true;
        return static_cast<Slot>(plan_.operations.size() -
                                 1); // some slot: what is built now is thrown away
    }
    plan_.operations.push_back(operation);
    return static_cast<Slot>(plan_.operations.size() - 1);
}

Slot PlanBuilder::find_or_push(Operation operation) {
    const std::uint64_t wanted = hash(operation);
    const Slot found =
        operations_.find(wanted, [&](Slot slot) { return plan_.operations[slot] == operation; });
    if (found != IndexTable::none)
        return found;
    const Slot slot = push(operation);
    if (!full_)
        operations_.add(wanted, slot, [&](Slot s) { return hash(plan_.operations[s]); });
    return slot;
}

Slot PlanBuilder::constant(double value) {
    const auto bits = std::bit_cast<std::uint64_t>(value);
    const auto bits_of = [&](std::uint32_t i) {
        return std::bit_cast<std::uint64_t>(plan_.constants[i]);
    };
    const std::uint32_t found =
        constants_.find(mix(0, bits), [&](std::uint32_t i) { return bits_of(i) == bits; });
    if (found != IndexTable::none)
        return constant_slots_[found];
    const auto index = static_cast<std::uint32_t>(plan_.constants.size());
    plan_.constants.push_back(value);
    constant_slots_.push_back(push({OpCode::Constant, index}));
    constants_.add(mix(0, bits), index, [&](std::uint32_t i) { return mix(0, bits_of(i)); });
    return constant_slots_.back();
}

Slot PlanBuilder::missing() {
    plan_.constants.push_back(poison);
    constant_slots_.push_back(
        push({OpCode::Constant, static_cast<std::uint32_t>(plan_.constants.size() - 1)}));
    return constant_slots_.back();
}

Slot PlanBuilder::input(double value, std::uint32_t line, bool is_choice) {
    const Slot slot = push({OpCode::Input, static_cast<std::uint32_t>(plan_.inputs.size())});
    plan_.inputs.push_back({slot, value, line, is_choice});
    return slot;
}

Slot PlanBuilder::emit(OpCode code, Slot a, Slot b, Slot c) {
    const bool one =
        (code == OpCode::Multiply || code == OpCode::Divide) && is_constant(b) && value(b) == 1;
    if (one)
        return a;
    if (code == OpCode::Multiply && is_constant(a) && value(a) == 1)
        return b;
    if (code == OpCode::Select && is_constant(a) && !std::isnan(value(a)))
        return value(a) != 0 ? b : c;
    if (code == OpCode::Guard && is_constant(a) && value(a) == 1)
        return b;
    const bool second = traits_of(code).reads.size() > 1;
    const bool third = traits_of(code).reads.size() > 2;
    if (is_constant(a) && (!second || is_constant(b)) && (!third || is_constant(c))) {
        const double folded = apply(code, value(a), second ? value(b) : 0, third ? value(c) : 0);
        if (!std::isnan(folded))
            return constant(folded);
    }
    if (commutes(code) && b < a)
        std::swap(a, b);
    return find_or_push({code, a, second ? b : 0, third ? c : 0});
}

Slot PlanBuilder::table(std::uint32_t table, Slot x) {
    if (is_constant(x)) {
        const double folded = look_up(plan_.tables[table], value(x));
        if (!std::isnan(folded))
            return constant(folded);
    }
    return find_or_push({OpCode::Table, table, x});
}

Slot PlanBuilder::native(std::uint32_t function, std::span<const Slot> args) {
    std::vector<double> values;
    for (const Slot arg : args)
        if (is_constant(arg))
            values.push_back(value(arg));
    if (values.size() == args.size()) {
        const double folded = native_functions()[function].value(values);
        if (std::isfinite(folded))
            return constant(folded);
    }
    plan_.calls.push_back({function, {args.begin(), args.end()}});
    return push({OpCode::Native, static_cast<std::uint32_t>(plan_.calls.size() - 1)});
}

Slot PlanBuilder::power(Slot base, Slot exponent) {
    constexpr double largest = 16;
    const double written = is_constant(exponent) ? value(exponent) : poison;
    const double magnitude = std::fabs(written);
    if (!(magnitude >= 1 && magnitude <= largest && magnitude == std::floor(magnitude)))
        return emit(OpCode::Power, base, exponent);
    auto left = static_cast<unsigned>(magnitude);
    Slot square = base;
    Slot product = no_slot;
    while (true) {
        if ((left & 1U) != 0)
            product = product == no_slot ? square : emit(OpCode::Multiply, product, square);
        left >>= 1U;
        if (left == 0)
            break;
        square = emit(OpCode::Multiply, square, square);
    }
    return written < 0 ? emit(OpCode::Divide, constant(1), product) : product;
}

Slot PlanBuilder::to_steps(OpCode code, Slot value, Slot step) {
    if (is_constant(step)) {
        const double size = this->value(step);
        const double inverse = std::round(1 / size);
        if (size > 0 && size < 1 && 1 / inverse == size) {
            const Slot many = constant(inverse);
            return emit(OpCode::Divide, emit(code, emit(OpCode::Multiply, value, many)), many);
        }
    }
    return emit(OpCode::Multiply, emit(code, emit(OpCode::Divide, value, step)), step);
}

} // namespace acre::engine
