// The functions of the notation itself.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "lang/check/sheet.h"

namespace acre::lang::resolving {

inline constexpr std::uint32_t many = none; // as many values as somebody writes

struct Builtin {
    std::string_view name;
    Op op;
    std::uint32_t least, most; // how many values it takes
    std::string_view form;     // as a help shows it
};

inline constexpr auto builtins = std::to_array<Builtin>({
#define ACRE_PREFIX(...)
#define ACRE_BINARY(...)
#define ACRE_FUNCTION(op, name, least, most, form, ...) {name, Op::op, least, most, form},
#include "lang/syntax/operations.def"
    {"before", Op::Sum, 1, 1, "before(x)"}, // a sum over the entries before the one at hand
    {"how_many", Op::Number, 1, 1, "how_many(LIST)"},
});

inline const Builtin* find_builtin(std::string_view name, std::uint32_t notation) {
    for (const Builtin& builtin : builtins)
        if (builtin.name == name)
            return is_a_word_of(notation, name) ? &builtin : nullptr;
    return nullptr;
}

} // namespace acre::lang::resolving
