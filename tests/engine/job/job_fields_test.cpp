// What a boundary that a job names sets in it, worked out by hand.
#include "engine/job/job_fields.h"

#include <string>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/support/priced.h"

namespace job_fields_test {

using namespace acre;
using tests::Priced;

namespace {

// At 36.6 degrees north a degree is 89,444 m east and 110,980 m north, within a thousandth.
std::string feature(const std::string& properties, double west, double east, double south,
                    double north) {
    const double w = -119.7 + west / 89'444, e = -119.7 + east / 89'444;
    const double s = 36.6 + south / 110'980, n = 36.6 + north / 110'980;
    return fmt::format(R"({{"type": "Feature", "properties": {{{0}}}, "geometry": {{"type":
"Polygon", "coordinates": [[[{1:.9f}, {3:.9f}], [{2:.9f}, {3:.9f}], [{2:.9f}, {4:.9f}],
[{1:.9f}, {4:.9f}], [{1:.9f}, {3:.9f}]]]}}}})",
                       properties, w, e, s, n);
}

const std::string figures = R"(given gross = 1 ac
given area = 1 ac
given run = 1 m
given cross_run = 1 m
given travel = 1 km
given pulls = 1
given depth = 5 ft
cost work : $/ac = $1/ac over area
price "P" per ac of area
)";
const std::string layout = R"(given layout_spacing = 10 m
given layout_cross_spacing = 0 m
given speed = 1 m/s
given turn = 30 s
)";

Priced laid(const std::string& job, const std::string& model = figures + layout) {
    tests::Choices choices;
    choices.field_sets.reset();
    choices.files = {
        {"map.rate", "model \"map\"\n" + model},
        {"long.geojson", feature("", 0, 900, 0, 100)},
        {"deep.geojson", feature(R"("depth": 6, "area": 3, "owner": "Ann")", 0, 900, 0, 100)},
        {"ditch.geojson", R"({"type": "FeatureCollection", "features": [)" +
                              feature("", 0, 900, 0, 100) +
                              R"(, {"type": "Feature", "properties": {"name": "Ditch"},
"geometry": {"type": "LineString", "coordinates": [[-119.71, 36.6004], [-119.69, 36.6004]]}}]})"},
        {"soils.geojson", R"({"type": "FeatureCollection", "features": [)" +
                              feature(R"("soil": "clay")", -50, 300, -50, 150) + "," +
                              feature(R"("soil": "loam")", 300, 950, -50, 150) + "]}"}};
    return tests::priced("job \"j\"\nmodel \"map\"\n" + job, choices);
}

void check(const Priced& job, double run, double pulls, double travel, double acres) {
    REQUIRE_MESSAGE(job.made.value.has_value(), job.rendered());
    CHECK(job.value("run") == doctest::Approx(run).epsilon(0.002));
    CHECK(job.value("pulls") == doctest::Approx(pulls).epsilon(1e-6));
    CHECK(job.value("travel") == doctest::Approx(travel / 1'000).epsilon(0.002));
    CHECK(job.value("area") == doctest::Approx(acres).epsilon(0.002));
}
std::string fault(const Priced& job) {
    REQUIRE_FALSE(job.made.value.has_value());
    for (const lang::Diagnostic& said : job.made.said.diagnostics.all())
        if (said.severity() == lang::Severity::Error)
            return std::string(lang::name_of(said.code)) + " " + said.title;
    return "";
}

constexpr double whole = 900 * 100 / 4046.856; // acres

} // namespace

TEST_CASE("a field is laid out at the heading of the job, or the fastest for its speed") {
    check(laid("field \"long.geojson\" heading 0 deg\n"), 100, 90, 90 * 100, whole);
    check(laid("field \"long.geojson\" heading 90 deg\n"), 900, 10, 10 * 900, whole);
    check(laid("field \"long.geojson\" heading 360 deg\n"), 100, 90, 90 * 100, whole);
    const Priced best = laid("field \"long.geojson\"\n");
    check(best, 900, 10, 10 * 900, whole); // nine turns, not eighty-nine
    CHECK(best.job().fields().size() == 1);
    CHECK(best.value("gross") == doctest::Approx(whole).epsilon(0.002));
    CHECK(best.value("cross_run") == 1);
    // A model that says neither speed nor turn has those of a crawler.
    check(laid("field \"long.geojson\"\n", figures + "given layout_spacing = 10 m\n"), 900, 10,
          10 * 900, whole);
}

TEST_CASE("what a model says of laying out goes into the layout, in meters and seconds") {
    const Priced job = laid("field \"long.geojson\" heading 90 deg\n",
                            figures + "given layout_spacing = 10 ft\n"
                                      "given layout_passes = 2\n"
                                      "given layout_pass_spacing = 4 ft\n"
                                      "given layout_headland = 20 ft\n"
                                      "given layout_row_ends = 30 ft\n"
                                      "given layout_turn_circle = 40 ft\n"
                                      "given layout_offset = 5 ft\n"
                                      "given speed = 3.6 km/h\n"
                                      "given turn = 0.5 min\n");
    REQUIRE_MESSAGE(job.made.value.has_value(), job.rendered());
    const engine::LayoutRequest& request = job.job().fields().at(0).field.request;
    CHECK(request.spacing == doctest::Approx(3.048)); // a foot is 0.3048 m
    CHECK(request.passes_per_row == 2);
    CHECK(request.pass_spacing == doctest::Approx(1.2192));
    CHECK(request.headland == doctest::Approx(6.096));
    CHECK(request.row_ends == doctest::Approx(9.144));
    CHECK(request.turn_diameter == doctest::Approx(12.192));
    REQUIRE(request.first_offset.has_value());
    CHECK(*request.first_offset == doctest::Approx(1.524));
    CHECK(request.speed == doctest::Approx(1));
    CHECK(request.turn_time == doctest::Approx(30));
}

TEST_CASE("a second layout across the first has its own spacing and adds its way") {
    const Priced crossed =
        laid("field \"long.geojson\" heading 90 deg\nset layout_cross_spacing = 20 m\n");
    check(crossed, 900, 10 + 45, 10 * 900 + 45 * 100, whole);
    CHECK(crossed.value("cross_run") == doctest::Approx(100).epsilon(0.002));
    const auto& settings =
        crossed.sheet().givens[crossed.sheet().lines[crossed.line("run")].given].settings;
    CHECK(settings.back().because == "laid out from long.geojson, heading 90.0 deg and across");
    CHECK(settings.back().layer == lang::Layer::Field);
}

TEST_CASE("the rows that are planted are laid out whatever is ripped") {
    // 900 m by 100 m, rows 11 m apart: 9 of 900 m fit, the last has its 11 m and 1 m is left.
    const std::string rows = "given layout_row_spacing = 11 m\ngiven rows = 1 m\n";
    const auto planted = [&](const std::string& job) {
        const Priced laid_out = laid(job, figures + layout + rows);
        REQUIRE_MESSAGE(laid_out.made.value.has_value(), laid_out.rendered());
        return laid_out.value("rows");
    };
    const std::string field = "field \"long.geojson\" heading 90 deg\n";
    CHECK(planted(field) == doctest::Approx(9 * 900).epsilon(0.002));
    CHECK(planted(field + "set layout_spacing = 22 m\n") ==
          doctest::Approx(9 * 900).epsilon(0.002));
    CHECK(planted(field + "set layout_cross_spacing = 7 m\n") ==
          doctest::Approx(9 * 900).epsilon(0.002));
    CHECK(planted("field \"long.geojson\" within \"soils.geojson#clay\" heading 90 deg\n") ==
          doctest::Approx(9 * 300).epsilon(0.002));
    // No row fits, or none is asked for: the model's own figure counts.
    CHECK(planted(field + "set layout_row_spacing = 300 m\n") == 1);
    CHECK(planted(field + "set layout_row_spacing = 0 m\n") == 1);
}

TEST_CASE("what lies on the ground of a job's boundary is told in the job") {
    const Priced told = laid("field \"ditch.geojson\" heading 0 deg\n");
    const lang::Diagnostic* said = told.find(lang::Code::L844);
    REQUIRE(said != nullptr);
    CHECK(said->title == "pulls go over `Ditch` of ditch.geojson");
    CHECK(said->primary.span.file == lang::no_file);
}

TEST_CASE("a figure beside a boundary that does nothing, or leaves its pulls, is told") {
    const auto said = [](const std::string& job, const std::string& model) {
        const Priced told = laid(job, model + layout);
        const lang::Diagnostic* is = told.find(lang::Code::L823);
        return is == nullptr ? "" : is->title;
    };
    const std::string field = "field \"long.geojson\" heading 0 deg\n";
    std::string model = figures;
    model.replace(model.find("area = 1 ac"), 11, "area : ac = gross * share");
    model += "given share = 95 %\n";
    CHECK(said(field + "set share = 90 %\n", model) ==
          "the job sets `share`, which does nothing: `area` comes from the boundary");
    CHECK(said(field + "set share = 90 %\n", model + "more : % = share\n") == "");
    CHECK(said(field, model) == "");
    CHECK(said("set area = 2 ac\nset share = 90 %\n", model) == "");
    CHECK(said(field + "set area = 2 ac\n", model) ==
          "the job sets `area`, but its boundary gives another figure, which counts");
}

TEST_CASE("a figure that an entry sets over its boundary is told") {
    const Priced told = laid("block a\n  field \"long.geojson\" heading 0 deg\n  set area = 3 ac\n",
                             "list block\npart \"G\" each block\n  given area = 1 ac\n"
                             "  given pulls = 1\n  layout_spacing : m = 10 m\n"
                             "  work : ac = area\nall : ac = sum(work)\n");
    const lang::Diagnostic* said = told.find(lang::Code::L823);
    REQUIRE(said != nullptr);
    CHECK(said->title == "`a.area` is set over what its boundary gives, and all else that the "
                         "boundary gives stays");
    CHECK(told.value("a.area") == 3);
}

TEST_CASE("of a field within some ground the acres and the way that lie there count") {
    const Priced clay =
        laid("field \"long.geojson\" within \"soils.geojson#clay\" heading 0 deg\n");
    check(clay, 100, 30, 30 * 100, whole / 3);
    CHECK(clay.value("gross") == doctest::Approx(whole / 3).epsilon(0.002));
    CHECK(fault(laid("field \"long.geojson\" within \"soils.geojson#sand\" heading 0 deg\n")) ==
          "B902 the field has no ground within `sand`");
}

TEST_CASE("a field that cannot be laid out stops the job and says why") {
    const Priced unsaid = laid("field \"long.geojson\"\n", figures);
    CHECK(fault(unsaid) == "B910 the model does not say how to lay a field out");
    CHECK(unsaid.made.said.diagnostics.error_count() == 1);
    CHECK(fault(laid("field \"long.geojson\" heading 361 deg\n")) ==
          "B910 the heading is 361 deg, outside 0 deg .. 360 deg");
    CHECK(fault(laid("field \"long.geojson\" heading -1 deg\n")) ==
          "B910 the heading is -1 deg, outside 0 deg .. 360 deg");
    CHECK(fault(laid("field \"short.geojson\"\n")).substr(0, 4) == "F701");
}

TEST_CASE("what a map says of its ground and the job does not take is told") {
    const Priced deep = laid("field \"deep.geojson\" heading 0 deg\n");
    const lang::Diagnostic* told = deep.find(lang::Code::L838);
    REQUIRE(told != nullptr); // neither acres, which are laid out, nor what is no given
    CHECK(told->title ==
          "\"deep.geojson\" says `depth` of its ground, and the job does not take it");
    REQUIRE(told->helps.size() == 2);
    CHECK(told->helps[1].text == "or say `set depth = …` in the job");
    CHECK(laid("field \"deep.geojson\" heading 0 deg\nset depth = 6 ft\n").find(lang::Code::L838) ==
          nullptr);
    CHECK(laid("field \"long.geojson\" heading 0 deg\n").find(lang::Code::L838) == nullptr);
}

TEST_CASE("each entry of a list has its own field, a picture each but for parts of one") {
    const std::string blocks = "list block\npart \"G\" each block\n  given area = 1 ac\n"
                               "  given pulls = 1\n  layout_spacing : m = 10 m\n"
                               "  work : ac = area\n"
                               "all : ac = sum(work)\n";
    const Priced job = laid("block a\n  field \"long.geojson\" heading 0 deg\n"
                            "block b\n  field \"long.geojson\" within \"soils.geojson#clay\" "
                            "heading 0 deg\n"
                            "block c\n  field \"long.geojson\" within \"soils.geojson#loam\" "
                            "heading 0 deg\n"
                            "block d\n  set area = 7 ac\n",
                            blocks);
    REQUIRE_MESSAGE(job.made.value.has_value(), job.rendered());
    CHECK(job.value("a.pulls") == 90);
    CHECK(job.value("b.pulls") == doctest::Approx(30).epsilon(1e-6));
    CHECK(job.value("c.pulls") == doctest::Approx(60).epsilon(1e-6));
    CHECK(job.value("d.area") == 7);
    CHECK(job.value("b.area") + job.value("c.area") ==
          doctest::Approx(job.value("a.area")).epsilon(1e-6));
    REQUIRE(job.job().fields().size() == 2); // of a, and of the field that b and c are parts of
    CHECK(job.job().fields()[0].entry == "a");
    CHECK(job.job().fields()[1].entry == "b");
}

} // namespace job_fields_test
