// Draft in the ground through the notation: gangs, the class table, refusals, traction and the
// verdict.
#include "engine/questions/estimate.h"
#include "engine/readers/adjoint.h"
#include "tests/published/formulas.h"

#include <cmath>
#include <string>
#include <vector>

namespace soil_test {

using namespace acre::tests;

namespace {

// A layer by its class and moisture, as the models write it.
std::string layer(const std::string& thick, const std::string& ground, const std::string& state) {
    const std::string of = "(" + ground + ", " + state + ")";
    return "(" + thick + ", ground_weight(" + ground + "), ground_cohesion" + of +
           ", ground_adhesion" + of + ", ground_friction" + of + ", ground_steel_friction" + of +
           ")";
}
// The pan as friable: only drying changes a pan.
const std::string dry_pan = "each layer " + layer("3 ft", "loam", "dry") + ", " +
                            layer("1 ft", "moderate_pan", "friable") + ", " +
                            layer("0 ft", "sandy_loam", "friable") + ")";

std::string shank(const std::string& depth) {
    return "shank_draft(" + depth + ", 3.5 in, 45 deg, " + dry_pan;
}
// Shanks nearer than twice their depth share the draft of one half a spacing shallower.
std::string gang(double depth, int shanks, double spacing) {
    const auto feet = [](double x) { return std::to_string(x) + " ft"; };
    return "gang_draft(" + std::to_string(shanks) + ", " + shank(feet(depth)) + ", " +
           (spacing < 2 * depth ? shank(feet(depth - spacing / 2)) : "0 lbf") + ")";
}

} // namespace

TEST_CASE("one shank over a hardpan at 3 to 4 ft") {
    // ours: figures of an independent program with the same formulas; no measured draft at these
    // depths is public. The trade's picture, common practice, no source: a hardpan at 3 to 4 ft
    // under a 6 ft rip.
    const double kn[] = {75.0, 116.0, 173.9, 234.5, 298.7, 366.5, 437.8, 512.7, 591.2};
    std::vector<Published> rows;
    for (int i = 0; i < 9; ++i)
        rows.push_back({shank(std::to_string(3 + 0.5 * i) + " ft"), "kN", kn[i], 0.051});
    check_all(rows);
}

TEST_CASE("gangs of shanks share broken ground") {
    // ours: the same program with the rule for interacting tines
    check_all({{gang(6, 2, 6), "lbf", 180000, 60},
               {gang(4, 3, 4), "lbf", 104100, 60},
               {gang(5, 3, 4), "lbf", 167800, 60},
               // at no spacing a gang is one shank; at twice the depth its shanks stand alone
               {gang(5, 3, 0) + " / " + shank("5 ft"), "1", 1, 1e-9},
               {gang(5, 3, 10) + " / " + shank("5 ft"), "1", 3, 1e-9},
               {gang(5, 3, 12) + " / " + shank("5 ft"), "1", 3, 1e-9}});
}

TEST_CASE("draft by D497 is ten times too low at 6 ft, and is refused there") {
    // from memory: narrow point 129 + 2.7 S2 lbf an inch. At 72 in the formula would say 6,808 lbf
    // in medium soil.
    check_all({{"tool_draft(narrow_subsoiler, medium, 1.5 mi/h, 1, 24 in) * 3", "lbf", 6808, 2}});
    CHECK(std::isnan(
        value_of_formula("tool_draft(narrow_subsoiler, medium, 1.5 mi/h, 1, 25 in)", "lbf")));
    CHECK(value_of_formula(shank("6 ft"), "lbf") / 6808 > 10);
}

TEST_CASE("the tuned classes meet D497 at 12 to 20 in within its band of 50 %, but for sandy loam "
          "at 20 in") {
    // Not independent: cohesions were lowered until this held; D497 rows from memory. Foot 6 cm
    // wide.
    struct Row {
        const char *ground, *texture;
        double depth, ratio_low, ratio_high;
    };
    for (const Row& r : {Row{"sandy_loam", "coarse", 0.3, 0.5, 1.5},
                         {"sandy_loam", "coarse", 0.4, 0.5, 1.5},
                         {"sandy_loam", "coarse", 0.5, 1.5, 2.0},
                         {"loam", "medium", 0.3, 0.5, 1.5},
                         {"loam", "medium", 0.4, 0.5, 1.5},
                         {"loam", "medium", 0.5, 0.5, 1.5},
                         {"clay_loam", "fine", 0.3, 0.5, 1.5},
                         {"clay_loam", "fine", 0.4, 0.5, 1.5},
                         {"clay_loam", "fine", 0.5, 0.5, 1.5}}) {
        CAPTURE(r.ground);
        CAPTURE(r.depth);
        const std::string d = std::to_string(r.depth) + " m";
        const std::string g = r.ground;
        const std::string ours =
            "shank_draft(" + d + ", 6 cm, 45 deg, each layer " + layer("0 ft", g, "friable") + ")";
        const double ratio = value_of_formula(
            ours + " / tool_draft(narrow_subsoiler, " + r.texture + ", 5 km/h, 1, " + d + ")", "1");
        CHECK(ratio > r.ratio_low);
        CHECK(ratio < r.ratio_high);
    }
}

TEST_CASE("specific draft of a soil bin") {
    // Cranfield thesis p. 99, Table 23, seen: 40.7, 70.8, 84.5 kN/m2; their own drafts and areas
    // give 40.5, 70.7, 84.6
    check_all({{"specific_draft(4.5 kN, 0.1111 m^2)", "kN/m^2", 40.7, 0.25},
               {"specific_draft(5.0 kN, 0.0707 m^2)", "kN/m^2", 70.8, 0.15},
               {"specific_draft(3.86 kN, 0.0456 m^2)", "kN/m^2", 84.5, 0.2}});
}

TEST_CASE("pull by weight and coefficient, speed by power and pull") {
    // pull = coefficient × weight, 1 % of weight for 1 % of grade: public page of earthmoving
    // formulas, seen; values ours
    std::vector<Published> rows;
    const int weight[] = {150000, 180000, 210000};
    const double share[] = {0.50, 0.60, 0.70, 0.90};
    for (const int w : weight)
        for (const double s : share)
            rows.push_back(
                {"crawler_pull(" + std::to_string(w) + " lb, " + std::to_string(s) + ", 0 %)",
                 "lbf", w * s, 1e-6});
    const double pull[] = {80, 100, 120, 150}, slow[] = {2.34, 1.88, 1.56, 1.25},
                 fast[] = {3.28, 2.62, 2.19, 1.75};
    for (int i = 0; i < 4; ++i) {
        rows.push_back({"power_speed(500 hp, " + std::to_string(pull[i] * 1000) + " lbf)", "mi/h",
                        slow[i], 0.006});
        rows.push_back({"power_speed(700 hp, " + std::to_string(pull[i] * 1000) + " lbf)", "mi/h",
                        fast[i], 0.006});
    }
    // 850 hp at 0.60 makes 510 hp and 1.94 mi/h at the 6 ft draft; 6 ft spacing at 85 % is 1.20
    // ac/h; 361 hp h an acre
    rows.push_back({"power_speed(510 hp, " + shank("6 ft") + ")", "mi/h", 1.94, 0.006});
    rows.push_back({"field_capacity(power_speed(510 hp, " + shank("6 ft") + "), 6 ft, 85 %)",
                    "ac/h", 1.20, 0.006});
    rows.push_back({"drawbar_energy(" + shank("6 ft") + ", 6 ft)", "hp.h/ac", 361, 0.5});
    check_all(rows);
}

TEST_CASE("three shanks at 6 ft in a moderate pan are too many, and one is what pulls") {
    // ours, and the trade's: three shanks shallow, one shank deep. 180,000 lb on firm ground.
    const std::string one = shank("6 ft"),
                      pull = "crawler_pull(180,000 lb, ripping_traction(firm), 0 %)";
    const std::string shared = shank("6 ft - 4 ft / 2");
    const auto verdict = [&](const std::string& draft, const std::string& alone,
                             const std::string& wanted, const char* answer) {
        const std::string v = "pulling_verdict(" + draft + ", " + alone + ", " + pull +
                              ", power_speed(510 hp, " + draft + "), " + wanted + ") is " + answer;
        return value_of_formula("when " + v + " then 1 otherwise 0", "1") == 1;
    };
    CHECK(verdict(gang(6, 3, 4), one, "1.5 mi/h", "not_with_this_many_shanks"));
    CHECK(verdict(one, one, "1.5 mi/h", "pulls"));
    CHECK(verdict(one, one, "2.5 mi/h", "power_limited"));
    CHECK(verdict(shank("7 ft"), shank("7 ft"), "1.2 mi/h", "traction_limited"));
    CHECK(verdict(gang(4, 3, 4), shank("4 ft"), "1.5 mi/h", "pulls"));
    check_all(
        {{"shanks_that_pull(" + pull + ", " + one + ", " + shared + ")", "1", 1, 0},
         {"pulling_margin(" + one + ", " + pull + ", power_speed(510 hp, " + one + "), 1.5 mi/h)",
          "%", 28.0, 0.1}});
}

TEST_CASE("loosened ground and the spacing that breaks it all") {
    check_all({// Cranfield thesis, Table 23, seen: 0.1111 m2 from a tine at 0.35 m; the angle was
               // worked back from it (ours)
               {"loosened_area(0.35 m, 0.35 m, 0.15 m, 25.5 deg)", "m^2", 0.1111, 0.001},
               {"loosened_area(0.35 m, 0.35 m, 0.07 m, 35.3 deg)", "m^2", 0.1111, 0.001},
               // British Columbia Soil Management Handbook, section 4.3.1 p. 82, seen: 5 to 7 times
               // the foot
               {"rule_critical_depth(3.5 in, 5)", "ft", 1.5, 0.05},
               {"rule_critical_depth(3.5 in, 7)", "ft", 2.0, 0.05},
               // Spoor and Godwin 1978, from memory
               {"widest_spacing(plain, 4 ft, 4 ft)", "ft", 6, 1e-9},
               {"closest_spacing(winged_with_leaders, 4 ft, 4 ft)", "ft", 8, 1e-9}});
}

TEST_CASE("slopes through the deep draft are exact, from the notation to the last input") {
    // ours: the backward sweep against central differences, at a point inside one piece of the
    // search
    const std::string text =
        "model \"m\"\nuse \"library/deep-draft\" as deep\nuse \"library/traction\"\n"
        "given depth = 6 ft\ngiven foot = 3.5 in\ngiven rake = 45 deg\ngiven shanks = 3\ngiven "
        "apart = 5 ft\ngiven tuning = 1.1\n"
        "given upper = 3 ft\ngiven thick = 1 ft\ngiven c1 = 300 psf\ngiven c2 = 1,250 psf\ngiven "
        "c3 "
        "= 125 psf\ngiven phi = 35 deg\n"
        "one : lbf = tuning * shank_draft(depth, foot, rake, each layer (upper, 102 lbf/ft^3, c1, "
        "0 "
        "psf, phi, 23 deg), (thick, 115 lbf/ft^3, c2, 0 psf, 38 deg, 25 deg), (0 ft, 102 "
        "lbf/ft^3, c3, 10 psf, 34 deg, 23 deg))\n"
        "shared : lbf = tuning * shank_draft(depth - apart / 2, foot, rake, each layer (upper, 102 "
        "lbf/ft^3, c1, 0 psf, phi, 23 deg), (thick, 115 lbf/ft^3, c2, 0 psf, 38 deg, 25 deg), (0 "
        "ft, 102 lbf/ft^3, c3, 10 psf, 34 deg, 23 deg))\n"
        "pull : lbf = gang_draft(shanks, one, shared)\n"
        "speed : mi/h = ripping_speed(9 mi/h, 510 hp, pull)\n";
    const Priced p = priced_ok(text);
    const auto& plan = p.plan();
    std::vector<double> inputs;
    for (const auto& i : plan.inputs)
        inputs.push_back(i.value);
    for (const char* line : {"pull", "speed"}) {
        const auto slot = p.slot(line);
        const auto slope = acre::engine::slopes(plan, acre::engine::evaluate(plan, inputs), slot);
        REQUIRE(slope.size() == inputs.size());
        for (std::size_t i = 0; i < inputs.size(); ++i) {
            CAPTURE(line);
            CAPTURE(i);
            const double h = 1e-6 * inputs[i];
            auto low = inputs, high = inputs;
            low[i] -= h;
            high[i] += h;
            const double difference = (acre::engine::evaluate(plan, high).slot[slot] -
                                       acre::engine::evaluate(plan, low).slot[slot]) /
                                      (2 * h);
            CHECK(slope[i] == doctest::Approx(difference).epsilon(1e-6));
            CHECK(slope[i] != 0);
        }
    }
}

TEST_CASE("a price outside the tested range of a formula says so") {
    const std::string text = "model \"m\"\nuse \"library/draft\"\ngiven speed = 9 mi/h\n"
                             "pull : lbf = tool_draft(straight_chisel, medium, speed, 5, 8 "
                             "in)\ncost x : $/lbf = $1/lbf over pull\nprice \"Chisel\" lump\n";
    const auto estimate = acre::engine::estimate(priced_ok(text));
    REQUIRE(estimate.value.has_value());
    bool said = false;
    for (const auto& caution : estimate->cautions)
        if (caution.tested_range && caution.text.find("tool_draft") != std::string::npos &&
            caution.text.find("9") != std::string::npos &&
            caution.text.find("7 mi/h") != std::string::npos)
            said = true;
    CHECK(said);
}

} // namespace soil_test
