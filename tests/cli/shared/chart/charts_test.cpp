// The chart writers: what a stranger calls things stays text, pictures are well-formed, pages keep
// to 80 columns.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "cli/shared/chart/bars.h"
#include "cli/shared/chart/curves.h"
#include "cli/shared/chart/heat_map.h"
#include "cli/shared/chart/histogram.h"
#include "tests/support/xml_fault.h"

namespace charts_test {

using namespace acre::cli;
using acre::tests::xml_fault;

namespace {

const std::string wicked = "<script>alert(\"1\")</script> & 'so' \x1b[2J on";

std::size_t longest_line(const std::string& text) {
    std::size_t longest = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        longest = std::max(longest, end - at);
        at = end + 1;
    }
    return longest;
}

Bars bars_of(const std::string& name) {
    return {name,
            name,
            "$/ac",
            100,
            {{name, 80, 130, name, name, "$50.00/ac"},
             {name, NAN, 140, "", "7 ft", ""},
             {name, 110, 120, "1 ft", "2 ft", ""}}};
}
Curves curves_of(const std::string& name) {
    return {name,          name,         "ft",
            "$/ac",        {1, 2, 3, 4}, {{name, {1, NAN, 3, 4}}, {name, {4, 3, 2, 1}}},
            {{2, 3, name}}};
}
Histogram histogram_of(const std::string& name) {
    return {name,
            name,
            "$",
            -10,
            1,
            std::vector<std::uint64_t>{0, 1, 5, 900, 40, 1, 0, 0, 2},
            {{-5, name, MarkKind::Edge}, {1e9, "far away", MarkKind::Nothing}},
            true};
}
HeatMap map_of(const std::string& name) {
    return {name,
            "$/ac",
            name,
            name,
            {name, "b"},
            {"c", name},
            {{name, {1, 2, NAN, 4}}, {name, {4, 3, 2, 1}}}};
}

} // namespace

TEST_CASE("the scan itself finds what is not well-formed") {
    CHECK(xml_fault("<svg a=\"1\"><b/>x &amp; y</svg>\n").empty());
    for (const char* bad :
         {"<svg>", "<svg><b></svg></b>", "<svg>a & b</svg>", "<svg a=\"1\" a=\"2\"/>", "<svg a=1/>",
          "<svg/><svg/>", "<svg>\x1b</svg>"})
        CHECK_MESSAGE(!xml_fault(bad).empty(), bad);
}

TEST_CASE("pictures are well-formed whatever things are called") {
    for (const std::string& name :
         {wicked, std::string("plain"), std::string(), std::string(300, 'w')}) {
        const std::string pictures[] = {
            bars_svg(bars_of(name)), curves_svg(curves_of(name)),
            histograms_svg(name, {histogram_of(name), histogram_of(name)}),
            heat_map_svg(map_of(name))};
        for (const std::string& svg : pictures) {
            CHECK(xml_fault(svg) == "");
            CHECK(svg.find("<script") == std::string::npos);
            CHECK(svg.find("nan") == std::string::npos);
            CHECK(svg.find("inf") == std::string::npos);
        }
    }
}

TEST_CASE("pictures of next to nothing are pictures") {
    CHECK(xml_fault(bars_svg({"t", "n", "$", 5, {}})) == "");
    CHECK(xml_fault(heat_map_svg({"t", "$", "x", "", {"1"}, {""}, {{"", {NAN}}}})) == "");
    CHECK(xml_fault(histograms_svg("t", {{"h", "h", "$", 3, 0, {7}, {}, false}})) == "");
    CHECK(xml_fault(histograms_svg("t", {})) == "");
    CHECK(xml_fault(curves_svg({"t", "x", "", "", {1}, {{"c", {NAN}}}, {}})) == "");
}

TEST_CASE("charts of a terminal keep to 80 columns and let no escape through") {
    for (const std::string& name : {wicked, std::string("plain"), std::string(200, 'w')}) {
        const std::string bars = bars_text(bars_of(name));
        CHECK(longest_line(bars) <= 80);
        for (const std::string& text :
             {bars, curves_text(curves_of(name)), histogram_text(histogram_of(name))})
            CHECK(text.find('\x1b') == std::string::npos);
    }
}

TEST_CASE("bars lie on the side they move the line to") {
    const std::string text = bars_text({"",
                                        "",
                                        "$",
                                        100,
                                        {{"depth", 50, 150, "", "", ""},
                                         {"speed", 150, 50, "", "", ""},
                                         {"both", 120, 150, "", "", ""}}});
    const auto row = [&](const std::string& name) {
        const std::size_t at = text.find("  " + name);
        return text.substr(at, text.find('\n', at) - at);
    };
    CHECK(row("depth").find('-') < row("depth").find('|'));
    CHECK(row("depth").find('+') > row("depth").find('|'));
    CHECK(row("speed").find('+') < row("speed").find('|'));
    CHECK(row("speed").find('-') > row("speed").find('|'));
    CHECK(row("both").find('-') >
          row("both").find('|')); // both above: the low end nearer, over the high one
    CHECK(row("both").find('+') > row("both").rfind('-'));
}

namespace {

// Where the texts of a picture are drawn: the left and right end of each.
struct Drawn {
    std::string words;
    double left, right, y;
};
std::vector<Drawn> texts_of(const std::string& svg) {
    std::vector<Drawn> all;
    for (std::size_t at = svg.find("<text "); at != std::string::npos;
         at = svg.find("<text ", at + 1)) {
        const std::size_t open = svg.find('>', at);
        const std::string tag = svg.substr(at, open - at);
        const std::string words = svg.substr(open + 1, svg.find("</text>", open) - open - 1);
        const auto value = [&](const std::string& name) {
            return std::stod(tag.substr(tag.find(" " + name + "=\"") + name.size() + 3));
        };
        const bool bold = tag.find("bold") != std::string::npos;
        const double width = drawn_width(words, bold ? Weight::Bold : Weight::Plain);
        const double x = value("x");
        const double left = tag.find("\"end\"") != std::string::npos      ? x - width
                            : tag.find("\"middle\"") != std::string::npos ? x - width / 2
                                                                          : x;
        all.push_back({words, left, left + width, value("y")});
    }
    return all;
}

double height_of(const std::string& svg) {
    const std::string box = "viewBox=\"0 0 480 ";
    return std::stod(svg.substr(svg.find(box) + box.size()));
}

} // namespace

TEST_CASE("no caption leaves the paper, however long") {
    for (const std::string& name :
         {std::string("Acres"),
          std::string("Share of the field time lost to turning, lifting, "
                      "moving between rows, and stops for fuel and parts"),
          std::string(300, 'w')}) {
        HeatMap wide = map_of(name);
        wide.x.assign(60, name);
        wide.y.assign(40, name);
        wide.maps = {{name, std::vector<double>(2400, 912.5)}};
        const std::string pictures[] = {
            bars_svg(bars_of(name)), curves_svg(curves_of(name)),
            histograms_svg(name, {histogram_of(name), histogram_of(name)}),
            heat_map_svg(map_of(name)), heat_map_svg(wide)};
        for (const std::string& svg : pictures)
            for (const Drawn& text : texts_of(svg)) {
                CHECK_MESSAGE(text.left >= 0, text.words);
                CHECK_MESSAGE(text.right <= paper_width, text.words);
                CHECK_MESSAGE(text.y <= height_of(svg) - 2, text.words);
            }
    }
}

TEST_CASE("words that have no room at all are cut to next to nothing") {
    for (const double width : {-6.0, 0.0, 1.0})
        CHECK(fitting("Creek meadow", width) == "C...");
}

TEST_CASE("shown 390 px wide no type is smaller than 12 px") {
    CHECK(type_size * 390 / paper_width >= 12);
    for (const std::string& svg :
         {bars_svg(bars_of("n")), curves_svg(curves_of("n")),
          histograms_svg("n", {histogram_of("n")}), heat_map_svg(map_of("n"))}) {
        const std::size_t first = svg.find("font-size=\"15\"");
        CHECK(first != std::string::npos);
        CHECK(svg.find("font-size", first + 1) == std::string::npos); // of all of it
    }
}

TEST_CASE("every ink of a picture has a light and a dark color") {
    for (const std::string& svg :
         {bars_svg(bars_of("n")), curves_svg(curves_of("n")),
          histograms_svg("n", {histogram_of("n")}), heat_map_svg(map_of("n"))}) {
        const std::size_t dark = svg.find("@media screen and (prefers-color-scheme:dark)");
        const std::size_t body = svg.find("</style>");
        REQUIRE(dark < body);
        CHECK(svg.find('#', body) == std::string::npos); // no color outside the two lists
        std::size_t classes = 0;
        for (std::size_t at = svg.find("class=\"", body); at != std::string::npos;
             at = svg.find("class=\"", at + 1)) {
            std::string names = svg.substr(at + 7, svg.find('"', at + 7) - at - 7) + " ";
            for (std::size_t end = names.find(' '); end != std::string::npos;
                 names.erase(0, end + 1), end = names.find(' ')) {
                const std::string rule = ".acre ." + names.substr(0, end) + "{";
                CHECK_MESSAGE(svg.find(rule) < dark, rule);
                CHECK_MESSAGE(svg.rfind(rule) > dark, rule);
                ++classes;
            }
        }
        CHECK(classes > 5);
    }
}

TEST_CASE("the ink of a loss marks losses and nothing else") {
    Histogram profit = histogram_of("profit");
    const auto losses = [](const std::string& svg) {
        std::size_t count = 0;
        for (std::size_t at = svg.find("f-fault s-ground"); at != std::string::npos;
             at = svg.find("f-fault s-ground", at + 1))
            ++count;
        return count;
    };
    CHECK(losses(histograms_svg("t", {profit})) == 6); // bars from -9 to -2: six are not empty
    profit.loss_below_zero = false;
    CHECK(losses(histograms_svg("t", {profit})) == 0);
    CHECK(bars_svg(bars_of("n")).find("fault") == std::string::npos);
    CHECK(curves_svg(curves_of("n")).find("fault") == std::string::npos);
    CHECK(heat_map_svg(map_of("n")).find("fault") == std::string::npos);
}

TEST_CASE("words on shades and inks on paper can be read") {
    // Contrast as WCAG 2.1 has it, of colors written #rrggbb.
    const auto light = [](const std::string& color) {
        double sum = 0;
        const double weight[] = {0.2126, 0.7152, 0.0722};
        for (std::size_t c = 0; c < 3; ++c) {
            const double part = std::stoi(color.substr(1 + 2 * c, 2), nullptr, 16) / 255.0;
            sum += weight[c] *
                   (part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4));
        }
        return sum;
    };
    HeatMap map = map_of("n");
    map.x.assign(shade_count, "x");
    map.y = {"y"};
    map.maps = {{"", {}}};
    for (std::size_t i = 0; i < shade_count; ++i)
        map.maps[0].value.push_back(static_cast<double>(i));
    map.maps[0].value.resize(shade_count);
    const std::string shades = heat_map_svg(map);
    const std::string lines = curves_svg(curves_of("n"));
    for (const bool dark : {false, true}) {
        const auto color_in = [&](const std::string& svg, const std::string& name) {
            const std::size_t at = svg.find(".acre ." + name + "{", dark ? svg.find("@media") : 0);
            REQUIRE(at != std::string::npos);
            return light(svg.substr(svg.find('#', at), 7));
        };
        const auto color = [&](const std::string& name) { return color_in(shades, name); };
        const auto contrast = [](double a, double b) {
            return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
        };
        double before = color("shade-0");
        const bool falls = color("shade-23") < before;
        for (std::size_t i = 0; i < shade_count; ++i) {
            const double shade = color("shade-" + std::to_string(i));
            CHECK(contrast(shade, color(i >= shade_turns ? "f-paper" : "f-ink")) >= 4.3);
            if (i > 0)
                CHECK((shade < before) == falls); // a print in black and white keeps the order
            before = shade;
        }
        for (const char* ink : {"f-ink", "f-soft", "s-ground", "s-fit"})
            CHECK(contrast(color_in(lines, ink), color_in(lines, "f-paper")) >= 4.5);
    }
}

} // namespace charts_test
