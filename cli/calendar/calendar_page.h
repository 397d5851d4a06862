// The days of a job as a page and as JSON.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/calendar.h"

namespace acre::cli {

std::string calendar_text(const engine::CalendarAnswer& answer, bool color);
Document calendar_json(const engine::CalendarAnswer& answer);

} // namespace acre::cli
