// The grower's page of a quote, from a record and the firm's words: as HTML that prints on letter
// paper, and as plain text.
#pragma once

#include <string>

#include "cli/shared/quote_page/wording.h"
#include "engine/book/record.h"

namespace acre::cli {

// With the pictures of the record.
std::string quote_html(const WordedPage& page, const engine::QuoteRecord& record);

// 78 columns.
std::string quote_page_text(const WordedPage& page, const engine::QuoteRecord& record);

} // namespace acre::cli
