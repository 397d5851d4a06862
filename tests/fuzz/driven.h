// The lines of a layout, the ways between them and what they rip, against the slow way (naive/).
#pragma once

#include <vector>

#include "engine/field/laid_field.h"
#include "tests/fuzz/naive/rows.h"

namespace acre::fuzz {

struct Inside {
    naive::Line line;
    std::vector<naive::Stretch> stretches;
};

// `worked`: by block. What each line has inside the ground.
std::vector<Inside> hold_drive(const engine::LaidField& laid,
                               const std::vector<naive::Shape>& worked,
                               const naive::Turned& turned);

} // namespace acre::fuzz
