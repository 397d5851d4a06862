// What `bill` is asked.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/reply.h"

namespace acre::cli {

struct BillArguments {
    std::string number, log, book = "quote-book", posted, product, date, note, key, page, text;
    std::vector<std::string> deposits, causes;
    bool draft = false, csv = false, json = false;
};

bool is_bill_number(const std::string& number);

// The page of a bill as it was made, its lines as CSV or its record, from the book. C004: what only
// a new bill takes was given too.
Reply reprint(const BillArguments& arguments);

} // namespace acre::cli
