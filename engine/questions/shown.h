// What the customer may see of a job besides its price: the lines that its model shows.
#pragma once

#include <string>
#include <vector>

#include "engine/job/priced_job.h"

namespace acre::engine {

struct ShownFigure {
    std::string name;
    std::string label; // "rip depth"; of one of several entries "North side: rip depth"
    std::string text;  // "5 ft", "one way"
};

struct ShownQuestion {};
struct ShownAnswer {
    std::vector<ShownFigure> figures; // in the order of the sheet; not one of which there is none
};

ShownAnswer ask(const PricedJob& job, const ShownQuestion& question);

} // namespace acre::engine
