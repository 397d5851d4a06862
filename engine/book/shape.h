// What a record looks like. A seal says that a record is as it was written, not by whom: anybody
// can seal. So whoever reads members of a record asks this first, once; after that every member it
// knows is of its kind.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace acre::engine {

// Empty: every member that this program reads is, where it is there, of the kind it writes: texts,
// finite numbers, cents and counters that are whole and not beyond counting, lists of such. Else
// what is not: "`items` is not a list".
std::string shape_fault(const nlohmann::json& record);

} // namespace acre::engine
