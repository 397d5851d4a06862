// Jobs, or options of one job, side by side: prices, costs and quantities of each, what is not the
// same, what each difference adds, where two cost the same, and the price of each over a given.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/bridge/bridge.h"
#include "engine/questions/what_if/axis.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_columns = 12;
inline constexpr std::size_t max_side_by_side =
    2'000'000; // steps of calculation of all columns together: each is kept whole

struct CompareSide {
    std::string name; // what its column is called; empty: the title of the job
    std::string from; // where it comes from: its file
    lang::Outcome<Job> job;
};

struct CompareQuestion {
    std::string flip; // a given: where each column costs the same as the first; empty: not asked
    struct Over {
        std::string given;
        Range ends; // in the unit of the given
        std::size_t points = 241;
    };
    std::optional<Over> over; // the price of each column over a given
    bool by_block = false;    // the price of each block in every column
};

struct CompareColumn {
    std::string name;
    std::int64_t price_cents = 0;
    std::string per;         // unit of the all-in price: "ac"; empty: none
    bool at_minimum = false; // a minimum charge adds to what the work comes to
    bool cheapest = false;   // no other costs less per unit, and one costs more
};

struct CompareRow {
    std::string name, label, unit;   // label: the name where the model gives none
    std::vector<double> value;       // by column; NaN: this one has no such line
    std::vector<std::string> choice; // by column, instead of values, for what differs: with unit,
                                     // or the identifier of an option; "-": no such line
    bool is_choice = false;          // of an option
};

struct CompareWhy {
    std::size_t column = 0;             // against the first
    std::optional<BridgeAnswer> bridge; // empty: why_not says why
    std::string why_not;
};

// Where a column costs the same as the first.
struct CompareMeeting {
    enum class Kind : std::uint8_t {
        Same,  // at `at`
        Step,  // the lead changes between `at` and `to`
        Touch, // the same at `at`, and no change of the lead
        Level, // the same from `at` to `to`
    } kind = Kind::Same;
    double at = 0, to = 0;
    bool cheaper_above = false; // of Same and Step: the column costs less than the first above it
};
struct CompareFlip {
    std::size_t column = 0;
    std::vector<CompareMeeting> meetings; // in order of the given
    bool cut = false;                     // there are more
    // Without meetings: which of the two is cheaper all the way, and by how much at the least.
    bool column_is_cheaper = false;
    double least = 0, least_at = 0;
};
struct CompareFlips {
    std::string given, label, unit, price_unit;
    Range range; // that was searched
    std::vector<CompareFlip> columns;
};

struct CompareOver {
    std::string given, label, unit, price_unit;
    std::vector<double> at;
    std::vector<std::vector<double>> price; // by column, then place; NaN: no answer
};

struct CompareAnswer {
    std::string title;
    std::vector<CompareColumn> columns;  // none: no side has a price, and `told` is all there is
    std::vector<std::string> unanswered; // sides that have no price; `told` says why
    std::optional<std::size_t> cheapest; // first column of the least price per unit; of columns
                                         // that all cost the same, to the cent, there is none
    std::vector<CompareRow> prices;      // total, per unit, per planted tree
    std::vector<CompareRow> costs;       // amounts, $
    std::vector<CompareRow> quantities;  // acres, hours, days, gallons …
    std::vector<CompareRow> differences; // givens that are not the same in all columns
    std::vector<CompareRow> blocks;      // price of each and of what rests on none; if asked for
    std::vector<CompareWhy> why;
    std::optional<CompareFlips> flips;
    std::optional<CompareOver> over;

    std::vector<lang::Said> told; // of each side that something was said of
};

// The titles of the options that a job offers.
std::vector<std::string> options_of(const PricedJob& job);

// The unit of a given, for who reads a range of it; "1": a plain number. Q001: no such given.
lang::Outcome<std::string> unit_of_given(const PricedJob& job, const std::string& given);

// Q006: more columns than max_columns. None is left out in silence: it might be the cheapest.
std::optional<lang::Diagnostic> too_many_side_by_side(std::size_t columns);

// More steps of calculation than side by side can be kept: Q006. For who opens jobs one after the
// other, to stop in time.
std::optional<lang::Diagnostic> too_much_side_by_side(std::span<const CompareSide> sides);

// A side without a job or a price is left out and told. No answer where there is too much side by
// side (Q006), or flip or over cannot be asked so (Q...).
lang::Outcome<CompareAnswer> ask(std::vector<CompareSide> sides, const CompareQuestion& question);

} // namespace acre::engine
