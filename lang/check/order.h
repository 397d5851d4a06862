// Who rests on whom: the lines of a sheet and its functions as graphs, and the loops in them.
#pragma once

#include <cstdint>
#include <vector>

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::lang {

// A directed graph over numbers 0 … size - 1: the edges of `i` are edges[first[i] … first[i + 1]).
struct Dependencies {
    std::vector<std::uint32_t> first{0};
    std::vector<std::uint32_t> edges;

    std::uint32_t size() const { return static_cast<std::uint32_t>(first.size() - 1); }
};

// Strongly connected groups, each after all the groups it points to; a group of one is a loop only
// if it points to itself.
std::vector<std::vector<std::uint32_t>> strong_groups(const Dependencies& graph);

// A shortest way from a member of the group around to itself, within the group.
std::vector<std::uint32_t> shortest_loop(const Dependencies& graph,
                                         const std::vector<std::uint32_t>& group);

// Reports G401 and G402, once for each group.
void report_loops(const Sheet& sheet, Diagnostics& diagnostics);

} // namespace acre::lang
