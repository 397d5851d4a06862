// The names that a text may write, as it must write them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/questions/outline.h"
#include "lang/source/source_map.h"

namespace acre::cli {

struct ScopeName {
    std::string text;  // "crawler.burn"
    std::string value; // now; of a model that is used twice the first
    const engine::Symbol* symbol = nullptr;
};

// A job or a season may name every line of the job; a model its own, and with their prefix those of
// the models that it uses.
std::vector<ScopeName> names_in(const engine::Outline& outline, const std::string& file,
                                std::string_view text, lang::FileKind kind);

// The symbol of a name as a text writes it: the line of that name, what the text declares itself,
// or another of that last word; null: none.
const engine::Symbol* named(const engine::Outline& outline, const std::string& file,
                            std::string_view name);

} // namespace acre::cli
