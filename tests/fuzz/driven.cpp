// The lines of a layout, the ways between them and what they rip, against the slow way (naive/).
#include "tests/fuzz/driven.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/fuzz/naive/turn.h"
#include "tests/fuzz/target.h"

namespace acre::fuzz {

using namespace naive;
using engine::LayoutRequest;
using engine::Pull;

namespace {

bool near(double a, double b, double off) {
    return std::fabs(a - b) <= off;
}

struct Driven { // of one line
    std::vector<const Pull*> pulls;
    std::vector<Stretch> stretches; // by begin
};

bool are_these(const std::vector<Stretch>& driven, const std::vector<Stretch>& wanted) {
    std::size_t i = 0;
    for (const Stretch& one : wanted) {
        const bool there = i < driven.size() && driven[i].block == one.block &&
                           near(driven[i].begin, one.begin, 1e-5) &&
                           near(driven[i].end, one.end, 1e-5);
        if (!there && !one.doubtful)
            return false;
        i += there ? 1 : 0;
    }
    return i == driven.size();
}

// Every line is driven where it is inside the ground, and nowhere else. Where it runs through
// corners, what is inside a hair beside it holds as well.
std::vector<Stretch> hold_line(const Line& line, const Driven& driven,
                               const std::vector<Shape>& grounds, double short_by) {
    const std::vector<Stretch> at = stretches(grounds, line.y, short_by);
    if (are_these(driven.stretches, at))
        return at;
    bool corner = false;
    for (const Shape& ground : grounds)
        for (const Loop& loop : ground)
            corner = corner || std::any_of(loop.begin(), loop.end(), [&](const Spot& spot) {
                         return near(spot.y, line.y, 1e-6);
                     });
    HOLDS(corner);
    const std::vector<Stretch> below = stretches(grounds, line.y - 2e-6, short_by);
    const std::vector<Stretch> above = stretches(grounds, line.y + 2e-6, short_by);
    const auto length = [](const std::vector<Stretch>& list) {
        double sum = 0;
        for (const Stretch& one : list)
            sum += one.end - one.begin;
        return sum;
    };
    const double least = std::min({length(at), length(below), length(above)});
    const double most = std::max({length(at), length(below), length(above)});
    HOLDS(length(driven.stretches) >= least - 0.1 && length(driven.stretches) <= most + 0.1);
    return driven.stretches;
}

// By line. The pulls of a line are those at its height.
std::vector<Driven> driven_lines(const engine::Layout& layout, const std::vector<Line>& lines,
                                 const Turned& turned) {
    std::vector<Driven> all(lines.size());
    for (const Pull& pull : layout.pulls) {
        const Spot a = turned.in(pull.from);
        const Spot b = turned.in(pull.to);
        std::size_t nearest = 0;
        for (std::size_t i = 0; i < lines.size(); ++i)
            if (std::fabs(lines[i].y - a.y) < std::fabs(lines[nearest].y - a.y))
                nearest = i;
        HOLDS(near(a.y, lines[nearest].y, 1e-6) && near(b.y, lines[nearest].y, 1e-6));
        HOLDS(pull.row == lines[nearest].row);
        all[nearest].pulls.push_back(&pull);
        all[nearest].stretches.push_back(
            {std::min(a.x, b.x), std::max(a.x, b.x), pull.block, false, false});
    }
    for (Driven& one : all)
        std::sort(one.stretches.begin(), one.stretches.end(),
                  [](const Stretch& a, const Stretch& b) { return a.begin < b.begin; });
    return all;
}

void hold_point_rows(const Driven& driven, const std::vector<Stretch>& wanted, double mean,
                     const Turned& turned) {
    if (!are_these(driven.stretches, wanted))
        return;
    for (const Pull* pull : driven.pulls) {
        const double begin = std::min(turned.in(pull->from).x, turned.in(pull->to).x);
        for (const Stretch& one : wanted)
            if (near(one.begin, begin, 1e-5) && !one.doubtful &&
                !near(pull->length(), mean / 2, 1e-6))
                HOLDS(pull->point_row == (one.slanting && pull->length() < mean / 2));
    }
}

// Areas within half a row of the lines, by block, and what two of them have.
void hold_areas(const engine::LaidField& laid, const std::vector<Inside>& inside,
                const std::vector<Shape>& worked) {
    const std::size_t blocks = worked.size();
    std::vector<Shape> shapes = worked;
    std::vector<std::size_t> block_of;
    for (const Inside& of : inside)
        for (const Stretch& one : of.stretches) {
            shapes.push_back(strip_of(of.line, one));
            block_of.push_back(one.block);
        }
    const std::vector<double> areas =
        areas_by(shapes, 2 * blocks, [&](const std::vector<char>& in) {
            const auto ground =
                std::find(in.begin(), in.begin() + static_cast<long>(blocks), 1) - in.begin();
            std::size_t own = 0, any = 0;
            for (std::size_t i = 0; i < block_of.size(); ++i)
                if (in[blocks + i] != 0) {
                    ++any;
                    own += block_of[i] == static_cast<std::size_t>(ground) ? 1 : 0;
                }
            if (ground == static_cast<long>(blocks) || own == 0)
                return -1;
            return static_cast<int>(ground) + (any > 1 ? static_cast<int>(blocks) : 0);
        });
    double doubled = 0;
    const double off = 1e-6 * laid.plane.area;
    for (std::size_t block = 0; block < blocks; ++block) {
        HOLDS(
            near(laid.layout.blocks[block].ripped_area, areas[block] + areas[blocks + block], off));
        doubled += areas[blocks + block];
    }
    HOLDS(near(laid.layout.doubled_area, doubled, off));
}

// Lengths, and ways from pull to pull: straight, or around a circle; and what is added up of them.
void hold_ways(const engine::Layout& layout, const LayoutRequest& request, const Turned& turned) {
    const auto looks = [&](const Pull& pull) {
        return turned.in(pull.to).x > turned.in(pull.from).x ? 0.0 : std::numbers::pi;
    };
    std::vector<engine::BlockLayout> blocks(layout.blocks.size());
    double travel = 0, between = 0, shortest = HUGE_VAL, longest = 0;
    std::size_t turns = 0, lifts = 0, points = 0;
    std::set<std::uint32_t> rows, cells;
    for (std::size_t i = 0; i < layout.pulls.size(); ++i) {
        const Pull& pull = layout.pulls[i];
        const Spot begin = turned.in(pull.from);
        const Spot end = turned.in(pull.to);
        const double length = std::fabs(end.x - begin.x);
        travel += length;
        shortest = std::min(shortest, length);
        longest = std::max(longest, length);
        points += pull.point_row ? 1 : 0;
        rows.insert(pull.row);
        cells.insert(pull.cell);
        engine::BlockLayout& block = blocks[pull.block];
        HOLDS(block.pulls++ > 0 || layout.blocks[pull.block].first_pull == i);
        block.travel += length;
        if (i == 0)
            continue;
        const Pull& before = layout.pulls[i - 1];
        const Spot from = turned.in(before.to);
        double way = std::hypot(begin.x - from.x, begin.y - from.y);
        if (pull.lifted) {
            HOLDS(near(begin.y, from.y, 1e-6) && looks(before) == looks(pull));
            HOLDS(looks(pull) == 0 ? begin.x > from.x - 1e-6 : begin.x < from.x + 1e-6);
        } else if (request.turn_diameter > 0) {
            way = way_around(from, looks(before), begin, looks(pull), request.turn_diameter / 2);
        }
        (pull.lifted ? lifts : turns) += 1;
        between += way;
        if (before.block == pull.block) {
            block.turns += pull.lifted ? 0 : 1;
            block.turning_time += request.speed == 0
                                      ? 0
                                      : way / request.speed + (pull.lifted ? 0 : request.turn_time);
        }
    }
    const double off = 1e-6 * (1 + travel + between);
    HOLDS(near(layout.travel, travel, off) && near(layout.between, between, off));
    HOLDS(near(layout.shortest, shortest, off) && near(layout.longest, longest, off));
    HOLDS(near(layout.mean * static_cast<double>(layout.pulls.size()), travel, off));
    HOLDS(layout.turns == turns && layout.lifts == lifts && layout.point_rows == points);
    HOLDS(layout.rows == rows.size() && layout.cells == cells.size());
    const double time = request.speed == 0 ? 0
                                           : (travel + between) / request.speed +
                                                 static_cast<double>(turns) * request.turn_time;
    HOLDS(near(layout.time(), time, 1e-6 * (1 + time)));
    HOLDS(near(layout.ripping_time, request.speed == 0 ? 0 : travel / request.speed, 2 * off));
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const engine::BlockLayout& told = layout.blocks[i];
        HOLDS(told.pulls == blocks[i].pulls && told.turns == blocks[i].turns);
        HOLDS(near(told.travel, blocks[i].travel, off));
        HOLDS(near(told.turning_time, blocks[i].turning_time, 1e-6 * (1 + time)));
    }
}

} // namespace

std::vector<Inside> hold_drive(const engine::LaidField& laid, const std::vector<Shape>& worked,
                               const Turned& turned) {
    const engine::Layout& layout = laid.layout;
    const std::vector<Line> lines = lines_over(turned_ground(layout.worked, turned), laid.request);
    const std::vector<Driven> driven = driven_lines(layout, lines, turned);
    std::vector<Inside> inside;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        inside.push_back({lines[i], hold_line(lines[i], driven[i], worked, laid.request.row_ends)});
        hold_point_rows(driven[i], inside.back().stretches, layout.mean, turned);
    }
    hold_areas(laid, inside, worked);
    hold_ways(layout, laid.request, turned);
    return inside;
}

} // namespace acre::fuzz
