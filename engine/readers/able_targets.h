// Which of Highway's targets this machine runs, as a mask of its HWY_SSE4, HWY_AVX2 and HWY_AVX3; 0
// elsewhere than on x86.
//
// Highway has its own answer, in a shared library that measures the clock whenever a program loads
// it: longer than a price takes.
#pragma once

#include <cstdint>

namespace acre::engine {

std::int64_t able_targets();

} // namespace acre::engine
