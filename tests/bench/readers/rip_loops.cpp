#include "tests/bench/readers/rip_loops.inl"

namespace acre::bench {

void rip_loops(std::size_t lanes, const double* const* in, double* const* out) {
    over_lanes(lanes, in, out);
}
void rip_one(const double* in, double* out) {
    rip<double, Functions>(in, out);
}

} // namespace acre::bench
