// Ground measured the slow way, with nothing of the engine: lines cut edge by edge, and areas
// summed over bands in which no two edges meet.
#pragma once

#include <functional>
#include <span>
#include <vector>

namespace acre::fuzz::naive {

struct Spot {
    double x = 0, y = 0;
};
using Loop = std::vector<Spot>;  // closed
using Shape = std::vector<Loop>; // inside: an odd number of edges on the way there

struct Cut { // of a level line by an edge
    double x = 0;
    bool slanting = false; // the edge makes less than 45 degrees with the line
    bool doubtful = false; // or nearly so
};

// By x. An edge has its low end and not its high end.
std::vector<Cut> cuts_at(const Shape& shape, double y);

bool has(const Shape& shape, Spot spot);
double way_to_edge(const Shape& shape, Spot spot);
double length_of_edges(const Shape& shape);

// Sums of area by what `kind` says of a place, given the shapes that have it; below 0: not counted.
std::vector<double> areas_by(std::span<const Shape> shapes, std::size_t kinds,
                             const std::function<int(const std::vector<char>&)>& kind);

double area_of(const Shape& shape);

} // namespace acre::fuzz::naive
