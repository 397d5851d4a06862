// The customer's page in both forms, from the words of a wording.
#pragma once

#include <string>

#include "engine/book/record.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct Wording {
    std::string name, text; // `name`: as messages call it
};

// The wording in a file; with no file the one that comes with the program, which says what any
// quote says. What read_text says.
lang::Outcome<Wording> read_wording(const std::string& path);
Wording built_in_wording();

struct Pages {
    std::string html, text;
};

// `quote` carries its pictures. Says what fill_in says.
lang::Outcome<Pages> make_pages(const Wording& wording, const engine::QuoteRecord& quote);

} // namespace acre::cli
