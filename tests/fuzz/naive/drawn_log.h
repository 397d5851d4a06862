// A quote and the log of its job, as bytes throw them.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/questions/variance.h"
#include "tests/support/dice.h"

namespace acre::fuzz::naive {

struct LoggedRow { // empty: nobody wrote it down
    int day = 1;   // of March
    std::string machine;
    std::set<std::size_t> whose; // machines of the job that the name may mean
    bool numbered = false;       // "tractor 2": of several such, each has a meter of its own
    int start = 0, tenths = 0;   // of an hour, on the meter
    bool has_meter = true;
    int hourly = 0; // of these tenths, billed by the hour
    std::optional<double> acres, spare, loads, walk, gallons, tips, price, spent, down;
    bool waited = false;
};
using Column = std::optional<double> LoggedRow::*;

// How the table is written.
struct Written {
    char between = ',';
    bool capitals = false, american = false, has_empty = false;
};
struct DrawnLog {
    engine::Quoted quoted;
    std::vector<LoggedRow> rows;
    bool has_acres = true, has_spare = false;
    bool by_entry = false;             // `walt.hours` and `walt.fuel`, not `hours` and `fuel`
    std::vector<std::string> machines; // of the job
    Written written;
};
DrawnLog draw_log(tests::Dice& dice);
std::string csv_of(const DrawnLog& drawn);

} // namespace acre::fuzz::naive
