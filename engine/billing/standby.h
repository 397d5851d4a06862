// Hours down, by who pays for their cause.
#pragma once

#include <optional>
#include <vector>

#include "engine/billing/bill.h"
#include "engine/billing/terms.h"

namespace acre::engine {

// One line a cause, those that the contractor bears at nothing. A day of standby is at most billed
// as a day. R010: a cause that no clause knows.
std::optional<lang::Said> bill_standby(const BillQuestion& question, const Terms& terms,
                                       std::vector<BillLine>& lines);

} // namespace acre::engine
