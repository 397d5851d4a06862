// Random plans in which every operation occurs, and poison is neither rare nor everywhere.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "engine/native/native.h"
#include "engine/plan/plan.h"
#include "tests/support/dice.h"

namespace acre::tests {

struct RandomPlan {
    engine::Plan plan;
    std::vector<engine::Slot> numbers, conditions;
};

class PlanMaker {
  public:
    explicit PlanMaker(std::uint64_t seed) : dice_(seed) {}
    explicit PlanMaker(Dice dice) : dice_(dice) {}

    // `smooth`: only operations that have a slope, on operands where they have one nearly
    // everywhere.
    RandomPlan make(std::size_t inputs, std::size_t operations, bool smooth = false) {
        made_ = {};
        for (std::uint32_t k = 0; k < inputs; ++k) {
            const double value = smooth ? real(0.5, 2) : number();
            made_.plan.inputs.push_back({slot(), value, k, false});
            push({engine::OpCode::Input, k}, false);
        }
        for (int k = 0; k < 8; ++k) {
            made_.plan.constants.push_back(smooth ? real(0.5, 2) : number());
            push({engine::OpCode::Constant, static_cast<std::uint32_t>(k)}, false);
        }
        // Tables throw dice of their own: forty of them would use up what a fuzzer gives before the
        // first operation.
        PlanMaker tables(below(65'536));
        for (const std::size_t rows : {2U, 5U, 16U, 17U, 40U})
            for (int kind = 0; kind < 8; ++kind)
                made_.plan.tables.push_back(tables.table(rows, kind, smooth));
        push({engine::OpCode::Less, any_number(), any_number()}, true);
        while (made_.plan.size() < inputs + 8 + operations)
            add_operation(smooth);
        return made_;
    }

    double number() {
        switch (below(12)) {
        case 0:
            return 0;
        case 1:
            return static_cast<double>(below(7)) - 3;
        case 2:
            return (static_cast<double>(below(2001)) - 1000) * (1 + 1e-12);
        case 3:
            return real(-1e-3, 1e-3);
        case 4:
            return real(-1, 1) * 1e200;
        case 5:
            return below(4) == 0 ? std::numeric_limits<double>::quiet_NaN() : -0.0;
        default:
            return real(-20, 60);
        }
    }
    std::size_t below(std::size_t n) { return dice_.below(n); }
    double real(double low, double high) { return dice_.real(low, high); }

  private:
    engine::Slot slot() const { return static_cast<engine::Slot>(made_.plan.size()); }
    void push(engine::Operation op, bool condition) {
        (condition ? made_.conditions : made_.numbers).push_back(slot());
        made_.plan.operations.push_back(op);
    }
    // Young slots more often than old ones, so that plans are deep as well as wide.
    engine::Slot any(const std::vector<engine::Slot>& of) {
        const std::size_t reach = below(3) == 0 ? of.size() : std::min<std::size_t>(of.size(), 12);
        return of[of.size() - 1 - below(reach)];
    }
    engine::Slot any_number() { return any(made_.numbers); }
    engine::Slot any_condition() { return any(made_.conditions); }

    engine::PlanTable table(std::size_t rows, int kind, bool smooth) {
        engine::PlanTable t;
        t.staircase = !smooth && (kind & 1) != 0;
        t.hold_below = smooth || (kind & 2) != 0;
        t.hold_above = smooth || (kind & 4) != 0;
        double x = smooth ? -1 : real(-15, 5);
        for (std::size_t k = 0; k < rows; ++k) {
            t.x.push_back(x);
            t.y.push_back(real(-10, 10));
            x += below(3) == 0 ? 1 : real(0.01, 60.0 / static_cast<double>(rows));
        }
        return t;
    }

    void add_operation(bool smooth) {
        using engine::OpCode;
        static constexpr OpCode arithmetic[] = {OpCode::Add, OpCode::Subtract, OpCode::Multiply,
                                                OpCode::Divide};
        static constexpr OpCode unary[] = {OpCode::Negate, OpCode::Sqrt, OpCode::Exp,
                                           OpCode::Log,    OpCode::Sin,  OpCode::Cos,
                                           OpCode::Tan,    OpCode::Atan, OpCode::Abs};
        static constexpr OpCode whole[] = {OpCode::Ceil, OpCode::Floor, OpCode::Round};
        static constexpr OpCode comparison[] = {OpCode::Less,    OpCode::LessEqual,
                                                OpCode::Greater, OpCode::GreaterEqual,
                                                OpCode::Equal,   OpCode::NotEqual};
        switch (below(16)) {
        default:
            return push({arithmetic[below(4)], any_number(), any_number()}, false);
        case 0:
        case 1:
            return push({unary[below(9)], any_number()}, false);
        case 2:
            if (smooth)
                return push({unary[below(9)], any_number()}, false);
            return push({whole[below(3)], any_number()}, false);
        case 3:
            return push({OpCode::Power, any_number(), any_number()}, false);
        case 4:
            return push({below(2) == 0 ? OpCode::Min : OpCode::Max, any_number(), any_number()},
                        false);
        case 5:
        case 6:
            return push({comparison[below(6)], any_number(), any_number()}, true);
        case 7:
            switch (below(3)) {
            case 0:
                return push({OpCode::And, any_condition(), any_condition()}, true);
            case 1:
                return push({OpCode::Or, any_condition(), any_condition()}, true);
            default:
                return push({OpCode::Not, any_condition()}, true);
            }
        case 8:
        case 9:
            return push({OpCode::Select, any_condition(), any_number(), any_number()}, false);
        case 10:
            if (below(3) == 0)
                return push({OpCode::Guard, any_condition(), any_number()}, false);
            return push({OpCode::Table, static_cast<std::uint32_t>(below(made_.plan.tables.size())),
                         any_number()},
                        false);
        case 11:
            if (below(6) == 0)
                return add_call();
            return push({arithmetic[below(4)], any_number(), any_number()}, false);
        }
    }

    void add_call() {
        const auto functions = engine::native_functions();
        const std::size_t which = below(functions.size());
        engine::NativeCall call{static_cast<std::uint32_t>(which), {}};
        const std::uint32_t most = functions[which].most_rows;
        const auto rows = static_cast<std::uint32_t>(most == 0 ? 0 : 1 + below(most));
        for (std::uint32_t k = 0; k < functions[which].arity(rows); ++k)
            call.args.push_back(any_number());
        made_.plan.calls.push_back(std::move(call));
        push({engine::OpCode::Native, static_cast<std::uint32_t>(made_.plan.calls.size() - 1)},
             false);
    }

    Dice dice_;
    RandomPlan made_;
};

} // namespace acre::tests
