// A workbook as the bytes of an .xlsx file (ECMA-376), by libxlsxwriter. No macros, no links; texts
// stay texts, whatever they begin with.
#pragma once

#include <string>

#include "engine/workbook/workbook.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

// F707 where the library or the system refuses.
lang::Outcome<std::string> xlsx_of(const engine::Workbook& book);

} // namespace acre::cli
