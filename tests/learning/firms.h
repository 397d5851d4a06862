// Simulated firms whose truth is known: what each of them has wrong in its season is drawn, its
// jobs are worked out with that and with what differs from job to job, and their logs are written
// in memory, day by day.
#pragma once

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "engine/book/make_record.h"
#include "engine/learning/learn.h"
#include "engine/learning/moving_parts.h"
#include "engine/readers/value.h"
#include "lang/units/calendar.h"
#include "tests/support/demo.h"

namespace acre::tests {

inline Choices with_models() {
    Choices choices;
    for (const auto& path : demo_files("models", ".rate"))
        choices.files[path.filename().string()] = text_of(path);
    for (const char* ending : {".season", ".firm"})
        for (const auto& path : demo_files("examples", ending))
            choices.files[path.filename().string()] = text_of(path);
    return choices;
}

// Chance by a generator that is the same everywhere; its distributions are written out, since those
// of the library are not.
class Chance {
  public:
    explicit Chance(std::uint64_t seed) : random_(seed) {}
    double even() { return (static_cast<double>(random_() >> 11U) + 0.5) * 0x1p-53; }
    double normal() {
        return std::sqrt(-2 * std::log(even())) * std::cos(6.283185307179586 * even());
    }
    std::size_t poisson(double mean) {
        std::size_t count = 0;
        for (double left = std::exp(-mean), p = even(); p > left; p *= even())
            ++count;
        return count;
    }

  private:
    std::mt19937_64 random_;
};

// A job of the trade as the season prices it, with its readings.
struct BaseJob {
    Priced priced;
    std::vector<engine::CountedLine> counted;
    std::vector<engine::MovingPart> parts;
    engine::JobReadings readings;

    BaseJob(const std::string& sets, const Choices& choices, engine::Assumptions& assumptions)
        : priced(priced_ok("job \"Simulated\"\nmodel \"deep-rip\"\nseason \"2027\"\n" + sets,
                           choices)) {
        const auto estimate = engine::estimate(priced.job());
        REQUIRE(estimate.value.has_value());
        counted = engine::quote_of(priced.job(), *estimate).counted;
        double work = 0;
        auto found =
            engine::readings_of(priced.job(), counted, {"ground_tools"}, assumptions, work);
        REQUIRE(found.value.has_value());
        readings = std::move(*found);
        parts = engine::moving_parts(priced.job(), assumptions);
    }
};

struct Firm {
    std::vector<double> truth; // by assumption
};
inline Firm firm_of(const engine::Assumptions& assumptions, Chance& chance) {
    Firm firm;
    for (const engine::Assumption& one : assumptions.all())
        firm.truth.push_back(engine::assumed_at(chance.even(), one.value, one.swing));
    return firm;
}

// The plan of a job at a firm's truth, and at what this one job has of its own. False: the ground
// refused, and the job was never finished.
inline bool work_out(const BaseJob& base, const Firm& firm, Chance& chance,
                     engine::Values& values) {
    const engine::Plan& plan = base.priced.plan();
    std::vector<double> inputs;
    for (const engine::Input& input : plan.inputs)
        inputs.push_back(input.value);
    for (const engine::MovingPart& part : base.parts)
        inputs[part.axis.input] = part.assumption != engine::no_assumption
                                      ? firm.truth[part.assumption]
                                      : engine::quantile(part.shape, chance.even());
    values = engine::evaluate(plan, inputs);
    for (const engine::Slot slot : plan.require_slot)
        if (values.slot[slot] != 1)
            return false;
    return true;
}

// The log of a finished job: days of a share of the hours each, with a day's own scatter.
class LogWriter {
  public:
    LogWriter(const BaseJob& base, const engine::Values& values, Chance& chance)
        : base_(base),
          values_(values),
          chance_(chance) {}

    engine::JobLog write(double fit_share) {
        const double hours = value("machine_hours"), pace = value("acres") / hours,
                     burn = value("gallons") / hours;
        const double price = value("season_prices.fuel") * std::exp(0.02 * chance_.normal());
        const double per_day = value("crew.meter_per_day");
        log_.columns = {"acres", "gallons", "haul.lowbed_hours", "haul.pilot_hours"};
        log_.fuels = {"gallons"};
        long day = *lang::day_number("2027-05-03");
        for (double left = hours; left > 0.01; ++day) {
            const bool sunday = lang::weekday_of(day) == 0;
            const bool lost = left < hours && chance_.even() > fit_share;
            if (sunday || lost)
                continue;
            engine::LogRow& row = log_.rows.emplace_back();
            row.date = lang::date_text(day);
            row.hours = std::min(left, per_day);
            row.counted["acres"] = pace * row.hours * std::exp(0.06 * chance_.normal());
            row.counted["gallons"] = burn * row.hours * std::exp(0.05 * chance_.normal());
            row.fuel = row.counted["gallons"];
            row.fuel_price = price;
            left -= row.hours;
        }
        the_rest();
        return std::move(log_);
    }

  private:
    const BaseJob& base_;
    const engine::Values& values_;
    Chance& chance_;
    engine::JobLog log_;

    double value(std::string_view name) const { return values_.slot[base_.priced.slot(name)]; }
    // Hours of trucks, whole sets of tips, broken shanks: on the first day.
    void the_rest() {
        engine::LogRow& first = log_.rows.front();
        for (const char* name : {"haul.lowbed_hours", "haul.pilot_hours"})
            first.counted[name] = value(name) * std::exp(0.05 * chance_.normal());
        const double each = 700; // dollars of tips and guards bought at a time
        first.amounts["ground_tools"] =
            each * static_cast<double>(chance_.poisson(value("ground_tools.amount") / each));
        const std::size_t broken = chance_.poisson(value("broken_shank"));
        const std::string date = first.date;
        for (std::size_t i = 0; i < broken; ++i) {
            engine::LogRow row;
            row.date = date;
            row.down_hours = 4;
            row.down_cause = "broken shank";
            log_.rows.push_back(row);
        }
    }
};

} // namespace acre::tests
