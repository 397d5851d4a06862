// A quote priced again from its own texts, with another season in the place of its own.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/quote_book/quotes.h"
#include "lang/loader.h"

namespace acre::cli {

// A quote's own texts, with one season instead of whichever it names.
class SeasonLoader : public lang::Loader {
  public:
    SeasonLoader(lang::Loader& inner, std::string name, std::string text)
        : inner_(inner),
          name_(std::move(name)),
          text_(std::move(text)) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override;

  private:
    lang::Loader& inner_;
    std::string name_, text_;
};

struct Repriced {
    std::string number, title;
    std::int64_t quoted_cents = 0;
    double cost_then = 0, cost_now = 0; // money
    std::int64_t cents_now = 0;         // what would be quoted today
    std::string why_not;                // no price today: why
};
Repriced reprice_with_season(const Quote& quote, const std::string& season_name,
                             const std::string& season_text);

// Schema acrewright.book/1. `repriced`: the open quotes with today's season, if `with_season`.
std::string book_json(const std::vector<Quote>& quotes, const std::vector<Repriced>& repriced,
                      bool with_season);

} // namespace acre::cli
