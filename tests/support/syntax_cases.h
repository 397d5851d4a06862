// What is said about a statement that cannot be read, in one line each: code, place, words. Each
// case is one statement after `model "m"`, so its first line is line 2.
#pragma once

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <initializer_list>
#include <string>

#include "tests/support/parse_text.h"

namespace acre::tests {

struct SyntaxCase {
    const char* text;
    const char* found; // "CODE line:column text at the place | title | label"
};

inline std::string all_errors(const Parsed& p) {
    std::string list;
    for (const lang::Diagnostic& d : p.diagnostics.all()) {
        const lang::Position at = p.position(d);
        list += fmt::format("{}{} {}:{} {} | {}", list.empty() ? "" : "\n", lang::name_of(d.code),
                            at.line, at.column, p.text_at(d.primary.span), d.title);
        if (!d.primary.text.empty())
            list += fmt::format(" | {}", d.primary.text);
    }
    return list;
}

inline void check_said(std::initializer_list<SyntaxCase> cases) {
    for (const SyntaxCase& c : cases) {
        CAPTURE(c.text);
        CHECK(all_errors(parse_text("model \"m\"\n" + std::string(c.text) + "\n")) == c.found);
    }
}

} // namespace acre::tests
