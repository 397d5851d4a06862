// The grower's page of a quote, from a record and the firm's words: as HTML that prints on letter
// paper, and as plain text.
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "cli/quote/wording.h"

namespace acre::cli {

// `picture`: SVG made by this program, or empty.
std::string quote_html(const WordedPage& page, const nlohmann::json& record,
                       std::string_view picture);

// 78 columns.
std::string quote_page_text(const WordedPage& page, const nlohmann::json& record);

} // namespace acre::cli
