// The work of a quote that was accepted: by whose terms it stands, and how it came to its price.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/billing/bill.h"
#include "engine/book/lives.h"
#include "engine/book/record.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct ContractStep {
    std::string quote, option, accepted; // the quote or change order, what of it, and when
    std::int64_t record = 0;             // in the book
    std::int64_t cents = 0;              // what the work stood at from then on
};
// The quote first, then its change orders as they were accepted; the last one's terms hold. R002:
// no such quote; R010: it was not accepted. A change order's number stands for its quote's.
struct Contract {
    const Life* life = nullptr; // of the quote; gone with the Lives it was asked of
    Standing standing;
    std::vector<ContractStep> steps;
};
lang::Outcome<Contract> contract_of(const Lives& lives, const std::string& number);

// The work in the newest bill of the quote.
std::optional<BilledBefore> billed_before(const Lives& lives, const std::string& quote);

// The quote as its accepted option has it, priced again from its own texts, which must be carried.
// R010: it does not come to the price that the record has for that option.
lang::Outcome<QuoteRecord> as_option(const QuoteRecord& quote, const std::string& option);

} // namespace acre::engine
