#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "cli/page/collect.h"

namespace collect_test {

namespace {

std::string example(const std::string& name) {
    return std::string(ACREWRIGHT_ROOT) + "/examples/" + name;
}
bool has(const std::vector<std::string>& names, const std::string& end) {
    return std::any_of(
        names.begin(), names.end(), [&](const std::string& name) { return name.ends_with(end); });
}

} // namespace

TEST_CASE("a page carries every season that its jobs could ask for, each once") {
    const auto all =
        acre::cli::collect({example("01-first-price.job"), example("02-closer-pulls.job")}, "");
    REQUIRE(all);
    CHECK(all->texts.seasons.size() == 2);
    CHECK(has(all->texts.seasons, "2027.season"));
    CHECK(has(all->texts.seasons, "2027-autumn.season"));
}

TEST_CASE("a page carries the price of each option and the layout of each field") {
    const auto all =
        acre::cli::collect({example("16-from-a-map.job"), example("04-crossed.job")}, "");
    REQUIRE(all);
    REQUIRE(all->jobs.size() == 2);
    CHECK(all->texts.jobs[0].layouts.size() >= 1);
    CHECK(all->texts.jobs[1].layouts.empty());
    const auto& crossed = all->jobs[1];
    REQUIRE(!crossed.options.empty());
    CHECK(crossed.options[0].estimate.price_cents != crossed.price.estimate.price_cents);
}

TEST_CASE("what is no job is no page's") {
    const auto all = acre::cli::collect({example("2027.season")}, "");
    REQUIRE_FALSE(all);
    CHECK(all.said.diagnostics.all().front().title.find("is not a .job file") != std::string::npos);
}

} // namespace collect_test
