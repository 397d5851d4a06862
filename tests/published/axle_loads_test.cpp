// Legal loads of axle groups against every printed cell, and every group of a truck against a plain
// loop over those cells. No formula here: the tables are not the formula.
#include "tests/published/axle_prints.h"
#include "tests/published/formulas.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace axle_loads_test {

using namespace acre::tests;
using namespace acre::tests::prints;

namespace {

struct Cell {
    int feet, axles;
    double pounds;
};

std::vector<Cell> cells_of(std::string_view print) {
    std::vector<Cell> cells;
    std::istringstream rows{std::string(print)};
    for (std::string row; std::getline(rows, row);) {
        std::istringstream words(row);
        int feet = 0;
        if (!(words >> feet))
            continue;
        int axles = 2;
        for (std::string word; words >> word; ++axles)
            if (word != "-")
                cells.push_back({feet, axles, std::stod(word)});
    }
    return cells;
}

std::string limit_of(const std::string& law, const std::string& feet, int axles,
                     int two_tandems = 0) {
    return "group_limit(" + law + ", " + feet + " ft, " + std::to_string(axles) + ", " +
           std::to_string(two_tandems) + ")";
}

void check_print(const std::string& law, std::string_view print, std::size_t cells) {
    std::vector<Published> rows;
    for (const Cell& c : cells_of(print))
        rows.push_back({limit_of(law, std::to_string(c.feet), c.axles), "lb", c.pounds, 0});
    CHECK(rows.size() == cells);
    check_all(rows);
}

// The federal prints together, by feet and axles.
const std::map<std::pair<int, int>, double>& federal_cells() {
    static const auto all = [] {
        std::map<std::pair<int, int>, double> out;
        for (const std::string_view print : {north_carolina, nebraska, nevada, from_memory})
            for (const Cell& c : cells_of(print))
                out[{c.feet, c.axles}] = c.pounds;
        return out;
    }();
    return all;
}

// What the prints allow a group of some whole or half feet up to 60: a half goes up (Nebraska
// 60-6,294(4)), a blank takes the first figure to the left (Idaho Code 49-1001(1)), and past a
// column's end the axles carry 20,000 lb each.
double printed(double length, int axles) {
    if (length <= 8)
        return 34000;
    const int feet = static_cast<int>(std::floor(length + 0.5));
    if (feet == 8)
        return axles == 2 ? 38000 : 42000;
    for (int n = axles; n >= 2; --n) {
        const auto cell = federal_cells().find({feet, n});
        if (cell != federal_cells().end())
            return cell->second;
        if (n <= 4 && feet > (n == 4 ? 57 : n == 3 ? 32 : 10))
            return 20000 * n;
    }
    return 0;
}

// Every consecutive group, by loops.
double worst(const std::vector<double>& weight, const std::vector<double>& gap) {
    double total = 0, over = -1e9;
    for (const double w : weight)
        total += w, over = std::max(over, w - 20000);
    over = std::max(over, total - 80000);
    for (std::size_t i = 0; i < weight.size(); ++i) {
        double sum = weight[i], length = 0;
        for (std::size_t j = i + 1; j < weight.size(); ++j) {
            sum += weight[j];
            length += gap[j - 1];
            const int n = static_cast<int>(j - i + 1);
            double allowed = printed(length, n);
            if (n == 4 && gap[i] <= 8 && gap[i + 2] <= 8 && length >= 36)
                allowed = std::max(allowed, 68000.0);
            over = std::max(over, sum - allowed);
        }
    }
    return over;
}

} // namespace

TEST_CASE("the federal table, every printed cell") {
    check_print("federal", north_carolina, 143);
    check_print("federal", nebraska, 49);
    check_print("federal", nevada, 21);
    check_print("federal", from_memory, 44);
}

TEST_CASE("California's table, every printed cell") {
    check_print("california", california, 125);
    check_print("california", california_from_memory, 160);
}

TEST_CASE("short groups: 8 ft and less is a tandem, more than 8 its own row") {
    check_all({
        // Washington 46.44.041 (2024), seen: 4 to 7, `8 & less`, `more than 8`, 9
        {limit_of("federal", "4", 2), "lb", 34000, 0},
        {limit_of("federal", "7", 2), "lb", 34000, 0},
        {limit_of("federal", "8", 2), "lb", 34000, 0},
        {limit_of("federal", "8", 3), "lb", 34000, 0},
        {limit_of("federal", "8.1", 2), "lb", 38000, 0},
        {limit_of("federal", "8.1", 3), "lb", 42000, 0},
        {limit_of("federal", "8.49", 2), "lb", 38000, 0}, // to 8 ft 6 in: Nebraska 60-6,294(4)(b)
        {limit_of("federal", "8.5", 2), "lb", 39000, 0},
        {limit_of("federal", "9", 3), "lb", 42500, 0},
        // the administration's answers on 23 CFR 658.17, seen: three axles within 96 in are a
        // tandem too,
        // axles within 40 in one axle; Minnesota 169.824: over 3 ft 4 in counts as 4 ft
        {limit_of("federal", "7.5", 4), "lb", 34000, 0},
        {limit_of("federal", "3.3", 2), "lb", 20000, 0},
        {limit_of("federal", "3.4", 2), "lb", 34000, 0},
        // California has no such row: what rounds to 8 ft is 8 ft
        {limit_of("california", "8.49", 3), "lb", 34000, 0},
        {limit_of("california", "8.5", 3), "lb", 42500, 0},
    });
}

TEST_CASE("a blank cell takes the first figure to its left, as Idaho Code 49-1001(1) says") {
    check_all({
        {limit_of("federal", "9", 4), "lb", 42500, 0},
        {limit_of("federal", "11", 9), "lb", 44000, 0},
        {limit_of("federal", "15", 5), "lb", 52000, 0},
        {limit_of("federal", "19", 6), "lb", 60000, 0},
        {limit_of("federal", "23", 7), "lb", 68000, 0},
        {limit_of("federal", "27", 8), "lb", 75500, 0},
        {limit_of("federal", "31", 9), "lb", 83500, 0},
    });
}

TEST_CASE("feet are measured to the nearest, and dust in the last digits changes nothing") {
    check_all({
        {limit_of("federal", "20.49", 3), "lb", 51000, 0},
        {limit_of("federal", "20.5", 3), "lb", 51500, 0},
        {"group_limit(federal, 18.1 ft - 10.1 ft, 3, 0)", "lb", 34000, 0},
        {"group_limit(federal, 10.3 ft + 26.2 ft - 28.5 ft, 3, 0)", "lb", 34000, 0},
        {"group_limit(federal, 9 ft - 0.1 ft * 5, 2, 0)", "lb", 39000, 0},
    });
}

TEST_CASE("two consecutive tandems carry 34,000 lb each from 36 ft") {
    check_all({
        // 23 U.S.C. 127(a)(2), and its page of answers: without it 66,000 to 67,500 lb from 36 to
        // 38 ft
        {limit_of("federal", "35.9", 4, 1), "lb", 66000, 0},
        {limit_of("federal", "36", 4, 1), "lb", 68000, 0},
        {limit_of("federal", "38", 4, 1), "lb", 68000, 0},
        {limit_of("federal", "40", 4, 1), "lb", 68500, 0},
        {limit_of("california", "36", 4, 1), "lb", 68000, 0},
    });
}

TEST_CASE("past the table's end the formula, and never over 20,000 lb an axle") {
    check_all({
        // ours, by hand: 500 (L N / (N - 1) + 12 N + 36), a half down
        {limit_of("federal", "61", 9), "lb", 106500, 0}, // 106,312.5
        {limit_of("federal", "70", 5), "lb", 91500, 0},  // 91,750
        {limit_of("federal", "90", 9), "lb", 122500, 0}, // 122,625
        {limit_of("federal", "100", 5), "lb", 100000, 0},
        {limit_of("federal", "100", 4), "lb", 80000, 0},
        {limit_of("federal", "100", 2), "lb", 40000, 0},
        {limit_of("california", "100", 9), "lb", 80000, 0},
        // a public page of worked examples, seen
        {"bridge_formula(4 ft, 2)", "lb", 34000, 0},
        {"bridge_formula(48 ft, 5)", "lb", 78000, 0},
        {"bridge_formula(51 ft, 5)", "lb", 80000, 0}, // 79,875 before rounding
    });
}

TEST_CASE("a group of one axle, of ten, or without length has no limit") {
    for (const char* call :
         {"bridge_formula(10 ft, 1)", "bridge_formula(10 ft, 0)", "bridge_formula(0 ft, 3)",
          "bridge_formula(-4 ft, 3)", "group_limit(federal, 10 ft, 1, 0)",
          "group_limit(federal, 60 ft, 10, 0)", "group_limit(california, 0 ft, 3, 0)"}) {
        CAPTURE(call);
        CHECK(std::isnan(value_of_formula(call, "lb")));
    }
}

TEST_CASE("every consecutive group of axles is looked at") {
    std::mt19937_64 random(9);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    std::vector<Published> rows;
    for (int trial = 0; trial < 60; ++trial) {
        const int axles = between(2, 9);
        std::vector<double> weight, gap;
        std::string weights, gaps;
        double length = 0;
        for (int i = 0; i < 9; ++i) {
            const int w = i < axles ? between(60, 210) * 100 : 0;
            if (w > 0)
                weight.push_back(w);
            weights += ", " + std::to_string(w) + " lb";
            if (i < 8) { // in half feet, 60 ft in all: where the prints end
                int halves = between(0, 1) == 0 ? 8 : between(8, 40);
                if (length + halves / 2.0 > 60 - 4 * (7 - i))
                    halves = 8;
                length += halves / 2.0;
                if (i < axles - 1)
                    gap.push_back(halves / 2.0);
                gaps += ", " + std::to_string(halves / 2) + (halves % 2 == 0 ? "" : ".5") + " ft";
            }
        }
        rows.push_back({"worst_group(federal, 80,000 lb" + weights + gaps + ")", "lb",
                        worst(weight, gap), 1e-6});
    }
    check_all(rows);
}

} // namespace axle_loads_test
