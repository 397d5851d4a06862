// Words into lines of a given width. Texts must be safe to show already (lang/diag/safe_text.h).
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace acre::cli {

inline constexpr std::size_t page_width = 80;

// The lines of `text`, each at most `width` columns (inks take none); a word that is wider by
// itself is broken, where it can be after a sign as in `season_prices.` or `models/`. At least one
// line.
std::vector<std::string> wrapped_lines(std::string_view text, std::size_t width);

// The same as one text, for a first line that begins at column `indent`; the lines after it are
// indented to there. No line end at the end.
std::string wrap(std::string_view text, std::size_t width, std::size_t indent = 0);

// `text` with spaces after it (or before it) up to `width` columns.
std::string padded(std::string_view text, std::size_t width);
std::string right_aligned(std::string_view text, std::size_t width);

// Cut to `width` columns, with "..." at the end where something is cut.
std::string shortened(std::string_view text, std::size_t width);

} // namespace acre::cli
