// What is shown, what is counted, what a fleet costs: names found, and what is wrong with them.
#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_counts_test {

using namespace acre;
using tests::Files;
using tests::resolve_ok;
using tests::resolve_text;

namespace {

const Files machines = {{"crawler.rate",
                         "model \"Crawler\"\ngiven fixed = $90,000/yr\ngiven worked = 2,000 h/yr\n"
                         "burn : gal/h = 40 gal/h\nfleet costs fixed over worked\nshow burn\n"},
                        {"lowbed.rate", "model \"Lowbed\"\nuse \"crawler\"\ntruck_hours : h = 9 h\n"
                                        "count truck_hours, truck_hours of crawler\n"},
                        {"shed.rate", "model \"Shed\"\ngiven rent = $2/h\n"}};

std::string counted(const std::string& text) {
    const auto out = resolve_ok(text, {machines});
    std::string all;
    for (const lang::Counted& each : out.sheet.counted)
        all += (all.empty() ? "" : ", ") + out.sheet.lines[each.line].name +
               (each.machine.empty() ? "" : " of " + each.machine);
    return all;
}

const std::string head = "model \"m\"\nuse \"crawler\"\nuse \"shed\"\n"
                         "given hours = 8 h\ngiven acres = 9 ac\ngiven soil = fine | coarse\n";

std::string errors(const std::string& text) {
    return resolve_text(text, {machines}).codes();
}

} // namespace

TEST_CASE("counts of the model and of those it uses, by their names in the sheet") {
    CHECK(counted(head + "count hours of crawler, acres\n") == "hours of crawler, acres");
    CHECK(counted(head + "use \"lowbed\"\ncount acres\n") ==
          "acres, lowbed.truck_hours, lowbed.truck_hours of crawler");
}

TEST_CASE("fuel and days that the model counts stand for what its used models count of them") {
    const Files files = {
        {"inner.rate", "model \"Inner\"\ngallons : gal = 3 gal\ndays : day = 2 day\nacres : ac = 4 "
                       "ac\ncount gallons, days, acres\n"}};
    const auto names = [&](const std::string& own) {
        const auto out = resolve_ok("model \"m\"\nuse \"inner\"\ngallons : gal = "
                                    "inner.gallons\ndays : day = inner.days\n" +
                                        own,
                                    {files});
        std::string all;
        for (const lang::Counted& each : out.sheet.counted)
            all += out.sheet.lines[each.line].name + " ";
        return all;
    };
    CHECK(names("") == "inner.gallons inner.days inner.acres ");
    CHECK(names("count gallons\n") == "gallons inner.days inner.acres ");
    CHECK(names("count gallons, days\n") == "gallons days inner.acres ");
}

TEST_CASE("of a machine that each entry has, the hours of every entry") {
    const std::string model = "model \"m\"\nlist machine\npart \"Rigs\" each machine\n"
                              "  given share = 50 %\n  use \"crawler\" as rig with fixed = $9/yr\n"
                              "  own : h = 3 h * share\npart \"All\"\n  hours : h = sum(own)\n";
    const auto of = [&](const std::string& count) {
        Files files = machines;
        files["m.rate"] = model + count;
        const auto out =
            resolve_ok("job \"j\"\nmodel \"m\"\nmachine hazel\nmachine walt\n", {files});
        std::string all;
        for (const lang::Counted& each : out.sheet.counted)
            all += out.sheet.lines[each.line].name + " of " + each.machine + " ";
        for (const lang::Fleet& fleet : out.sheet.fleets)
            all += fleet.name + " ";
        return all;
    };
    CHECK(of("count hours of rig\n") == "hours of hazel.rig hours of walt.rig hazel.rig walt.rig ");
    CHECK(of("count own of rig\n") ==
          "hazel.own of hazel.rig walt.own of walt.rig hazel.rig walt.rig ");
}

TEST_CASE("what a fleet costs is found in every model that says it") {
    const auto out = resolve_ok(head, {machines});
    REQUIRE(out.sheet.fleets.size() == 1);
    CHECK(out.sheet.fleets[0].name == "crawler");
    const auto alone = resolve_ok(machines.at("crawler.rate"), {});
    CHECK(alone.sheet.fleets.size() == 1);
}

TEST_CASE("what is wrong in a count") {
    CHECK(errors(head + "count hurs\n") == "N201");
    CHECK(errors(head + "count hours of crowler\n") == "N216");
    CHECK(errors(head + "count hours of shed\n") == "N216");
    CHECK(errors(head + "count acres of crawler\n") == "U304");
    CHECK(errors(head + "count soil\n") == "U309");
    CHECK(errors(head + "count acres, acres\n") == "N202");
    CHECK(errors(head + "more : h = 2 h\ncount hours of crawler, more of crawler\n") == "N202");
    CHECK(errors(head + "fleet costs $2/yr over 3 h/yr\nfleet costs $2/yr over 3 h/yr\n") ==
          "S116");
}

TEST_CASE(
    "what is shown is a bit of its line, of every entry, by the model's names or the sheet's") {
    Files files = machines;
    files["m.rate"] = "model \"m\"\nuse \"crawler\" as cat\nlist block\npart \"G\" each block\n"
                      "  given depth = 5 ft\n  given wet = 3 %\nacres : ac = 3 ac\n"
                      "show acres, depth, cat.worked, crawler.fixed\n";
    const auto out = resolve_ok("job \"j\"\nmodel \"m\"\nblock a\nblock b\n", {files});
    std::string all;
    for (const lang::Line& line : out.sheet.lines)
        if (line.shown)
            all += line.name + " ";
    CHECK(all == "a.depth b.depth acres crawler.fixed crawler.worked "); // not crawler.burn
    CHECK(errors(head + "show acrs\n") == "N201");
}

TEST_CASE("showing the firm's own business is warned of") {
    const std::string priced =
        head + "cost own : $/h = $3/h over hours\ngiven share = 10 %\ngiven lead = 5 %\n"
               "event e = 0.1 1/ac over acres costs $30\ngiven least_sum = $30\n"
               "price \"P\" per ac of acres\n  overhead share + max(lead, 1 %)\n  margin 5 %\n"
               "  at least least_sum\n";
    for (const char* name :
         {"own", "own.amount", "e.amount", "e.money", "share", "lead", "p.cost", "p.overhead",
          "p.margin", "cost.total", "overhead.total", "contribution.total", "contribution.share",
          "profit.total", "profit.share"})
        CHECK_MESSAGE(errors(priced + "show " + name + "\n") == "L809", std::string(name));
    for (const char* name : {"own.quantity", "e", "acres", "least_sum", "p.rate", "p.amount",
                             "p.quantity", "price.total", "price.per_unit"})
        CHECK_MESSAGE(errors(priced + "show " + name + "\n").empty(), std::string(name));
}

} // namespace resolve_counts_test
