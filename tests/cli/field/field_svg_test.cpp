// The picture of a field, its places worked out by hand: 422 units wide and 480 high at most, from
// 14, 50 on, below a title of one line.
#include <doctest/doctest.h>

#include <string>

#include "tests/cli/field/made_field.h"

namespace field_svg_test {

using namespace made_field;

namespace {

bool has(const std::string& svg, const std::string& part) {
    const bool found = svg.find(part) != std::string::npos;
    if (!found)
        MESSAGE(part << " is not in\n" << svg.substr(svg.find("</style>")));
    return found;
}

// The words drawn, line after line, ended by a bar.
std::string words_in(const std::string& svg) {
    std::string words;
    for (std::size_t at = svg.find("<text"); at != std::string::npos; at = svg.find("<text", at)) {
        at = svg.find('>', at) + 1;
        words += svg.substr(at, svg.find('<', at) - at) + " ";
    }
    return words + "|";
}

std::string ground_path(const std::string& d) {
    return "<path d=\"" + d + "\" fill-rule=\"evenodd\" class=\"f-tint\"/>";
}

} // namespace

TEST_CASE("the ground fills the width or the height, and stands in the middle") {
    // 211 m are 422 units: two a meter.
    CHECK(has(cli::field_svg(made(211, 100)),
              ground_path("M14.0 250.0L436.0 250.0L436.0 50.0L14.0 50.0Z")));
    // 240 m are 480 units; 100 m are 200, with 111 on each side.
    CHECK(has(cli::field_svg(made(100, 240)),
              ground_path("M125.0 530.0L325.0 530.0L325.0 50.0L125.0 50.0Z")));
}

TEST_CASE("a corner nearer than a third of a unit to the last one drawn is left out") {
    engine::FieldAnswer field = made(211, 100);
    engine::PlaneRing& ring = field.ground[0].outer;
    ring.insert(ring.begin() + 1, {{-105.4, -50}, {-105.3, -50}, {-105.3, -49.9}});
    field.ground[0].holes = {{{0, 0}, {0, 10}, {10, 0}}};
    CHECK(has(cli::field_svg(field),
              ground_path("M14.0 250.0L14.4 250.0L436.0 250.0L436.0 50.0L14.0 50.0Z"
                          "M225.0 150.0L225.0 130.0L245.0 150.0Z")));
}

TEST_CASE("the scale is the greatest 1, 2 or 5 of feet in a quarter of the picture") {
    const struct {
        double east; // m
        const char *length, *words;
    } rows[] = {
        // 120 units of 422 / east to the meter: east / 1.0719 feet.
        {10, "64.3", "5 ft"},       // 9.3 ft
        {11, "116.9", "10 ft"},     // 10.3 ft; 10 * 0.3048 * 422 / 11
        {211, "61.0", "100 ft"},    // 196.9 ft
        {220, "116.9", "200 ft"},   // 205.2 ft
        {530, "48.5", "200 ft"},    // 494.4 ft
        {540, "119.1", "500 ft"},   // 503.8 ft
        {1080, "119.1", "1,000 ft"} // 1,007.6 ft
    };
    for (const auto& row : rows) {
        const std::string svg = cli::field_svg(made(row.east, 1));
        CHECK(has(svg, std::string("v6h") + row.length + "v-6\""));
        CHECK(has(svg, std::string(">") + row.words + "</text>"));
    }
}

TEST_CASE("rows that would touch are drawn by twos, fives and tens, and the words say so") {
    const struct {
        double meters;
        const char *lines, *words;
    } rows[] = {
        {1.26, "M223.0 250.0L223.0 50.0M225.0 250.0L225.0 50.0M227.0 250.0L227.0 50.0M", ""},
        {1.24, "\"M223.0 250.0L223.0 50.0M227.0 250.0L227.0 50.0M", "; one row in 2 is drawn"},
        {0.62, "\"M223.0 250.0L223.0 50.0M233.0 250.0L233.0 50.0\"", "; one row in 5 is drawn"},
        {0.249, "\"M223.0 250.0L223.0 50.0\"", "; one row in 10 is drawn"},
        {0.0001, "\"M223.0 250.0L223.0 50.0\"", "; one row in 1000 is drawn"}};
    for (const auto& row : rows) {
        engine::FieldAnswer field = made(211, 100);
        field.spacing = row.meters / 0.3048;
        field.pulls.clear();
        for (std::uint32_t i = 1; i <= 10; ++i)
            field.pulls.push_back(pull_of(i, {i - 2.0, -50}, {i - 2.0, 50}));
        const std::string svg = cli::field_svg(field);
        CHECK(has(svg, row.lines));
        const std::string words = words_in(svg);
        CHECK_MESSAGE(words.find(std::string("mean length 0 ft") + row.words + " |") !=
                          std::string::npos,
                      words);
    }
}

TEST_CASE("point rows have an ink and a word of their own, the headland a broken line") {
    engine::FieldAnswer field = made(211, 100);
    const std::string plain = cli::field_svg(field);
    CHECK(plain.find("point rows") == std::string::npos);
    CHECK(plain.find("stroke-dasharray") == std::string::npos);
    CHECK(has(plain, "<path d=\"M225.0 250.0L225.0 50.0\" fill=\"none\" class=\"s-ground\""));
    CHECK(has(plain, "<circle cx=\"225.0\" cy=\"250.0\"")); // where it starts
    field.pulls.push_back(pull_of(2, {50, 50}, {50, 40}));
    field.pulls.back().point_row = true;
    field.point_rows = 1;
    field.headland = 20;
    field.worked = {rectangle(201, 90)};
    const std::string svg = cli::field_svg(field);
    CHECK(has(svg, "<path d=\"M325.0 50.0L325.0 70.0\" fill=\"none\" class=\"s-fault\""));
    CHECK(has(svg, ">point rows</text>"));
    CHECK(has(svg, "<path d=\"M24.0 240.0L426.0 240.0L426.0 60.0L24.0 60.0Z\" fill=\"none\" "
                   "class=\"s-soft\" stroke-width=\"0.8\" stroke-dasharray=\"5 4\""));
}

TEST_CASE("of several blocks each that is worked is named in order, within the picture") {
    engine::FieldAnswer field = made(211, 100);
    CHECK(cli::field_svg(field).find(">1  ") == std::string::npos);
    field.blocks = {block_of("East", 1, 2, {120, 0}), block_of("West", 2, 1, {-105, 0}),
                    block_of("Pond", 3, 0, {0, 0})};
    const std::string svg = cli::field_svg(field);
    CHECK(
        has(svg, "<text x=\"450.8\" y=\"150.0\" class=\"f-ink\" text-anchor=\"middle\">2  East<"));
    // "2  East" is 3.358 em: 50.37 and 8, so 29.19 from the edge at 480.
    // "1  West" is 3.548 em, 0.556 + 0.66 + 0.89 + 0.556 + 0.556 + 0.33, 15 wide: 53.22, and 8.
    CHECK(has(svg, "<text x=\"44.6\" y=\"150.0\" class=\"f-ink\" text-anchor=\"middle\">1  West<"));
    CHECK(has(svg, "<rect x=\"14.00\" y=\"135.00\" width=\"61.22\" height=\"21.00\""));
    CHECK(svg.find("Pond") == std::string::npos);
}

TEST_CASE("corners are numbered block by block, inside, and those that would touch are left out") {
    engine::FieldAnswer field = made(211, 100);
    field.blocks = {block_of("East"), block_of("West")};
    // Twenty units from the corner to the middle: 10 m of the way. The third is 5 m, ten units,
    // from the first, the fourth 9 m: eighteen.
    field.corners = {{{{-100, 0}, {}}, {{100, 0}, {}}}, {{{-95, 0}, {}}, {{91, 0}, {}}}};
    field.corners_of = {0, 1};
    CHECK(cli::field_svg(field).find(">1</text>") == std::string::npos);
    const std::string svg = cli::field_svg(field, cli::Corners::Numbered);
    CHECK(has(svg, "<text x=\"45.0\" y=\"155.0\" class=\"f-ink\" text-anchor=\"middle\">1</text>"));
    CHECK(
        has(svg, "<text x=\"405.0\" y=\"155.0\" class=\"f-ink\" text-anchor=\"middle\">2</text>"));
    CHECK(
        has(svg, "<text x=\"387.0\" y=\"155.0\" class=\"f-ink\" text-anchor=\"middle\">2</text>"));
    CHECK(svg.find(">1</text>") == svg.rfind(">1</text>"));
}

TEST_CASE("a whole picture, part by part in the order in which it is drawn") {
    engine::FieldAnswer field = made(211, 100);
    field.spacing = 3 / 0.3048;
    field.headland = 0.5;
    field.worked = {rectangle(201, 90)};
    field.blocks = {block_of("East", 1, 2, {104, 0}), block_of("West", 2, 1, {-50, 0})};
    field.pulls = {pull_of(1, {-60, -40}, {-60, 40}, 100, 1), pull_of(1, {60, 40}, {60, 30})};
    field.pulls[1].point_row = true;
    field.point_rows = 1;
    // From 425, 230 it is 80.4 to the middle at 433, 150; from 25, 230 to that at 125, 150 128.06:
    // twenty of each.
    field.corners = {{{{100, -40}, {}}}, {{{-100, -40}, {}}}};
    field.corners_of = {0, 1};
    field.net = 4.25;
    field.gross = 5.2136;
    field.heading = 12.34;
    field.mean = 148.4;
    const std::string svg = cli::field_svg(field, cli::Corners::Numbered);
    CHECK(svg.substr(svg.find("</style>\n") + 9) ==
          R"(<rect width="480" height="362" class="f-paper"/>
<text x="14.0" y="26.0" class="f-ink" font-weight="bold">fields/home.geojson</text>
<path d="M14.0 250.0L436.0 250.0L436.0 50.0L14.0 50.0Z" fill-rule="evenodd" class="f-tint"/>
<path d="M24.0 240.0L426.0 240.0L426.0 60.0L24.0 60.0Z" fill-rule="evenodd" class="f-paper"/>
<path d="M24.0 240.0L426.0 240.0L426.0 60.0L24.0 60.0Z" fill="none" class="s-soft" stroke-width="0.8" stroke-dasharray="5 4" stroke-linejoin="round"/>
<path d="M105.0 230.0L105.0 70.0" fill="none" class="s-ground" stroke-width="0.9" stroke-linejoin="round"/>
<path d="M345.0 70.0L345.0 90.0" fill="none" class="s-fault" stroke-width="1.2" stroke-linejoin="round"/>
<path d="M14.0 250.0L436.0 250.0L436.0 50.0L14.0 50.0Z" fill="none" class="s-ink" stroke-width="2" stroke-linejoin="round"/>
<rect x="420.32" y="202.10" width="13.34" height="16.00" class="f-paper s-paper"/>
<text x="427.0" y="215.1" class="f-ink" text-anchor="middle">1</text>
<rect x="33.95" y="209.51" width="13.34" height="16.00" class="f-paper s-paper"/>
<text x="40.6" y="222.5" class="f-ink" text-anchor="middle">1</text>
<rect x="403.81" y="135.00" width="58.37" height="21.00" class="f-paper s-rule"/>
<text x="433.0" y="150.0" class="f-ink" text-anchor="middle">2  East</text>
<rect x="94.39" y="135.00" width="61.22" height="21.00" class="f-paper s-rule"/>
<text x="125.0" y="150.0" class="f-ink" text-anchor="middle">1  West</text>
<circle cx="105.0" cy="230.0" r="5" class="f-paper s-ink" stroke-width="1.6"/>
<path d="M456.0 52.0l7 30l-7 -5l-7 5Z" fill-rule="evenodd" class="f-ink"/>
<text x="456.0" y="100.0" class="f-ink" text-anchor="middle">N</text>
<path d="M14.0 266.0v6h61.0v-6" fill="none" class="s-ink" stroke-width="1.4" stroke-linejoin="round"/>
<text x="83.0" y="276.0" class="f-ink">100 ft</text>
<circle cx="240.0" cy="271.0" r="5" class="f-paper s-ink" stroke-width="1.6"/>
<text x="252.0" y="276.0" class="f-ink">start</text>
<path d="M310.0 271.0h22" fill="none" class="s-fault" stroke-width="2" stroke-linejoin="round"/>
<text x="338.0" y="276.0" class="f-ink">point rows</text>
<text x="14.0" y="302.0" class="f-ink" font-weight="bold">4.25 ac net, 5.21 ac gross</text>
<text x="14.0" y="322.0" class="f-ink">2 pulls 9.84 ft apart, heading 12.3 deg, mean length</text>
<text x="14.0" y="342.0" class="f-ink">148 ft</text>
</svg>
)");
    CHECK(has(svg, "viewBox=\"0 0 480 362\""));
    CHECK(has(svg, "<title>fields/home.geojson</title>"));
}

} // namespace field_svg_test
