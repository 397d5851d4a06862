#include "engine/learning/proposal.h"

#include <string>

#include <doctest/doctest.h>

namespace proposal_test {

using namespace acre;
using namespace acre::engine;

namespace {

LearnedFigure figure(std::string name, std::string unit, double was, double now, double low,
                     double high) {
    LearnedFigure figure;
    figure.name = std::move(name);
    figure.unit = std::move(unit);
    figure.value = was;
    figure.learned = now;
    figure.low = low;
    figure.high = high;
    figure.jobs = 12;
    figure.told_by = "fuel, as delivered";
    figure.tells = Tells::FuelPrice;
    return figure;
}

const std::string season = "# Ours.\nseason \"2027\"\nfirm   \"tamarack\"\n\n"
                           "set season_prices.diesel   = $4.47/gal  because \"the dock\"\n"
                           "set season_prices.delivery = $0.21/gal\n"
                           "set crawler.load = 90 %  swing 80 % .. 100 %\n";

} // namespace

TEST_CASE("a proposal is the whole season with the figures that were learned") {
    LearnAnswer answer;
    answer.quotes = {"2027-001", "2027-003"};
    answer.figures = {figure("season_prices.diesel", "$/gal", 4.47, 4.6213, 4.55, 4.69),
                      figure("crawler.load", "%", 90, 93.162, 91, 95.4),
                      figure("work_minutes", "min/h", 50, 47.3, 45, 49.6)};
    const auto text = proposed_season("old.season", season, answer);
    REQUIRE(text.value.has_value());
    const std::string reason = "normal hierarchical model (Gelman et al. 2013, 5.4); ";
    CHECK(
        *text ==
        "# Proposed from 2 finished jobs. Read it before you use it: `bridge` and `book --season` "
        "show what it does.\n"
        "# Ours.\nseason \"2027\"\nfirm   \"tamarack\"\n\n"
        "set season_prices.diesel   = $4.62/gal  because \"12 jobs, fuel, as delivered: 90 % "
        "between $4.55/gal and $4.69/gal; " +
            reason +
            "$4.47/gal before\"\n"
            "set season_prices.delivery = $0.21/gal\n"
            "set crawler.load = 93.2 %  swing 80 % .. 100 %  because \"12 jobs, fuel, as "
            "delivered: "
            "90 % between 91 % and 95.4 %; " +
            reason +
            "90 % before\"\n"
            "\n# From finished jobs.\n"
            "set work_minutes = 47.3 min/h  because \"12 jobs, fuel, as delivered: 90 % between "
            "45 min/h and 49.6 min/h; " +
            reason + "50 min/h before\"\n");
}

TEST_CASE("a label with quotes cannot end a reason, and a season that is none is refused") {
    LearnAnswer answer;
    answer.figures = {figure("crawler.load", "%", 90, 93, 91, 95)};
    answer.figures[0].told_by = "a \"b\"\nset crawler.purchase = $1  because \"c";
    const auto text = proposed_season("old.season", season, answer);
    REQUIRE(text.value.has_value());
    CHECK(text->find("\nset crawler.purchase") == std::string::npos);
    CHECK_FALSE(proposed_season("old.season", "season \"a\nset = \n", answer).value.has_value());
}

} // namespace proposal_test
