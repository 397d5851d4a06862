// Headings and paragraphs of a page of 80 columns. Texts must be safe to show already.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace acre::cli {

// A line in bold, or as many as it takes; with its line end. The lines after the first begin at
// column `indent`.
std::string heading(std::string_view text, bool color, std::size_t indent = 0);

// What a page says at its head that shows what a job costs the firm and what it earns; and that
// as a line under the heading.
inline constexpr const char* firms_own =
    "The firm's own page: it shows cost and margin. Not for the customer.";
std::string not_for_the_customer(bool color);

// Text whose every line begins at column `indent`; what `first` holds ("  - ") stands before it on
// the first. With its line end.
std::string paragraph(std::string_view text, std::string_view first = "  ");

// One of several remarks: from column 2, its further lines from column 4. With its line end.
std::string remark(std::string_view text);

} // namespace acre::cli
