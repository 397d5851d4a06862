// A quote priced again from its own texts, whatever happened to the files since: to verify it, or
// with the season of today.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/book/record.h"
#include "engine/book/texts.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "engine/questions/risk/points.h"
#include "lang/diag/outcome.h"
#include "lang/kept_trees.h"
#include "lang/loader.h"

namespace acre::engine {

struct PricedAgain {
    lang::Outcome<Job> job; // as its texts make it now
    lang::Outcome<Estimate> estimate;
    // "price.cents: 12480000 in the record, 12480100 now". Money to the cent, other numbers within
    // one part in a billion, everything else as it is written.
    std::vector<std::string> differences;
    // What the first difference comes from: "layered_draft, in `draft`"; or the version of the
    // notation. Empty: nothing can be said.
    std::string because;
};

// What is kept from one record to the next, by any number of threads: trees of the same models, the
// same points. No answer depends on it.
struct KeptBetween {
    lang::KeptTrees trees;
    KeptPoints points;
};

// Compares everything in the record that follows from its texts, which must be carried; without
// `spread` not the trials, which take most of the time.
PricedAgain price_again(const Record& record, KeptBetween* kept = nullptr, bool spread = true);

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
    lang::KeptTrees* kept_trees() override { return inner_.kept_trees(); }

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

// The quote's job as this season makes it. R006: the record lacks its texts; U314: the season is in
// another money than the quote.
lang::Outcome<Job> job_with_season(const QuoteRecord& quote, const SeasonText& season,
                                   lang::Loader& beside);

// `beside` reads what the season names, and has the trees that quotes share.
Repriced reprice(const QuoteRecord& quote, const SeasonText& season, lang::Loader& beside);

} // namespace acre::engine
