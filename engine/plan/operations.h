// What each operation of the plan means for one double. The lane reader does the same in lanes
// with the same function library (SLEEF's deterministic double functions), and the constant folder
// calls these.
#pragma once

#include "engine/plan/plan.h"

namespace acre::engine {

double apply(OpCode code, double a, double b,
             double c); // every code but Constant, Input, Table, Native
// Linear between rows: y0 + (x - x0) / (x1 - x0) * (y1 - y0); a staircase holds each row until the
// next.
double look_up(const PlanTable& table, double x);

} // namespace acre::engine
