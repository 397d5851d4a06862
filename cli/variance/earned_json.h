// What a job earned, as JSON: of one job and of all.
#pragma once

#include "cli/shared/json/value.h"

namespace acre::cli {

inline Json earned(double income, double cost, double overhead) {
    return {{"income", number(income)},
            {"direct_cost", number(cost)},
            {"contribution", number(income - cost)},
            {"profit", number(income - cost - overhead)}};
}

} // namespace acre::cli
