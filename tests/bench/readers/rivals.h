// The model of rip.rate written by hand, in the forms that the lane reader is measured against.
#pragma once

#include <cstddef>

namespace acre::bench {

// in[given][lane], out[answer][lane]; lanes a multiple of 16.
using Rival = void (*)(std::size_t lanes, const double* const* in, double* const* out);

void rip_vectors(std::size_t lanes, const double* const* in,
                 double* const* out); // explicit vectors, the same function library
void rip_loops(std::size_t lanes, const double* const* in,
               double* const* out);          // a plain loop, as the compiler takes it
void rip_one(const double* in, double* out); // one job, plain code

const char* vector_name();

} // namespace acre::bench
