// A job priced again as it is moved to over another road.
#pragma once

#include <optional>
#include <string>

#include "engine/questions/season/roads.h"
#include "lang/compile.h"
#include "lang/loader.h"

namespace acre::engine {

// The dispatcher's file, and who reads what it names.
struct RoadsFile {
    std::string name;
    lang::Loader& beside;
};

// The job with these givens set. A set of `with` names a file of values, whose entries, such as the
// legs of a road, take the place of those that the job has in the same lists, and of what it sets
// for all of them; its options are left out then, as they may speak of its own. Empty: it has no
// price so.
std::optional<MoveMoney> price_by_road(lang::Request request, lang::Loader& loader,
                                       const GivenSets& sets, const RoadsFile& roads);

} // namespace acre::engine
