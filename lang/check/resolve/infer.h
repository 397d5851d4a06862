// The type of a formula, as far as declarations tell it: for the lines that declare none
// (quantities of costs) and for the steps of a price, whose meaning hangs on their unit. The unit
// check itself comes later and trusts nothing here.
#pragma once

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// Poison when the formula does not fit together: then the unit check has something to say about it.
Type type_of(Resolution& r, NodeId node);

} // namespace acre::lang::resolving
