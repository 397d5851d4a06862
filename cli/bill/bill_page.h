// A bill: for the customer on paper, for programs, and as rows for the firm's accounting.
#pragma once

#include <string>

#include "cli/shared/quote_book/work.h"
#include "cli/shared/reply.h"
#include "engine/billing/bill.h"

namespace acre::cli {

struct BillPage {
    std::string number; // of the bill; empty: a draft
    std::string date, note;
    Work work;
    engine::BillAnswer answer;
    std::string product; // of the posted prices that were asked
};

std::string bill_text(const BillPage& bill, bool color);
std::string bill_html(const BillPage& bill);
// Schema acrewright.bill/1. Field by field in cli/README.md.
Document bill_json(const BillPage& bill);

// "118.00 ac", "$809.00/ac"; empty of a lump sum. Safe to show.
std::string quantity_of(const engine::BillLine& line);
std::string rate_of(const engine::BillLine& line);
// "quote 2027-001: ripping.rate, acre_tolerance"; empty where it rests on no line of the quote.
std::string rests_on(const engine::BillLine& line, const std::string& quote);
// "record 2 of the book, sealed 9f86d081..."
std::string sealed_as(const engine::Record& record);

} // namespace acre::cli
