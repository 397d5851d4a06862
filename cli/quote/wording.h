// The firm's words on a quote: a text file that anybody in the office can edit.
//
//   : firm.name = Tamarack Flat Ground Works     a word of the firm's own, for {firm.name}
//   == Scope                                     a heading
//   Rip {acres} at {depth}.                      a paragraph; blank lines end it; {NAME} is a line
//   of the job or a word
//   - call before digging                        a point of a list
//   ? method is tree_rows                        the next block only if so; also `? NAME` (there,
//   and not zero), `? not …`
//   @items                                       a part the program makes: @items @cautions
//   @picture @signatures, and
//   @fuel-steps base=NAME per=NAME step=0.25 rows=6
//   # a note to ourselves
//
// What a record marks as inner (costs, overhead, margin) cannot be named here: it never reaches the
// grower's page.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::cli {

inline constexpr std::size_t max_wording_bytes = std::size_t{256} << 10U;
inline constexpr std::size_t max_page_bytes = std::size_t{4}
                                              << 20U; // W002: with every {NAME} filled in
inline constexpr std::size_t max_made_parts = 20;     // W002: of @items and its like

struct FuelStep {
    double from = 0, below = 0; // $/gal; `below` of the last row: infinite
    std::int64_t cents = 0;     // surcharge for each unit of the price
};

struct Heading {
    std::string text;
};
struct Paragraph {
    std::string text;
};
struct Points {
    std::vector<std::string> texts;
};
enum class Made { Items, Cautions, Picture, Signatures };
struct FuelTable {
    std::vector<FuelStep> steps;
    std::string per; // "ac"
};
using PageBlock = std::variant<Heading, Paragraph, Points, Made, FuelTable>;

struct WordedPage {
    std::map<std::string, std::string> words; // "firm.name" and what the caller gave
    std::vector<PageBlock> blocks;            // with every {NAME} filled in
};

// The text with the record's figures put in. `words` are further words by name ("quote.number").
// Reports W001 for a name that the record does not have or that is inner, W002 for a line that
// cannot be read.
std::optional<WordedPage> fill_in(const lang::SourceMap& sources, lang::FileId file,
                                  const nlohmann::json& record,
                                  std::map<std::string, std::string> words,
                                  lang::Diagnostics& diagnostics);

} // namespace acre::cli
