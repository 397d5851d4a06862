// Some numbers side by side, one to a lane: a formula written once for any number type works out
// many at a time. Every step rounds as that of a single number does, so lanes of all widths give
// the bits that one number gives.
//
// Inlined always: within a function compiled for a wider processor a step becomes one of that
// processor's own vectors. Compilers do so with arithmetic alone; what compares and chooses is in
// pack_choices-inl.h.
#pragma once

#include <cmath>
#include <cstddef>

namespace acre::engine {

template <std::size_t lanes> struct VectorsOf;
template <> struct VectorsOf<2> {
    typedef double Numbers __attribute__((vector_size(16)));
    typedef long long Truths __attribute__((vector_size(16)));
};
template <> struct VectorsOf<4> {
    typedef double Numbers __attribute__((vector_size(32)));
    typedef long long Truths __attribute__((vector_size(32)));
};
template <> struct VectorsOf<8> {
    typedef double Numbers __attribute__((vector_size(64)));
    typedef long long Truths __attribute__((vector_size(64)));
};

template <std::size_t lanes> struct Pack {
    using Numbers = typename VectorsOf<lanes>::Numbers;
    static constexpr std::size_t width = lanes;

    Numbers at;

    Pack() = default;
    [[gnu::always_inline]] explicit Pack(const Numbers& numbers) : at(numbers) {}
    // The same in every lane: implicit, so that formulas read alike for double and Pack.
    [[gnu::always_inline]] Pack(double x) : at(x - Numbers{}) {}

    [[gnu::always_inline]] friend Pack operator-(const Pack& a) { return Pack(-a.at); }
    [[gnu::always_inline]] friend Pack operator+(const Pack& a, const Pack& b) {
        return Pack(a.at + b.at);
    }
    [[gnu::always_inline]] friend Pack operator-(const Pack& a, const Pack& b) {
        return Pack(a.at - b.at);
    }
    [[gnu::always_inline]] friend Pack operator*(const Pack& a, const Pack& b) {
        return Pack(a.at * b.at);
    }
    [[gnu::always_inline]] friend Pack operator/(const Pack& a, const Pack& b) {
        return Pack(a.at / b.at);
    }
    [[gnu::always_inline]] friend Pack sqrt(const Pack& a) {
        Pack root;
        for (std::size_t k = 0; k < lanes; ++k)
            root.at[k] = std::sqrt(a.at[k]);
        return root;
    }
};

} // namespace acre::engine
