// The native deep draft against published wedge factors, recalled tables, and figures made once by
// an independent program of the same formulas. No measured draft at 4 to 7 ft is public, so the
// deep figures prove the code, not the soil.
#include "engine/native/deep_draft.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace deep_draft_test {

using namespace acre::engine;

namespace {

// unit weight kN/m3, cohesion kPa, friction deg, steel friction deg, adhesion kPa
struct Soil {
    double weight, cohesion, friction, steel, adhesion;
};
struct Bed {
    double thickness;
    Soil soil;
};

// As many layers as there are beds. The last one goes on for ever: its thickness does not count.
std::vector<double> arguments(double depth, double width, double rake,
                              const std::vector<Bed>& beds) {
    std::vector<double> a{depth, width, rake};
    for (const Bed& bed : beds)
        for (const double v : {bed.thickness, bed.soil.weight, bed.soil.cohesion, bed.soil.adhesion,
                               bed.soil.friction, bed.soil.steel})
            a.push_back(v);
    return a;
}
// As earlier versions called it: four layers, the last without its thickness.
std::vector<double> old_arguments(std::vector<double> a) {
    while (a.size() < draft_args(4)) {
        a.insert(a.end(), a.end() - 6, a.end());
        a[a.size() - 12] = 0;
    }
    a.erase(a.end() - 6);
    return a;
}

constexpr Soil loam{16, 9, 33, 23, 1}, loam_dry{16, 14.4, 35, 23, 0},
    loam_moist{16, 7.2, 27, 23, 1.5};
constexpr Soil sandy_loam{16, 6, 34, 23, 0.5}, sandy_loam_moist{16, 4.8, 28, 23, 0.75},
    clay_loam_dry{16.5, 22.4, 33, 22, 0};
constexpr Soil weak_pan{17.5, 25, 36, 24, 0}, moderate_pan{18, 60, 38, 25, 0},
    strong_pan{19, 150, 40, 26, 0};

std::vector<Bed> pan_profile(Soil top, Soil pan, Soil bottom) {
    return {{0.9144, top}, {0.3048, pan}, {0, bottom}};
}

} // namespace

TEST_CASE("draft of one shank in uniform ground") {
    struct Row {
        Soil soil;
        double depth, width, rake, draft, critical;
    };
    // ours: figures of an independent program with the same formulas; kN and m
    for (const Row& r : {Row{loam, 0.5, 0.06, 45, 13.062, 0.5},
                         {loam, 1, 0.09, 45, 71.666, 1},
                         {loam, 1.8288, 0.0889, 45, 343.262, 1.7739},
                         {loam_dry, 1.8288, 0.0889, 45, 418.771, 1.8288},
                         {{16, 6.3, 15, 15, 2}, 1.5, 0.0889, 45, 33.100, 0.3488},
                         {{17, 17.6, 21, 20, 6}, 1.2, 0.0889, 60, 99.198, 0.5730}}) {
        const auto s = shank_draft(arguments(r.depth, r.width, r.rake, {{0, r.soil}}));
        CHECK(std::abs(s.draft - r.draft) < 0.0011);
        CHECK(std::abs(s.critical_depth - r.critical) < 0.00006);
        CHECK(s.crescent + s.slot == doctest::Approx(s.draft).epsilon(1e-12));
    }
    const auto wet = arguments(1.5, 0.0889, 45, {{0, {16, 6.3, 15, 15, 2}}});
    CHECK(std::abs(shank_draft_at(wet, 0.4).slot - 28.8039) < 0.0001);
    CHECK(std::abs(shank_draft_at(wet, 0.4).crescent - 4.3899) < 0.0001);
}

TEST_CASE("draft over a hardpan at 3 to 4 ft, dry, moist, weak and strong") {
    // ours: figures of an independent program with the same formulas. Shank 3.5 in wide, rake 45;
    // depth in ft, draft in kN.
    struct Row {
        double depth, base, low, high, moist;
    };
    for (const Row& r : {Row{3.0, 75.0, 57.3, 94.2, 47.1},
                         {3.5, 116.0, 87.6, 152.6, 78.4},
                         {4.0, 173.9, 128.5, 242.9, 125.8},
                         {4.5, 234.5, 176.7, 307.8, 147.3},
                         {5.0, 298.7, 233.4, 375.7, 170.1},
                         {5.5, 366.5, 299.4, 446.6, 194.3},
                         {6.0, 437.8, 370.5, 520.5, 219.8},
                         {6.5, 512.7, 445.2, 597.4, 246.7},
                         {7.0, 591.2, 523.4, 677.4, 275.0}}) {
        CAPTURE(r.depth);
        const auto draft = [&](Soil top, Soil pan, Soil bottom) {
            return shank_draft(
                       arguments(r.depth * 0.3048, 0.0889, 45, pan_profile(top, pan, bottom)))
                .draft;
        };
        CHECK(std::abs(draft(loam_dry, moderate_pan, sandy_loam) - r.base) < 0.051);
        CHECK(std::abs(draft(loam, weak_pan, sandy_loam) - r.low) < 0.051);
        CHECK(std::abs(draft(clay_loam_dry, strong_pan, loam) - r.high) < 0.051);
        CHECK(std::abs(draft(loam_moist, moderate_pan, sandy_loam_moist) - r.moist) < 0.051);
    }
    const auto six =
        shank_draft(arguments(1.8288, 0.0889, 45, pan_profile(loam_dry, moderate_pan, sandy_loam)));
    CHECK(six.critical_depth == doctest::Approx(1.2192));
    CHECK(std::abs(six.crescent - 173.9) < 0.051);
    CHECK(std::abs(six.slot - 263.9) < 0.051);
    CHECK(std::abs(six.down_force - 68.5) < 0.051);
}

TEST_CASE("draft answers to rake, width, cohesion and pan as the reference program says") {
    const auto draft = [](double width, double rake, double cohesion, double friction, Soil pan,
                          double pan_ft) {
        auto beds = pan_profile(loam_dry, pan, sandy_loam);
        beds[1].thickness = pan_ft * 0.3048;
        for (auto& b : beds) {
            b.soil.cohesion *= cohesion;
            b.soil.friction += friction;
        }
        return shank_draft(arguments(1.8288, width * 0.0254, rake, beds)).draft;
    };
    const double base = draft(3.5, 45, 1, 0, moderate_pan, 1);
    struct Row {
        double width, rake, cohesion, friction;
        Soil pan;
        double pan_ft, ratio;
    };
    for (const Row& r : {Row{3.5, 30, 1, 0, moderate_pan, 1, 0.96},
                         {3.5, 60, 1, 0, moderate_pan, 1, 1.11},
                         {3.5, 75, 1, 0, moderate_pan, 1, 1.35},
                         {2.5, 45, 1, 0, moderate_pan, 1, 0.82},
                         {5, 45, 1, 0, moderate_pan, 1, 1.14},
                         {18, 45, 1, 0, moderate_pan, 1, 1.26},
                         {3.5, 45, 0.5, 0, moderate_pan, 1, 0.76},
                         {3.5, 45, 1.5, 0, moderate_pan, 1, 1.24},
                         {3.5, 45, 2, 0, moderate_pan, 1, 1.48},
                         {3.5, 45, 1, -5, moderate_pan, 1, 0.64},
                         {3.5, 45, 1, 5, moderate_pan, 1, 1.22},
                         {3.5, 45, 1, 0, weak_pan, 1, 0.944},
                         {3.5, 45, 1, 0, strong_pan, 1, 1.09}}) {
        CAPTURE(r.ratio);
        CHECK(std::abs(draft(r.width, r.rake, r.cohesion, r.friction, r.pan, r.pan_ft) / base -
                       r.ratio) < 0.0056);
    }
}

TEST_CASE(
    "a shank that is not in the ground needs no draft, and a call without sense has no answer") {
    auto a = arguments(0, 0.0889, 45, {{0, loam}});
    CHECK(shank_draft(a).draft == 0);
    a = arguments(1, 0.0889, 45, {{0, loam}});
    CHECK(shank_draft(a).draft > 0);
    for (std::size_t i = 0; i < a.size(); ++i) {
        auto bad = a;
        bad[i] = std::nan("");
        CHECK(std::isnan(shank_draft(bad).draft));
        bad[i] = -1;
        CHECK(std::isnan(shank_draft(bad).draft));
    }
    for (const auto& f : deep_draft_functions()) {
        std::vector<double> slope(a.size());
        auto bad = a;
        bad[2] = 91;
        CHECK(std::isnan(f.value(bad)));
        CHECK(std::isnan(f.slopes(bad, slope)));
        CHECK(std::isnan(slope[0]));
    }
}

TEST_CASE("one ground written as any number of layers takes the same draft") {
    const double depth = 1.6;
    const auto whole = shank_draft(arguments(depth, 0.0889, 45, {{0, loam_dry}}));
    for (std::size_t layers = 2; layers <= most_draft_layers; ++layers) {
        std::vector<Bed> beds(layers, {0.3, loam_dry});
        const auto cut = shank_draft(arguments(depth, 0.0889, 45, beds));
        CHECK(cut.draft == doctest::Approx(whole.draft).epsilon(1e-12));
        CHECK(cut.critical_depth == doctest::Approx(whole.critical_depth).epsilon(1e-12));
    }
    // Layers of no thickness between two are not there.
    std::vector<Bed> beds = pan_profile(loam_dry, moderate_pan, sandy_loam);
    const auto three = shank_draft(arguments(depth, 0.0889, 45, beds));
    beds.insert(beds.begin() + 1, {0, strong_pan});
    CHECK(shank_draft(arguments(depth, 0.0889, 45, beds)).draft == three.draft);
}

TEST_CASE("what earlier versions called gives the same to the last bit") {
    for (const double depth : {0.5, 1.0, 1.3, 1.8288, 2.1}) {
        const auto a =
            arguments(depth, 0.0889, 45, pan_profile(loam_dry, moderate_pan, sandy_loam));
        const auto now = shank_draft(a), before = shank_draft(old_arguments(a));
        CHECK(now.draft == before.draft);
        CHECK(now.critical_depth == before.critical_depth);
        CHECK(now.slot == before.slot);
        CHECK(now.down_force == before.down_force);
    }
}

namespace {

// The least of all depths on the grid and at the bottoms of layers, each tried by itself.
ShankDraft least_tried(const std::vector<double>& a) {
    ShankDraft least = shank_draft_at(a, 0);
    const auto look = [&](double x) {
        if (const ShankDraft at = shank_draft_at(a, x); at.draft < least.draft)
            least = at;
    };
    for (int i = 1; i <= 400; ++i)
        look(a[0] * (i / 400.0));
    double bottom = 0;
    for (std::size_t k = 3; k + 6 < a.size(); k += 6)
        if (bottom += a[k]; bottom < a[0])
            look(bottom);
    return least;
}

} // namespace

TEST_CASE("the search finds what trying every depth finds") {
    std::mt19937_64 random(20271129);
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
    };
    int inside = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const bool wild = trial % 2 == 1; // as thin, hard, frictionless and blunt as it may be
        const double depth = wild ? std::exp(between(-3, 3)) : between(0.4, 2.5);
        std::vector<Bed> beds;
        const std::size_t layers = 1 + static_cast<std::size_t>(trial / 2 % 8);
        for (std::size_t j = 0; j < layers; ++j) {
            const double friction = wild ? between(0, 60) : between(8, 42);
            beds.push_back({wild ? depth * std::exp(between(-7, 0.5)) : between(0.05, 0.8),
                            {wild ? between(0, 40) : between(14, 20),
                             wild ? std::exp(between(-3, 6)) : between(0, 150), friction,
                             between(0.2, 1) * friction, between(0, wild ? 40 : 6)}});
        }
        const auto a =
            arguments(depth, between(0.02, 0.6), wild ? between(5, 90) : between(28, 72), beds);
        const auto found = shank_draft(a);
        const ShankDraft least = least_tried(a);
        const double at = least.critical_depth;
        CAPTURE(trial);
        CHECK(found.draft == doctest::Approx(least.draft).epsilon(1e-12));
        CHECK(found.critical_depth == doctest::Approx(at).epsilon(1e-12));
        inside += at > 0 && at < depth ? 1 : 0;
    }
    CHECK(inside > 50);
}

TEST_CASE("of two valleys in one layer the deeper is found") {
    // As the critical depth grows within one layer the draft falls, rises and falls again.
    const std::vector<std::vector<double>> grounds = {
        {1.51, 0.311, 77.1, 0.0124, 38,    0,    0,    0.504, 0.449, 1.95, 37.4,
         199,  34.1,  58.6, 45.3,   0.269, 6.59, 1.77, 0,     2.8,   0.79},
        {0.0732, 0.281, 89.7, 0.00155, 8.66,   0,    19.9,  59.2, 52.5, 0.0406, 2.39,
         0,      37.4,  40.4, 25.4,    0.0734, 19.3, 0.501, 34.3, 39.5, 24.7},
        {2.84, 0.25, 81.7, 0.191, 32.7, 0, 0, 9.22, 2.94, 1.53, 13.6, 0, 25.6, 55.9, 53.5}};
    for (const std::vector<double>& a : grounds) {
        CAPTURE(a[0]);
        const ShankDraft least = least_tried(a);
        CHECK(shank_draft(a).draft == doctest::Approx(least.draft).epsilon(1e-12));
        CHECK(shank_draft(a).critical_depth == doctest::Approx(least.critical_depth));
    }
}

TEST_CASE("rake and steel friction that turn the wedge over have no answer") {
    const auto draft = [](double rake, double friction, double steel) {
        return shank_draft(arguments(1.5, 0.1, rake, {{0, {16, 9, friction, steel, 1}}})).draft;
    };
    CHECK(draft(90, 33, 89.5) > 0);
    for (const double steel : {90.0, 90.5, 100.0}) // 180 degrees together, and more
        CHECK(std::isnan(draft(90, 33, steel)));
    CHECK(std::isnan(draft(89.9, 33, 90.2)));
    CHECK(std::isnan(draft(90.1, 33, 23)));
    CHECK(std::isnan(draft(0, 33, 23)));
    CHECK(draft(45, 89.9, 23) > 0);
    CHECK(std::isnan(draft(45, 90, 23)));
    CHECK(draft(45, 0, 0) > 0);
    CHECK(std::isnan(draft(45, -0.1, 0)));
}

TEST_CASE("slopes are those of central differences wherever the search stays on its piece") {
    std::mt19937_64 random(20270314);
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
    };
    int compared = 0, at_boundary = 0, at_depth = 0;
    for (int trial = 0; trial < 300; ++trial) {
        std::vector<Bed> beds;
        const std::size_t layers = trial < 240 ? 4 : 1 + static_cast<std::size_t>(trial % 8);
        for (std::size_t j = 0; j < layers; ++j) {
            const double friction = between(8, 42);
            beds.push_back({between(0.2, 0.8),
                            {between(14, 20), between(3, 120), friction, between(0.4, 1) * friction,
                             between(0, 6)}});
        }
        const auto a = arguments(between(0.4, 2.2), between(0.05, 0.5), between(28, 72), beds);
        const auto found = shank_draft(a);
        if (found.critical_depth == a[0])
            ++at_depth;
        for (std::size_t j = 0; j + 1 < layers; ++j) {
            double z = 0;
            for (std::size_t k = 0; k <= j; ++k)
                z += a[3 + 6 * k];
            if (std::abs(found.critical_depth - z) < 1e-12)
                ++at_boundary;
        }
        for (const auto& f : deep_draft_functions()) {
            std::vector<double> slope(a.size());
            const double value = f.slopes(a, slope);
            CHECK(value == doctest::Approx(f.value(a)).epsilon(1e-12).scale(1e-9));
            for (std::size_t i = 0; i < a.size(); ++i) {
                const double h = 1e-6 * std::max(1.0, std::abs(a[i]));
                auto low = a, high = a;
                low[i] -= h;
                high[i] += h;
                // another critical depth on one side: no difference to compare with
                const auto piece = [&](const std::vector<double>& x) {
                    const auto s = shank_draft(x);
                    return std::round(s.critical_depth / x[0] * 400 * 1e4) / 1e4;
                };
                if (low[i] < 0 || std::abs(piece(low) - piece(high)) > 0.01)
                    continue;
                const double difference = (f.value(high) - f.value(low)) / (2 * h);
                CAPTURE(trial);
                CAPTURE(f.name);
                CAPTURE(i);
                CHECK(
                    slope[i] ==
                    doctest::Approx(difference).epsilon(2e-5).scale(std::abs(value) * 1e-3 + 0.2));
                ++compared;
            }
        }
    }
    CHECK(compared > 20000);
    CHECK(at_boundary > 10);
    CHECK(at_depth > 10);
}

} // namespace deep_draft_test
