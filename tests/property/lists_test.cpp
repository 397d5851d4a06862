// A job with entries is the same job written out line by line.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "engine/readers/adjoint.h"
#include "tests/property/random_lists.h"
#include "tests/support/naive_value.h"
#include "tests/support/priced.h"

namespace lists_test {

using namespace acre;
using namespace acre::tests;
using namespace acre::tests::random_lists;

namespace {

// How `t4` moves with each given that moves it, by the given's name.
std::map<std::string, double> slopes_of(const Priced& priced) {
    const std::vector<double> slope =
        engine::slopes(priced.plan(), priced.values(), priced.slot("t4"));
    std::map<std::string, double> out;
    for (std::size_t i = 0; i < slope.size(); ++i)
        if (slope[i] != 0)
            out[priced.sheet().lines[priced.plan().inputs[i].line].name] = slope[i];
    return out;
}

} // namespace

TEST_CASE("a job with entries has the values and slopes of the same job written out by hand") {
    int pairs = 0;
    int slopes_met = 0;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        const Program p = Maker(seed).make();
        const std::string model = with_lists(p);
        const std::string hand = ByHand(p).text();
        CAPTURE(seed);
        CAPTURE(model);
        CAPTURE(job_of(p));
        CAPTURE(hand);
        const Priced lists = priced_ok(job_of(p), {{{"m.rate", model}}});
        const Priced plain = priced_ok(hand);
        NaiveValue naive(lists.sheet());
        const std::size_t legs = std::max<std::size_t>(1, p.legs.size());
        for (const LineOf& line : p.lines)
            for (std::size_t leg = 0; leg < (line.level == Level::Job ? 1 : legs); ++leg)
                for (std::size_t layer = 0;
                     layer < (line.level == Level::Layer ? p.layers.size() : 1); ++layer) {
                    const std::string name = in_sheet(p, line, leg, layer);
                    CAPTURE(name);
                    const double value = lists.value(name);
                    REQUIRE(value == plain.value(ByHand::named(line.name, line.level, leg, layer)));
                    REQUIRE(naive.line(name).agrees(value));
                    ++pairs;
                }
        const std::map<std::string, double> ours = slopes_of(lists);
        const std::map<std::string, double> theirs = slopes_of(plain);
        REQUIRE(ours.size() == theirs.size());
        for (const LineOf& line : p.lines)
            for (std::size_t leg = 0; line.given && leg < (line.level == Level::Job ? 1 : legs);
                 ++leg)
                for (std::size_t layer = 0;
                     layer < (line.level == Level::Layer ? p.layers.size() : 1); ++layer) {
                    const auto there =
                        theirs.find(ByHand::named(line.name, line.level, leg, layer));
                    if (there == theirs.end())
                        continue;
                    const std::string name = in_sheet(p, line, leg, layer);
                    CAPTURE(name);
                    REQUIRE(ours.count(name) == 1);
                    REQUIRE(ours.at(name) == doctest::Approx(there->second));
                    ++slopes_met;
                }
    }
    CHECK(pairs > 3'000);
    CHECK(slopes_met > 500);
}

TEST_CASE("machines from one model are the same model used once for each by hand") {
    const std::string crawler = R"(model "Crawler"
given paid = $900,000  within $1 .. $9,000,000
given power = 850 hp
given kit = $0
burn : gal/h = power * 0.04 gal/h/hp
own : $/h = (paid + kit) / 15,000 h
run : $/h = burn * $4.20/gal
)";
    const std::string head = "model \"m\"\nuse \"crawler\"\ngiven area = 200 ac\n";
    const std::string price = "price \"Ripping\" per ac of area\n  margin 12 %\n";
    const std::string lists = head + R"(list machine
part "Each" each machine
  given paid : $ = crawler.paid
  given pace = 4 ac/h
  use "crawler" as rig with paid = paid
part "All"
  hours : h = area / sum(pace)
part "Costs" each machine
  cost owned : $/h = rig.own over hours
  cost fuel : $/h = rig.run over hours
)" + price;
    for (int machines = 1; machines <= 3; ++machines) {
        std::string job = "job \"j\"\nmodel \"lists\"\nset crawler.kit = $38,000\n";
        std::string hand = head;
        std::string paces = "0 ac/h";
        std::string costs;
        for (int i = 0; i < machines; ++i) {
            const std::string n = std::to_string(i);
            const std::string paid = std::to_string(1'000'000 - 130'000 * i);
            const std::string pace = std::to_string(4 - i) + ".5 ac/h";
            job += "machine m" + n + "\n  set paid = $" + paid + "\n  set pace = " + pace + "\n";
            hand += "given paid_" + n + " = $" + paid + "\ngiven pace_" + n + " = " + pace +
                    "\nuse \"crawler\" as rig_" + n + " with paid = paid_" + n +
                    ", kit = crawler.kit\n";
            paces += " + pace_" + n;
            costs += "cost owned_" + n + " : $/h = rig_" + n + ".own over hours\ncost fuel_" + n +
                     " : $/h = rig_" + n + ".run over hours\n";
        }
        hand += "hours : h = area / (" + paces + ")\n" + costs + price;
        const Files files = {{"crawler.rate", crawler}, {"lists.rate", lists}, {"hand.rate", hand}};
        const Priced ours = priced_ok(job, {files});
        const Priced theirs =
            priced_ok("job \"j\"\nmodel \"hand\"\nset crawler.kit = $38,000\n", {files});
        CAPTURE(machines);
        CHECK(ours.value("ripping.amount") == theirs.value("ripping.amount"));
        CHECK(ours.value("m0.owned.amount") == theirs.value("owned_0.amount"));
        CHECK(ours.value("m0.owned") == doctest::Approx((1'000'000 + 38'000) / 15'000.0));
    }
}

} // namespace lists_test
