// What each operation of the plan means for one double. The block reader does the same in lanes with the same function
// library (SLEEF's deterministic double functions), and the constant folder calls these.
#pragma once

#include "engine/plan.h"

namespace acre::engine {

double apply(Code code, double a, double b, double c); // every code but Constant, Input, Table, Native
double look_up(const PlanTable& table, double x);

} // namespace acre::engine
