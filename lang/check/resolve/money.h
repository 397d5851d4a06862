// The money of the firm: which it is, and that every figure is in it.
#pragma once

#include <cstdint>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// The firm of the job, its money in the sheet's units. Reports U314 of models, seasons, jobs and
// the command line that hold figures in other money: nothing is converted.
void take_firm(Resolution& r);
void check_money(Resolution& r, std::uint32_t module); // the same of one text

// The texts of all units, with the firm's money in the place of any other way to write it.
void say_units_in_own_money(Sheet& sheet);

} // namespace acre::lang::resolving
