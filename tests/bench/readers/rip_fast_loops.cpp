#include "tests/bench/readers/rip_loops.inl"

extern "C" void rip_fast_loops(std::size_t lanes, const double* const* in, double* const* out) {
    acre::bench::over_lanes(lanes, in, out);
}
