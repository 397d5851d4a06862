// Where the figures of an axis are, and what stands below and beside it.
#include "cli/shared/chart/axis.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "cli/shared/chart/bars.h"
#include "cli/shared/chart/curves.h"
#include "cli/shared/chart/histogram.h"

namespace axis_test {

using namespace acre::cli;

namespace {

std::size_t count(const std::string& text, const std::string& words) {
    std::size_t found = 0;
    for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
        ++found;
    return found;
}

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("places are round: 1, 2, 2.5 or 5 times a power of ten apart, the ends within") {
    struct {
        double low, high;
        std::size_t count;
        std::vector<double> places;
    } const cases[] = {{0, 10, 5, {0, 2, 4, 6, 8, 10}},
                       {0, 10, 4, {0, 2.5, 5, 7.5, 10}},
                       {0, 10, 10, {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10}},
                       {544.75, 1526.75, 3, {1'000, 1'500}}, // 327 apart: 500
                       {-3, 7, 7, {-2, 0, 2, 4, 6}},
                       {0.001, 0.002, 6, {0.001, 0.0012, 0.0014, 0.0016, 0.0018, 0.002}},
                       {1e6, 9e6, 2, {5e6}},
                       {0, 30, 4, {0, 10, 20, 30}}, // 7.5 apart: the next power
                       {0, 9, 1, {0}},
                       {5, 5, 4, {5}},
                       {5, 9, 0, {5}}};
    for (const auto& [low, high, count, places] : cases) {
        const std::vector<double> came = axis_places(low, high, count);
        REQUIRE_MESSAGE(came.size() == places.size(), low << " to " << high);
        for (std::size_t i = 0; i < places.size(); ++i)
            CHECK(came[i] == doctest::Approx(places[i]));
    }
}

TEST_CASE("an extent leaves out what is no number, and has a twenty-fifth of room at each end") {
    Extent extent;
    CHECK(extent.empty());
    CHECK(extent.with_room().low == 0);
    CHECK(extent.with_room().high == 1);
    extent.take(NAN);
    extent.take(INFINITY);
    CHECK(extent.empty());
    extent.take(40);
    CHECK(extent.share(40) == 0.5);
    CHECK(extent.with_room().low == 38); // a twentieth of the value
    CHECK(extent.with_room().high == 42);
    extent.take(-60);
    CHECK(extent.with_room().low == -64);
    CHECK(extent.with_room().high == 44);
    CHECK(extent.share(-10) == 0.5);
    Extent small;
    small.take(2);
    CHECK(small.with_room().low == 1); // one at least
}

TEST_CASE("the name stands between the ends of its axis, or below them, with two columns apart") {
    // "0 ft", "run" and "10 ft" take 12 columns.
    const struct {
        const char* name;
        std::size_t width;
        const char* below;
    } rows[] = {
        {"run", 17, "   0 ft  run   10 ft\n"},       {"run", 16, "   0 ft  run  10 ft\n"},
        {"run", 15, "   0 ft      10 ft\n   run\n"}, {"run", 11, "   0 ft  10 ft\n   run\n"},
        {"run", 10, "   0 ft to 10 ft, run\n"},      {"", 13, "   0 ft    10 ft\n"}};
    for (const auto& row : rows)
        CHECK(axis_text({0, 10}, row.name, "ft", 3, row.width) ==
              "  +" + std::string(row.width, '-') + "\n" + row.below);
}

TEST_CASE("the axis below a plot has as many figures as find room beside each other") {
    const auto drawn = [](double right) {
        Paper paper("");
        CHECK(draw_x_axis(paper, {0, 10}, "run", "ft", {60, right, 50, 250}) == 312);
        return std::move(paper).finish(320);
    };
    // Every 80; the last one stays 14 from the edge: 466 less half of its 31.53.
    const std::string wide = drawn(460);
    CHECK(has(wide, "\"M60.0 250.0H460.0\""));
    CHECK(count(wide, "250.0v5\"") == 6);
    CHECK(has(wide, "\"M140.0 250.0v5\""));
    CHECK(has(wide, "<text x=\"60.0\" y=\"270.0\" class=\"f-ink\" text-anchor=\"middle\">0 ft<"));
    CHECK(has(wide, "<text x=\"140.0\" y=\"270.0\" class=\"f-ink\" text-anchor=\"middle\">2 ft<"));
    CHECK(has(wide, "<text x=\"450.2\" y=\"270.0\" class=\"f-ink\" text-anchor=\"middle\">10 ft<"));
    CHECK(has(wide, "<text x=\"14.0\" y=\"292.0\" class=\"f-soft\">run</text>"));
    const std::string narrow = drawn(160); // 50 apart have room, 25 have not
    CHECK(count(narrow, "250.0v5\"") == 3);
    CHECK(
        has(narrow, "<text x=\"110.0\" y=\"270.0\" class=\"f-ink\" text-anchor=\"middle\">5 ft<"));
    const std::string least = drawn(100); // its ends, whatever room there is
    CHECK(count(least, "250.0v5\"") == 2);
    CHECK(count(least, "ft</text>") == 2);
    CHECK(count(drawn(80), "ft</text>") == 1);
}

TEST_CASE("the axis beside a plot has rules across it and figures that end before it") {
    Paper paper("");
    draw_y_axis(paper, {0, 10}, "ft", {60, 460, 50, 250});
    const std::string svg = std::move(paper).finish(260);
    CHECK(count(svg, "H460.0\" fill=\"none\" class=\"s-rule\"") == 6);
    CHECK(has(svg, "\"M60.0 210.0H460.0\""));
    CHECK(has(svg, "<text x=\"53.0\" y=\"215.0\" class=\"f-ink\" text-anchor=\"end\">2 ft</text>"));
    CHECK(has(svg, "\"M60.0 50.0V250.0\" fill=\"none\" class=\"s-ink\""));
    // "10 ft" is 31.53 wide.
    CHECK(y_figures_width({0, 10}, "ft") == doctest::Approx(31.53 + 14 + 8));
}

TEST_CASE("one curve has no letter; those that end in one place have theirs one above the other") {
    Curves one{"", "run", "ft", "$", {1, 2}, {{"a name", {1, 2}}}, {}};
    CHECK(!has(curves_text(one), "more than one"));
    CHECK(!has(curves_svg(one), "font-weight=\"bold\">a<"));
    one.curves.push_back({"another", {1, 2}});
    one.curves.push_back({"open", {1, NAN}});
    CHECK(has(curves_text(one), "more than one"));
    const std::string svg = curves_svg(one);
    const auto y_of = [&](const char* letter) {
        const std::size_t end = svg.find(std::string("font-weight=\"bold\">") + letter + "<");
        REQUIRE(end != std::string::npos);
        const std::size_t y = svg.rfind(" y=\"", end);
        return std::stod(svg.substr(y + 4));
    };
    CHECK(y_of("b") == doctest::Approx(y_of("a") + 16)); // in fours, until they no longer touch
    CHECK(!has(svg, "font-weight=\"bold\">c<"));         // it does not end at the edge
}

TEST_CASE("of two ends on one side the nearer lies over the other, its name across the line") {
    // From 98 to 152 on 380: 100 is at 64.07, 120 at 204.81, 150 at 415.93; rows 44 apart.
    const std::string svg = bars_svg(
        {"",
         "price",
         "$",
         100,
         {{"low is nearer", 120, 150, "l", "h", ""}, {"high is nearer", 150, 120, "l", "h", ""}}});
    CHECK(has(svg, "<rect x=\"64.07\" y=\"87.00\" width=\"351.85\" height=\"15.00\" "
                   "class=\"f-ground s-ground\"/>\n"
                   "<rect x=\"64.07\" y=\"87.00\" width=\"140.74\" height=\"15.00\" "
                   "class=\"f-paper s-ground\"/>\n"
                   "<text x=\"59.1\" y=\"100.0\" class=\"f-soft\" text-anchor=\"end\">l</text>\n"
                   "<text x=\"420.9\" y=\"100.0\" class=\"f-soft\">h</text>\n"));
    CHECK(has(svg, "<rect x=\"64.07\" y=\"131.00\" width=\"351.85\" height=\"15.00\" "
                   "class=\"f-paper s-ground\"/>\n"
                   "<rect x=\"64.07\" y=\"131.00\" width=\"140.74\" height=\"15.00\" "
                   "class=\"f-ground s-ground\"/>\n"
                   "<text x=\"420.9\" y=\"144.0\" class=\"f-soft\">l</text>\n"
                   "<text x=\"59.1\" y=\"144.0\" class=\"f-soft\" text-anchor=\"end\">h</text>\n"));
}

TEST_CASE("a histogram of one trial is full, and marks stand where they fall, at both ends too") {
    Histogram one{"", "cost", "$", 0, 1, {1, 0}, {{0, "low"}, {2, "high"}, {3, "far"}}, true};
    std::string rows = std::string(7, ' ') + "100.0 % |#\n";
    for (int row = 1; row < 8; ++row)
        rows += std::string(15, ' ') + "|#\n";
    const std::string text = histogram_text(one);
    CHECK(has(text, rows + std::string(15, ' ') + "+--\n"));
    CHECK(has(text, "\n" + std::string(16, ' ') + "12\n"));
    CHECK(has(text, "\n               3 far\n"));
    const std::string svg = histograms_svg("t", {one});
    CHECK(count(svg, "fault s-ground") == 0);         // from 0 to 1 nothing is lost
    CHECK(count(svg, "stroke-width=\"2\"") == 2 + 3); // two lines, and three in the key
    one.from = -1;
    CHECK(count(histograms_svg("t", {one}), "fault s-ground") == 1);
    one.from = 3;
    one.width = 0; // all trials came to the same
    one.bars = {7};
    CHECK(has(histogram_text(one), "$3 to $4, cost\n"));
}

} // namespace axis_test
