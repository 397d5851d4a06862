// From a name in a formula to a line.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

struct Found {
    enum class State : std::uint8_t {
        Absent,
        Silent,
        Line
    } state = State::Absent; // Silent: its absence is reported already
    LineId line = none;
    // There is a line for each entry of these; `line` is that of the entries asked for, or of the
    // first.
    Lists of;
    const Symbol* symbol = nullptr;
};

// The line that `symbol` makes in an instance.
LineId line_of(const Resolution& r, std::uint32_t instance, const Symbol& symbol,
               std::uint32_t which, const Entries& at);

// `name` as a model says it: a name of its own, or one of a model it uses by its alias; either may
// stand behind the name of an entry, `pan.thick`.
Found look_up(const Resolution& r, std::uint32_t instance, std::string_view name,
              const Entries& at);

// `name` as a job or season says it: the dotted name of the sheet, or as the job's own model says
// it.
Found look_up_outside(const Resolution& r, std::string_view name, const Entries& at);

// `look_up` or `look_up_outside`, whichever the place calls for; within the job's own model the
// lines of prices too.
Found look_up(const Resolution& r, const Where& where, std::string_view name);

// Names that could stand at a place, for near names: own names, and those of used models with their
// alias. `givens_only` for places that set values.
std::vector<std::string> names_in_sight(const Resolution& r, std::uint32_t instance,
                                        bool givens_only);

} // namespace acre::lang::resolving
