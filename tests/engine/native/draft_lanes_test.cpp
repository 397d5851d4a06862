// Many shanks side by side against one at a time, and the wedge against its plain form: by the mean
// friction angles, as it is derived.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <numbers>
#include <random>
#include <vector>

#include "engine/native/deep_draft.h"
#include "engine/native/native.h"

namespace draft_lanes_test {

using namespace acre::engine;

namespace {

constexpr std::size_t lanes = 100; // whole groups, and some that are not full

class Random {
  public:
    explicit Random(std::uint64_t seed) : random_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_() >> 11) * 0x1p-53;
    }
    bool one_in(std::uint64_t n) { return random_() % n == 0; }

  private:
    std::mt19937_64 random_;
};

// Grounds of so many layers, by lane; what `moves` says differs from lane to lane. Some layers are
// not there, some are of the ground above, some arguments have no sense.
struct Grounds {
    std::vector<std::vector<double>> args; // by lane
    std::vector<char> moves;               // by argument
};
Grounds random_grounds(Random& random, std::size_t layers) {
    std::vector<double> base{random.between(0.4, 2.5), random.between(0.02, 0.6),
                             random.between(28, 72)};
    for (std::size_t j = 0; j < layers; ++j) {
        const double friction = random.between(8, 42);
        base.insert(base.end(),
                    {random.one_in(6) ? 0 : random.between(0.05, 0.8), random.between(14, 20),
                     random.between(0, 150), random.between(0, 6), friction,
                     random.between(0.2, 1) * friction});
        if (j > 0 && random.one_in(4))
            std::copy_n(base.end() - 11, 5, base.end() - 5);
    }
    Grounds g;
    for (std::size_t k = 0; k < base.size(); ++k)
        g.moves.push_back(random.one_in(k % 6 == 3 ? 2 : 8) ? 1 : 0);
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        g.args.push_back(base);
        for (std::size_t k = 0; k < base.size(); ++k)
            if (g.moves[k] != 0 && !random.one_in(5))
                g.args[lane][k] = random.one_in(50) ? -1 : base[k] * random.between(0.7, 1.3);
    }
    return g;
}

// All results of the lanes, by result and lane.
std::vector<std::vector<double>> in_lanes(const Grounds& g, std::uint32_t bits) {
    const std::size_t count = g.moves.size();
    std::vector<std::vector<double>> columns(count), out(native_results);
    std::vector<NativeColumn> args;
    for (std::size_t k = 0; k < count; ++k) {
        for (const auto& lane : g.args)
            columns[k].push_back(lane[k]);
        args.push_back({columns[k].data(), g.moves[k] == 0});
    }
    std::array<double*, native_results> rows{};
    for (std::size_t r = 0; r < native_results; ++r) {
        out[r].resize(lanes);
        rows[r] = out[r].data();
    }
    deep_draft_functions()[0].lanes(args, lanes, bits, rows.data());
    return out;
}

bool same_bits(double a, double b) {
    return std::memcmp(&a, &b, sizeof(a)) == 0 || (std::isnan(a) && std::isnan(b));
}

// The draft at a critical depth by what is written in the textbooks: one layer after the other, the
// wedge by angles.
double plain_draft(const std::vector<double>& a, double x) {
    const double pi = std::numbers::pi, radian = pi / 180, width = a[1], rake = a[2] * radian;
    const double m = 4.0704 - 0.0940983 * a[2] + 1.49667e-3 * std::pow(a[2], 2) -
                     1.21924e-5 * std::pow(a[2], 3) + 3.963e-8 * std::pow(a[2], 4);
    const double spread = m - (m - 1) / 3;
    double top = 0, friction = 0, steel = 0, weight = 0, cohesion = 0, adhesion = 0, slot = 0;
    for (std::size_t i = 3; i < a.size() && top < a[0]; i += 6) {
        const double bottom = i + 6 == a.size() ? a[0] : std::min(a[0], top + a[i]);
        const double t = std::max(0.0, std::min(bottom, x) - top), phi = a[i + 4] * radian;
        friction += t * std::tan(phi);
        steel += t * std::tan(a[i + 5] * radian);
        cohesion += a[i + 2] * (width * t + spread * t * (2 * x - 2 * top - t));
        adhesion += a[i + 3] * width * t;
        const double under = bottom - std::max(top, std::min(bottom, x)), s = std::sin(phi);
        const double nq = (1 + s) / (1 - s) * std::exp(2 * pi * std::tan(phi));
        slot += width * under *
                (a[i + 2] * (nq - 1) / std::tan(phi) +
                 (1 - s) * nq * (weight + a[i + 1] * (bottom - top - under / 2)));
        weight += a[i + 1] * t;
        if (x < bottom)
            weight += a[i + 1] * under;
        top = bottom;
    }
    if (x == 0)
        return slot;
    double above = 0, from = 0; // the crescent carries what lies above x alone
    for (std::size_t i = 3; i < a.size() && from < x; i += 6) {
        const double t = i + 6 == a.size() ? x - from : std::min(x - from, a[i]);
        above += a[i + 1] * t;
        from += t;
    }
    const auto n =
        wedge_factors(a[2], std::atan(steel / x) / radian, std::atan(friction / x) / radian);
    const double force =
        n.weight * above * x * (width + spread * x) + n.cohesion * cohesion + n.adhesion * adhesion;
    return force * std::sin(rake + std::atan(steel / x)) + slot;
}

} // namespace

TEST_CASE("shanks side by side have the bits of one alone, in vectors of every width") {
    Random random(20271130);
    int answered = 0, refused = 0;
    for (int trial = 0; trial < 60; ++trial) {
        const auto layers = 1 + static_cast<std::size_t>(trial % 8);
        const Grounds g = random_grounds(random, layers);
        std::vector<std::uint32_t> widths{128};
#ifdef __x86_64__
        if (__builtin_cpu_supports("avx2") != 0)
            widths.push_back(256);
        if (__builtin_cpu_supports("avx512dq") != 0 && __builtin_cpu_supports("avx512vl") != 0 &&
            __builtin_cpu_supports("avx512bw") != 0 && __builtin_cpu_supports("avx512cd") != 0)
            widths.push_back(512);
#endif
        for (const std::uint32_t bits : widths) {
            const auto results = in_lanes(g, bits);
            for (const NativeFunction& f : deep_draft_functions().first(native_results)) {
                for (std::size_t lane = 0; lane < lanes; ++lane) {
                    const double alone = f.value(g.args[lane]);
                    CAPTURE(trial);
                    CAPTURE(bits);
                    CAPTURE(f.name);
                    CAPTURE(lane);
                    CHECK(same_bits(results[f.result][lane], alone));
                    ++(std::isnan(alone) ? refused : answered);
                }
            }
        }
    }
    CHECK(answered > 10000);
    CHECK(refused > 500);
}

TEST_CASE("the draft is that of its plain form") {
    Random random(20271201);
    int compared = 0;
    for (int trial = 0; trial < 300; ++trial) {
        const auto layers = 1 + static_cast<std::size_t>(trial % 8);
        for (const auto& a : random_grounds(random, layers).args) {
            const auto found = shank_draft(a);
            if (std::isnan(found.draft) || a[0] == 0)
                continue;
            CAPTURE(trial);
            CHECK(found.draft ==
                  doctest::Approx(plain_draft(a, found.critical_depth)).epsilon(1e-12));
            ++compared;
            if (compared % 10 == 0)
                break;
        }
    }
    CHECK(compared > 1000);
}

} // namespace draft_lanes_test
