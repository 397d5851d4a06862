// What a log of a job counts, as its model says.
#pragma once

#include <string>
#include <vector>

namespace acre::engine {

// How a log has it: by readings of a meter, by dates, by gallons with their price, or by a column
// of figures.
enum class Counting { Meter, Days, Fuel, Work };

struct CountedLine {
    std::string name; // of the line, "acres"; for fuel and work the column of the log
    std::string unit;
    Counting how = Counting::Work;
    std::string machine;            // of a meter: whose it is, "crawler"; empty: the only one
    double quoted = 0;              // in the unit
    std::vector<std::string> costs; // names of those over exactly this line
    bool optional = false;          // a log may leave its column out
};

// By the unit of the line and whether a machine has it: hours of a machine are read off its meter,
// days are dates, gallons and liters fuel.
Counting how_counted(const std::string& unit, bool of_machine);

} // namespace acre::engine
