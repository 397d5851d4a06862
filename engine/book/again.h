// A quote priced again from the texts in its record, whatever happened to the files since: to
// verify it, or with the season of today.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/book/quotes.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "lang/diag/outcome.h"
#include "lang/loader.h"

namespace acre::engine {

// What differs between a record and the price worked out again from its own texts: "price: 12480000
// cents in the record, 12480100 now", "fuel_price: 4.35 ...". None: the same cents, items, givens
// and lines (to 12 digits).
std::vector<std::string> differences(const nlohmann::json& record);

struct PricedAgain {
    std::string quote, file;
    std::vector<std::string> differences;
};

// None: the record is no quote, or not a record of this program, which is a fault of the book.
std::optional<PricedAgain> price_again(std::string_view bytes, std::string_view file);

// A quote's own texts, with one season instead of whichever it names. The firm that this season
// names comes from `beside`, where the season does.
class SeasonLoader : public lang::Loader {
  public:
    SeasonLoader(lang::Loader& inner, lang::Loader& beside, std::string name, std::string text)
        : inner_(inner),
          beside_(beside),
          name_(std::move(name)),
          text_(std::move(text)) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override;

  private:
    lang::Loader& inner_;
    lang::Loader& beside_;
    std::string name_, text_;
};

struct SeasonText {
    std::string name, text;
};
struct Today {
    double cost = 0;        // $, direct cost
    std::int64_t cents = 0; // what would be quoted today
};
struct Repriced {
    std::string number, title;
    lang::Currency money; // that it was quoted in
    std::int64_t quoted_cents = 0;
    double cost_then = 0;        // $, direct cost
    double overhead = 0;         // $, as quoted: what the job carries does not move with a season
    lang::Outcome<Today> today;  // or why the quote has no price today
    double contribution() const; // $: the quoted price less the direct cost of today
    double profit() const;       // $: the contribution less overhead
    std::string why_not() const; // no price today: what was said first
    bool loses_money() const;    // today: the profit is below zero
};

// `beside` reads what the season names.
Repriced reprice(const Quote& quote, const SeasonText& season, lang::Loader& beside);

// Of a quote whose record lacks its texts (R006).
lang::Diagnostic lacks_texts(std::string_view number);

} // namespace acre::engine
