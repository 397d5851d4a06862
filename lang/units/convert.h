// From one unit to another of its kind, by name.
#pragma once

#include <string_view>

namespace acre::lang {

// Both must be units of the catalog and of one kind.
double convert(double value, std::string_view from, std::string_view to);

} // namespace acre::lang
