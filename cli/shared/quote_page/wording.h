// The words of a quote: a text file that anybody in the office can edit. How it is written is said
// in cli/README.md, "The wording of a quote".
//
// A name is one that the job's model shows, one of a price, or a word; also after `?`. Nothing else
// reaches the customer's page. What the firm's own file says it cannot say: a line `: firm.NAME =
// …` is an error.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/book/record.h"
#include "lang/diag/outcome.h"

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
// Rows of texts below a head of as many; in a blank one every cell is a line to write on.
struct Grid {
    std::vector<std::string> head;
    std::vector<std::vector<std::string>> rows;
    std::size_t blank_rows = 0;
};
enum class Made { Items, Options, Cautions, Picture, Signatures };
struct FuelTable {
    std::vector<FuelStep> steps;
    std::string per;             // "ac"
    std::string of = "a gallon"; // "per L"
};
using PageBlock = std::variant<Heading, Paragraph, Points, Grid, Made, FuelTable>;

// What the crew's page shows that no customer's does.
struct CrewParts {
    std::vector<std::string> notes;
    Grid figures, days, blocks, log;
};

struct WordedPage {
    std::string kind = "Quote"; // what the page is, before the number
    bool crew = false;          // it is the crew's, to print on few sheets
    std::int64_t layout = engine::current_page_layout;
    std::map<std::string, std::string>
        words;                     // of the firm ("firm.name"), of the quote, and those it sets
    std::vector<PageBlock> blocks; // with every {NAME} filled in
};

// The wording in `text` with the quote's figures put in; `name` is what it is called where it is at
// fault. `words` are further words by name ("quote.number"). W001: a name that the quote does not
// have or that its model does not show; W002: a line that cannot be read. With `crew` it is the
// page of the crew: every line but costs and figures in money can be named, and no part that shows
// a price.
lang::Outcome<WordedPage> fill_in(std::string name, std::string text,
                                  const engine::QuoteRecord& record,
                                  std::map<std::string, std::string> words,
                                  const CrewParts* crew = nullptr);

} // namespace acre::cli
