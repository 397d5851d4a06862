#include "lang/check/resolve/other_functions.h"

#include <array>
#include <utility>

namespace acre::lang::resolving {

std::string_view form_of_other(std::string_view name) {
    constexpr auto others = std::to_array<std::pair<std::string_view, std::string_view>>({
        {"IF", "when CONDITION then VALUE otherwise VALUE"},
        {"if", "when CONDITION then VALUE otherwise VALUE"},
        {"ROUNDUP", "ceil(a, step)"},
        {"roundup", "ceil(a, step)"},
        {"CEILING", "ceil(a, step)"},
        {"ROUNDDOWN", "floor(a, step)"},
        {"rounddown", "floor(a, step)"},
        {"INT", "floor(a, step)"},
        {"AVERAGE", "(a + b) / 2"},
        {"average", "(a + b) / 2"},
    });
    for (const auto& [other, form] : others)
        if (name == other)
            return form;
    return {};
}

} // namespace acre::lang::resolving
