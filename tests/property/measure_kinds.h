// The units of the catalog by what they measure, and how one kind is made of others: what random
// jobs are written in.
#pragma once

#include <cstddef>
#include <vector>

namespace acre::tests {

class MeasureKinds {
  protected:
    struct Kind {
        std::vector<const char*> units; // all of one kind; some are spelled as people do
    };
    enum : std::size_t {
        plain,
        length,
        area,
        volume,
        weight,
        hours,
        force,
        power,
        energy,
        pressure,
        speed,
        pace,
        burn,
        wage,
        per_area,
        per_weight,
        angle,
        years,
        per_year,
        money,
        counted,
        per_counted
    };
    static const std::vector<Kind>& kinds() {
        static const std::vector<Kind> table = {
            {{"1", "%"}},
            {{"in", "ft", "yd", "mi", "m", "cm", "mm", "km", "feet"}},
            {{"ac", "ha", "ft^2", "m^2", "acres"}},
            {{"gal", "qt", "L", "mL", "cy", "ft^3", "tank"}},
            {{"lb", "oz", "cwt", "ton", "kg", "g", "t"}},
            {{"h", "min", "s", "hours"}},
            {{"lbf", "N", "kN", "kgf", "lb.ft/s^2"}},
            {{"hp", "W", "kW", "ft.lbf/s"}},
            {{"kWh", "MJ", "hp.h", "ft.lbf"}},
            {{"psi", "psf", "Pa", "kPa", "MPa", "lbf/ft^2"}},
            {{"mi/h", "ft/s", "km/h", "m/s", "ft/min"}},
            {{"ac/h", "ha/h", "ft^2/min"}},
            {{"gal/h", "L/h", "qt/min"}},
            {{"$/h", "cent/min", "$/min"}},
            {{"$/ac", "$/ha", "cent/ft^2"}},
            {{"$/lb", "$/ton", "$/cwt", "$/kg", "cent/lb", "$/t"}},
            {{"deg", "rad"}},
            {{"yr", "mo"}},
            {{"$/yr", "$/mo"}},
            {{"$", "cent"}},
            {{"tree", "trees"}},
            {{"$/tree", "cent/tree"}},
        };
        return table;
    }
    // A kind as a product or a quotient of two others.
    struct Made {
        std::size_t kind, a, b;
        bool over;
    };
    static const std::vector<Made>& ways() {
        static const std::vector<Made> table = {
            {area, length, length, false},        {length, area, length, true},
            {volume, area, length, false},        {speed, length, hours, true},
            {length, speed, hours, false},        {hours, length, speed, true},
            {pace, speed, length, false},         {pace, area, hours, true},
            {area, pace, hours, false},           {hours, area, pace, true},
            {burn, volume, hours, true},          {volume, burn, hours, false},
            {power, force, speed, false},         {energy, power, hours, false},
            {energy, force, length, false},       {pressure, force, area, true},
            {force, pressure, area, false},       {force, power, speed, true},
            {money, wage, hours, false},          {wage, money, hours, true},
            {money, per_area, area, false},       {per_area, wage, pace, true},
            {money, per_weight, weight, false},   {weight, money, per_weight, true},
            {money, per_year, years, false},      {per_year, money, years, true},
            {money, per_counted, counted, false}, {counted, money, per_counted, true},
        };
        return table;
    }
};

} // namespace acre::tests
