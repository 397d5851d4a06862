// When a job starts and is done, as JSON: part of several documents.
#pragma once

#include "cli/shared/json/value.h"
#include "engine/questions/dates.h"

namespace acre::cli {

Json dates_json(const engine::DatesAnswer& dates);

} // namespace acre::cli
