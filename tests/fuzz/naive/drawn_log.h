// A quote and the log of its job, as bytes throw them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/questions/variance.h"
#include "tests/support/dice.h"

namespace acre::fuzz::naive {

struct LoggedRow { // empty: nobody wrote it down
    int day = 1;   // of March
    std::string machine;
    double hours = 0;
    std::optional<double> acres, spare, loads, walk, gallons, tips, price, spent, down;
    bool waited = false;
};
using Column = std::optional<double> LoggedRow::*;

struct DrawnLog {
    engine::Quoted quoted;
    std::vector<LoggedRow> rows;
    bool has_acres = true, has_spare = false, two_machines = false;
};
DrawnLog draw_log(tests::Dice& dice);
std::string csv_of(const DrawnLog& drawn);

} // namespace acre::fuzz::naive
