// The grower's page in both forms, from the firm's words in a file.
#pragma once

#include <string>

#include "engine/book/quote_record.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct Pages {
    std::string html, text; // empty without a wording
};

// Says what read_text and fill_in say.
lang::Outcome<Pages> make_pages(const std::string& wording, const engine::QuoteRecord& record);

} // namespace acre::cli
