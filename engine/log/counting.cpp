#include "engine/log/counting.h"

namespace acre::engine {

Counting how_counted(const std::string& unit, bool of_machine) {
    if (of_machine)
        return Counting::Meter;
    if (unit == "day")
        return Counting::Days;
    return unit == "gal" || unit == "L" ? Counting::Fuel : Counting::Work;
}

} // namespace acre::engine
