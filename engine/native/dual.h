// A number that carries its slopes by N inputs through a computation: forward mode, exact to
// rounding.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace acre::engine {

template <std::size_t N> struct Dual {
    double value = 0;
    std::array<double, N> slope{};

    Dual() = default;
    Dual(double v)
        : value(v) {} // a constant: implicit, so that formulas read alike for double and Dual
    static Dual input(double v, std::size_t index) {
        Dual d(v);
        d.slope[index] = 1;
        return d;
    }
};

namespace dual_detail {
// f(a): value v, outer slope s.
template <std::size_t N> Dual<N> chain(const Dual<N>& a, double v, double s) {
    Dual<N> r(v);
    for (std::size_t i = 0; i < N; ++i)
        r.slope[i] = s * a.slope[i];
    return r;
}
template <std::size_t N>
Dual<N> chain(const Dual<N>& a, const Dual<N>& b, double v, double sa, double sb) {
    Dual<N> r(v);
    for (std::size_t i = 0; i < N; ++i)
        r.slope[i] = sa * a.slope[i] + sb * b.slope[i];
    return r;
}
} // namespace dual_detail

template <std::size_t N> Dual<N> operator-(const Dual<N>& a) {
    return dual_detail::chain(a, -a.value, -1.0);
}
template <std::size_t N> Dual<N> operator+(const Dual<N>& a, const Dual<N>& b) {
    return dual_detail::chain(a, b, a.value + b.value, 1.0, 1.0);
}
template <std::size_t N> Dual<N> operator-(const Dual<N>& a, const Dual<N>& b) {
    return dual_detail::chain(a, b, a.value - b.value, 1.0, -1.0);
}
template <std::size_t N> Dual<N> operator*(const Dual<N>& a, const Dual<N>& b) {
    return dual_detail::chain(a, b, a.value * b.value, b.value, a.value);
}
template <std::size_t N> Dual<N> operator/(const Dual<N>& a, const Dual<N>& b) {
    const double v = a.value / b.value;
    return dual_detail::chain(a, b, v, 1.0 / b.value, -v / b.value);
}
template <std::size_t N> Dual<N> operator+(const Dual<N>& a, double b) {
    return dual_detail::chain(a, a.value + b, 1.0);
}
template <std::size_t N> Dual<N> operator+(double a, const Dual<N>& b) {
    return b + a;
}
template <std::size_t N> Dual<N> operator-(const Dual<N>& a, double b) {
    return dual_detail::chain(a, a.value - b, 1.0);
}
template <std::size_t N> Dual<N> operator-(double a, const Dual<N>& b) {
    return dual_detail::chain(b, a - b.value, -1.0);
}
template <std::size_t N> Dual<N> operator*(const Dual<N>& a, double b) {
    return dual_detail::chain(a, a.value * b, b);
}
template <std::size_t N> Dual<N> operator*(double a, const Dual<N>& b) {
    return b * a;
}
template <std::size_t N> Dual<N> operator/(const Dual<N>& a, double b) {
    return dual_detail::chain(a, a.value / b, 1.0 / b);
}
template <std::size_t N> Dual<N> operator/(double a, const Dual<N>& b) {
    const double v = a / b.value;
    return dual_detail::chain(b, v, -v / b.value);
}

template <std::size_t N> Dual<N> sqrt(const Dual<N>& a) {
    const double v = std::sqrt(a.value);
    return dual_detail::chain(a, v, v > 0 ? 0.5 / v : 0.0);
}
template <std::size_t N> Dual<N> exp(const Dual<N>& a) {
    const double v = std::exp(a.value);
    return dual_detail::chain(a, v, v);
}
template <std::size_t N> Dual<N> sin(const Dual<N>& a) {
    return dual_detail::chain(a, std::sin(a.value), std::cos(a.value));
}
template <std::size_t N> Dual<N> cos(const Dual<N>& a) {
    return dual_detail::chain(a, std::cos(a.value), -std::sin(a.value));
}
template <std::size_t N> Dual<N> tan(const Dual<N>& a) {
    const double v = std::tan(a.value);
    return dual_detail::chain(a, v, 1.0 + v * v);
}

inline double value_of(double a) {
    return a;
}
template <std::size_t N> double value_of(const Dual<N>& a) {
    return a.value;
}

} // namespace acre::engine
