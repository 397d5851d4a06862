// The lines of bills as CSV, for the firm's accounting: one row a line, which add up to what is to
// be paid.
#pragma once

#include <string>

#include "engine/book/lives.h"
#include "engine/book/record.h"

namespace acre::cli {

std::string bill_csv_heading();
// For whom, what and in which money: as the quote says whose terms hold.
std::string bill_csv_rows(const engine::BillRecord& bill, const std::string& customer,
                          const std::string& job, const std::string& money);
std::string bill_csv_rows(const engine::BillRecord& bill, const engine::Lives& lives);

} // namespace acre::cli
