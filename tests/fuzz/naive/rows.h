// The lines of a layout as its request says them, row by row.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/field/layout.h"
#include "tests/fuzz/naive/ground.h"

namespace acre::fuzz::naive {

// The field turned so that pulls run along x, y to their left.
class Turned {
  public:
    explicit Turned(double heading); // degrees clockwise from north
    Spot in(engine::Point point) const;

  private:
    double east_, north_; // of the way a pull runs
};

// The ground of one block, or of all: by number, -1.
Shape turned_ground(const std::vector<engine::PlanePolygon>& polygons, const Turned& turned,
                    long block = -1);

struct Line {
    double y = 0;
    double low = 0, high = 0; // of the strip that it rips
    std::size_t row = 0;
};
std::vector<Line> lines_over(const Shape& ground, const engine::LayoutRequest& request);

struct Stretch { // of a line inside the ground
    double begin = 0, end = 0;
    std::size_t block = 0;
    bool slanting = false; // the edge at one end makes less than 45 degrees with the line
    bool doubtful = false;
};

// `grounds` by block, `short_by` left at both ends.
std::vector<Stretch> stretches(const std::vector<Shape>& grounds, double y, double short_by);

Shape strip_of(const Line& line, const Stretch& stretch);

} // namespace acre::fuzz::naive
