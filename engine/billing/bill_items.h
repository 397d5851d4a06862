// The items of a quote as they are billed: what the log measured of each.
#pragma once

#include <optional>
#include <string>

#include "engine/billing/bill.h"
#include "engine/billing/terms.h"

namespace acre::engine {

// What a log measures of an item; empty: nothing, it is billed as quoted.
struct Measured {
    const CountedLine* line = nullptr; // what the job counts
    double quantity = 0;
};
// The count of the job that an item is billed by; null: none is.
const CountedLine* measured_by(const QuoteRecord& quote, const RecordItem& item);
std::optional<Measured> measured(const QuoteRecord& quote, const RecordItem& item,
                                 const JobLog& log);

// The lines of all items, the first by the acre in `acres`: what it was measured by and what of it
// is billed.
struct BilledAcres {
    const CountedLine* line = nullptr;
    double measured = 0, billed = 0;
};
std::optional<lang::Said> bill_items(const BillQuestion& question, const Terms& terms,
                                     std::vector<BillLine>& lines, BilledAcres& acres);

// Money in cents; what cannot be told in cents is `too_many_cents`, which no bill may have.
inline constexpr std::int64_t too_many_cents = 9'000'000'000'000'000;
std::int64_t cents_of(double dollars, std::int64_t step = 1);

// A row of the log that stands in the way of a bill.
lang::Said at_row(const JobLog& log, const LogRow& row, std::string_view head,
                  const std::string& what, std::string label, std::vector<lang::Help> helps = {});

} // namespace acre::engine
