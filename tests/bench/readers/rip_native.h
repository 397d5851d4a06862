// The model of rip.rate by hand, once for any kind of number: a double, a vector of doubles.
// Conversions of units are drawn together and tables written out, as one would by hand.
#pragma once

#include <cstddef>

namespace acre::bench {

inline constexpr std::size_t given_count = 25;
enum Given : std::size_t {
    area,
    run,
    spacing,
    depth,
    speed,
    turn,
    clay,
    moisture,
    power,
    slip,
    age,
    use_hours,
    machine_price,
    interest,
    insurance,
    shift_hours,
    fuel_price,
    wage,
    burden,
    shank_price,
    point_life,
    haul,
    haul_rate,
    overhead_share,
    margin_share
};
inline constexpr const char* given_name[given_count] = {
    "area",        "run",        "spacing",       "depth",          "speed",
    "turn",        "clay",       "moisture",      "power",          "slip",
    "age",         "use_hours",  "machine_price", "interest",       "insurance",
    "shift_hours", "fuel_price", "wage",          "burden",         "shank_price",
    "point_life",  "haul",       "haul_rate",     "overhead_share", "margin_share"};
inline constexpr double given_value[given_count] = {
    152, 1240, 7, 5.5,  1.6, 0.9, 32,   14, 850, 12,   6, 1400, 1350000,
    7.5, 1.1,  9, 4.35, 34,  28,  8400, 95, 64,  6.75, 9, 15};
inline constexpr std::size_t answer_count = 3;
inline constexpr const char* answer_name[answer_count] = {"cost.total", "price.total",
                                                          "price.per_unit"};

// A table with straight lines between its rows, the ends held.
template <class N, class F, std::size_t rows>
inline N lines_between(N at, const double (&x)[rows], const double (&y)[rows]) {
    const N c = F::greater(N(x[0]), F::lesser(N(x[rows - 1]), at));
    N low = N(x[0]), base = N(y[0]), rise = N((y[1] - y[0]) / (x[1] - x[0]));
    for (std::size_t k = 1; k + 1 < rows; ++k) {
        const auto before = F::below(c, N(x[k]));
        low = F::choose(before, low, N(x[k]));
        base = F::choose(before, base, N(y[k]));
        rise = F::choose(before, rise, N((y[k + 1] - y[k]) / (x[k + 1] - x[k])));
    }
    return base + (c - low) * rise;
}

// N: a number. F: its functions power, root, exponential, logarithm, ceiling, lesser, greater,
// choose, below, both, either.
template <class N, class F> inline void rip(const N* in, N* out) {
    const N pulls = F::ceiling(in[area] * N(43560) / (in[run] * in[spacing]));
    const N travel = pulls * in[run] * N(1.0 / 5280);
    const N dry = (N(13) - in[moisture]) * N(0.01);
    const N wet =
        F::choose(F::below(N(18), in[moisture]), N(1.18),
                  F::choose(F::below(in[moisture], N(8)), N(1.25), N(1) + dry * dry * N(4)));
    constexpr double x[] = {5, 15, 25, 35, 45, 60}, y[] = {210, 270, 345, 430, 520, 610};
    const N hard = F::between_rows(in[clay], x, y) * wet;
    const N deep = F::power(in[depth] * N(1.0 / 3), N(1.28));
    const N pull = hard * in[depth] * N(12) * deep;

    const N drawbar = in[power] * N(0.72) * (N(1) - in[slip] * N(0.01));
    const N top_speed = drawbar * N(375) / pull;
    const N going = F::lesser(in[speed], top_speed);
    const N load = F::greater(N(0.25), F::lesser(N(1), pull * going / (drawbar * N(375))));
    const N burn = in[power] * N(0.052) * load *
                   (N(0.9) + N(0.35) * load - N(0.21) * F::root(N(0.6) * load + N(0.1)));
    const N hours = in[age] * in[use_hours];
    const N root_kept = N(1.02) - N(0.09) * F::root(in[age]) - N(0.0011) * F::root(in[use_hours]);
    const N kept = F::greater(N(0.08), root_kept * root_kept);
    const N worth = in[machine_price] * kept;
    const N after =
        in[machine_price] * F::greater(N(0.07), kept * N(0.8958341352965282)); // exp(-0.11)
    const N held = (worth + after) * N(0.5) * (in[interest] + in[insurance]) * N(0.01);
    const N owning = (worth - after + held) / in[use_hours];
    const N worn = F::power(hours * N(0.001), N(1.62));
    const N worn_next = F::power((hours + in[use_hours]) * N(0.001), N(1.62));
    const N repair = in[machine_price] * N(0.0034) * (worn_next - worn) / in[use_hours];

    const N pull_time = travel / going;
    const N turn_time = pulls * in[turn] * N(1.0 / 60);
    const N stops = N(1) + N(0.06) * F::logarithm(N(1) + pull_time * N(0.1));
    const N machine_hours = (pull_time + turn_time) * stops;
    const N days = F::ceiling(machine_hours / in[shift_hours]);
    const N idle = days * in[shift_hours] - machine_hours;

    const N crew = in[wage] * (N(1) + in[burden] * N(0.01));
    const N extra = N(1) + N(0.5) * F::greater(N(0), in[shift_hours] - N(8)) / in[shift_hours];
    const auto sticky = F::below(N(40), in[clay]);
    const N grit =
        F::choose(F::both(sticky, F::below(in[moisture], N(12))), N(1.35),
                  F::choose(F::either(sticky, F::below(N(6), in[depth])), N(1.15), N(1)));
    const N point_hours = in[point_life] / grit;
    const N points = N(420) / point_hours;
    const N shank = in[shank_price] / (point_hours * N(14) * F::power(N(3) / in[depth], N(0.6)));
    const N fuel = burn * in[fuel_price] * N(1.12);
    const N by_the_hour = fuel + owning + repair + points + shank + crew * extra;
    const N trips = F::choose(F::below(N(400), in[area]), N(2), N(1));
    const N cost = by_the_hour * machine_hours + crew * N(0.6) * idle + N(180) * trips +
                   in[haul_rate] * in[haul] * N(2) * trips;
    const N loaded = cost * (N(1) + in[overhead_share] * N(0.01));
    const N price = F::greater(N(6500), loaded / (N(1) - in[margin_share] * N(0.01)));
    out[0] = cost;
    out[1] = price;
    out[2] = price / in[area];
}

} // namespace acre::bench
