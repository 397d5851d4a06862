// Laying fields out: one field, the best heading, and a boundary of a hundred thousand points; each
// beside its limit.
#include <algorithm>
#include <cmath>
#include <ctime>
#include <iterator>
#include <numbers>
#include <string>

#include <fmt/format.h>

#include "engine/field/boundary.h"
#include "engine/field/drive_lines.h"
#include "engine/field/headings.h"
#include "engine/field/layout.h"
#include "engine/field/plane.h"

namespace {

using namespace acre;

// About 160 acres with a wavy edge.
std::string boundary(int points) {
    std::string text = R"({"type":"Polygon","coordinates":[[)";
    for (int i = 0; i <= points; ++i) {
        const double angle = 2 * std::numbers::pi * (i % points) / points;
        const double wave = 1 + 0.05 * std::sin(7 * angle);
        fmt::format_to(std::back_inserter(text), "{}[{:.9f},{:.9f}]", i == 0 ? "" : ",",
                       -140 + 0.0051 * wave * std::cos(angle),
                       36.6 + 0.0041 * wave * std::sin(angle));
    }
    return text + "]]}";
}

template <class F> double milliseconds(F f) {
    double best = 1e9;
    for (int round = 0; round < 5; ++round) {
        const std::clock_t start = std::clock();
        f();
        best = std::min(best, 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return best;
}

engine::PlaneField flat(const std::string& text) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::FileId file = sources.add("field", text);
    const auto boundary = engine::read_boundary(sources, file, diagnostics);
    return *engine::lay_flat(*boundary, sources, file, diagnostics);
}

void row(const char* what, double took, double limit) {
    fmt::print("{:<52} {:8.2f} ms   limit {:6.0f} ms: {:.1f} times quicker\n", what, took, limit,
               limit / took);
}

} // namespace

int main() {
    engine::LayoutRequest request;
    request.spacing = 7 * 0.3048;
    request.heading = 30;
    request.headland = 10;
    request.speed = 0.67;
    request.turn_time = 40;
    std::size_t pulls = 0;
    const std::string small = boundary(200);
    const engine::PlaneField field = flat(small);
    row("160 acres, 200 points: read, laid flat, laid out",
        milliseconds([&] { pulls += lay_out(flat(small), request)->pulls.size(); }), 10);
    row("the same, best of 180 headings and the longest edges", milliseconds([&] {
            pulls += rank_headings(field, *worked_ground(field, request), request)->size();
        }),
        500);
    const std::string large = boundary(100'000);
    row("100,000 points: read, laid flat, laid out",
        milliseconds([&] { pulls += lay_out(flat(large), request)->pulls.size(); }), 2000);
    fmt::print("{} pulls in all; {:.1f} acres\n", pulls, field.area / 4046.8564224);
}
