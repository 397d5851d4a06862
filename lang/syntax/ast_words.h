// The pieces of text that the syntax tree is made of, each with its place.
#pragma once

#include <string_view>

#include "lang/source/span.h"

namespace acre::lang::ast {

struct Word { // a name as written, with its place
    std::string_view text;
    Span span;
};
struct Text { // a quoted text without its quotes; the span holds the quotes
    std::string_view text;
    Span span;
};
// A unit as written. `$12.50/ac` keeps the sign of money apart: dollar is true, sign is "$" and
// text is "/ac".
struct UnitText {
    std::string_view text;
    Span span;
    bool dollar = false;
    std::string_view sign{};
};

} // namespace acre::lang::ast
