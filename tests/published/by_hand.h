// Ripping and the move worked by hand, from the texts of the models and of the season 2027: what is
// typed here stands there, and nothing here asks the engine.
#pragma once

#include <cmath>
#include <vector>

#include "tests/published/answers.h"

namespace acre::tests::by_hand {

// What a cost is sold at: overhead 9 %, reserve 3 %, 12 % of the price; a move has no reserve.
inline double sold(double cost) {
    return cost * 1.09 * 1.03 / 0.88;
}
inline double moved(double cost) {
    return up(cost * 1.09 / 0.88, 25);
}

// Hours paid for an hour worked in a week of six days: over 8 h a day and 40 a week time and a
// half, so the sixth day is all at one and a half.
constexpr double twelves = (5 * (8 + 4 * 1.5) + 12 * 1.5) / 72;
constexpr double eights = (5 * 8 + 8 * 1.5) / 48;

// 22 % on all pay, workers' compensation of 7.5 % on straight time.
constexpr double hour_of(double wage, double paid) {
    return wage * (paid * 1.22 + 0.075);
}

struct Shifts {
    double a_day = 2, hours = 12, paid = twelves, ride = 2; // the ride home, after 12 h at double
    double meter() const { return hours - 1; }              // an hour of each goes to service
    double operator_hour() const { // $2 more at night, in all but one shift
        return hour_of(36.50 + 2 * (1 - 1 / a_day), paid);
    }
    double mechanic_hour() const { return hour_of(41, paid) + 31; } // with his truck
};

// Hazel: $1,640,000, a quarter of it left after 15,000 h, 2,300 h a year.
constexpr double years = 15'000 / 2'300.0;
constexpr double average_value = ((years - 1) * 1.25 + 2) / (2 * years);
constexpr double fixed_a_year =
    1'640'000 * average_value * (0.0725 + 0.016) + 38'000 / 5.0 + 2'600; // with guidance
constexpr double owning = 1'640'000 * 0.75 / 15'000 + fixed_a_year / 2'300;
constexpr double burn = 850 * 0.90 * 0.36 / 7; // gallons a meter hour
constexpr double tools = 372 / 45.0 + 1'180 / 135.0 + 860 / 300.0 + 240 / 90.0 + 16'500 / 1'100.0;
constexpr double standby_hour = 0.5 * 82 + 1'640'000 * average_value * 0.0725 / 2'300;

// Fuel at $4.68 with oil at 15 %, dust service, undercarriage, repairs, track links.
inline double operating(const Shifts& shifts = {}) {
    return burn * 4.68 * 1.15 + 35 / shifts.meter() + 168'000 / 4'500.0 +
           1'640'000 * 0.60 / 15'000 + 7'000 / 4'000.0;
}
// Three crawlers share a mechanic, six a foreman; 12 h on shift are 11 on the meter.
inline double meter_hour(const Shifts& shifts = {}) {
    const double crew =
        shifts.operator_hour() + shifts.mechanic_hour() / 3 + hour_of(46, shifts.paid) / 6;
    return owning + operating(shifts) + crew * shifts.hours / shifts.meter();
}

struct Way { // pulls of one direction
    double miles, pulls, speed;
};
inline Way full_field(double acres, double spacing, double run, double speed = 1.5) {
    const double miles = acres * 43'560 / spacing / 5'280;
    return {miles, miles * 5'280 / run, speed};
}
inline Way tree_rows(double acres, double width, int lines, double run) {
    const double miles = acres * 43'560 / width * lines / 5'280;
    return {miles, miles * 5'280 / run, 1.5};
}

struct Ripped {
    double hours = 0, ground = 0, days = 0, cost = 0;
};
// Turns of 0.7 min, hours of fifty minutes, nine days in ten fit; a pickup for each shift drives
// there every day, two people in it.
inline Ripped ripped(const std::vector<Way>& ways, double site_miles, const Shifts& shifts = {}) {
    Ripped r;
    double turning = 0;
    for (const Way& way : ways) {
        r.ground += way.miles / way.speed;
        turning += way.pulls * 0.7 / 60;
    }
    r.hours = (r.ground + turning) / (50.0 / 60);
    r.days = std::ceil(r.hours / (shifts.a_day * shifts.meter() * 0.90));
    const double trip =
        2 * site_miles * 0.72 + shifts.ride * 2 * site_miles / 50 * 2 * 36.50 * (1.22 + 0.075);
    r.cost = r.hours * meter_hour(shifts) + r.ground * tools + r.days * shifts.a_day * trip;
    return r;
}
inline double rate(const Ripped& r, double acres) {
    return up(sold(r.cost) / acres, 1);
}

// Both trailers there loaded and back empty with 2.5 h of loading; two pilot cars, 6 h at least;
// one state, its review of an hour; 9 h of taking down and setting up; a shift lost.
inline double move_cost(double miles, double counties = 1, double moves = 2,
                        const Shifts& shifts = {}) {
    const double road = miles / 35 + miles / 48;
    return moves * ((road + 2.5) * (178 + 124) + 2 * std::fmax(road, 6) * 82 + 16 + 16 * counties +
                    50 + 9 * shifts.mechanic_hour() + 2 * 155 +
                    (2.5 + miles / 35) * shifts.operator_hour() + standby_hour * shifts.meter());
}

} // namespace acre::tests::by_hand
