// The functions of the notation itself: one row each, here and nowhere else.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "lang/check/sheet.h"

namespace acre::lang::resolving {

struct Builtin {
    std::string_view name;
    Op op;
    std::uint32_t least, most; // how many values it takes
    std::string_view form;     // as a help shows it
};

inline constexpr std::array<Builtin, 16> builtins = {{
    {"min", Op::Min, 2, none, "min(a, b, …)"},
    {"max", Op::Max, 2, none, "max(a, b, …)"},
    {"abs", Op::Abs, 1, 1, "abs(a)"},
    {"sqrt", Op::Sqrt, 1, 1, "sqrt(a)"},
    {"exp", Op::Exp, 1, 1, "exp(a)"},
    {"log", Op::Log, 1, 1, "log(a)"},
    {"sin", Op::Sin, 1, 1, "sin(a)"},
    {"cos", Op::Cos, 1, 1, "cos(a)"},
    {"tan", Op::Tan, 1, 1, "tan(a)"},
    {"atan", Op::Atan, 1, 1, "atan(a)"},
    {"ceil", Op::Ceil, 1, 2, "ceil(a, step)"},
    {"floor", Op::Floor, 1, 2, "floor(a, step)"},
    {"round", Op::Round, 1, 2, "round(a, step)"},
    {"sum", Op::Sum, 1, 1, "sum(x)"},
    {"most", Op::Most, 1, 1, "most(x)"},
    {"least", Op::Least, 1, 1, "least(x)"},
}};

inline const Builtin* find_builtin(std::string_view name) {
    for (const Builtin& builtin : builtins)
        if (builtin.name == name)
            return &builtin;
    return nullptr;
}

} // namespace acre::lang::resolving
