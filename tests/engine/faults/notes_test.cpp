// What is told beside a fault: what it happened with, where it came from, what is not its concern.
#include <string>

#include <doctest/doctest.h>

#include "tests/engine/faults/found.h"

namespace notes_test {

using namespace acre;
using namespace acre::tests;
using LangCode = acre::lang::Code;

TEST_CASE("a root is told of what its author wrote, in the unit written") {
    const Found f = faults("model \"m\"\ngiven area = 1 ac\ny : ft = sqrt(area - 4 ac)\n");
    CHECK(f.with(LangCode::E506).title == "there is no square root of -3 ac in `y`");
}

TEST_CASE("a table or a limit that is left tells of itself, with the reason of that limit alone") {
    const std::string text = "model \"m\"\ngiven low = 1\n"
                             "table burn (load : %) : gal/h\n  20   8\n  100  38\n"
                             "define eased (a : 1, b : 1) : 1 = a * b\n"
                             "  limit a 0 .. 40  \"from one tooth to forty\"\n"
                             "  limit b 0 .. 5  \"no more than five\"\n";
    const Found table = faults(text + "x : gal/h = burn(low * 110 %)\n");
    REQUIRE(table.only().others.size() == 1);
    CHECK(table.only().others[0].text == "the table");
    const Found limit = faults(text + "x : 1 = eased(low, 6)\n");
    CHECK(limit.only().title == "`b` of `eased` is 6 in `x`, above its limit of 5");
    CHECK(limit.only().notes.at(0) == "no more than five");
    CHECK_FALSE(has_note(limit.only(), "forty"));
}

TEST_CASE("a bound that has no answer is told, if its given is asked for") {
    const std::string text = "model \"m\"\ngiven none = 0\n"
                             "given reach = 30 ft within 1 ft .. 100 ft / none\nx : ft = reach\n"
                             "y : ft = 2 ft\n";
    CHECK(faults(text).only().code == LangCode::E501);
    CHECK(faults(text, {}, "x").only().code == LangCode::E501);
    CHECK(faults(text, {}, "y").all().empty());
}

TEST_CASE("a computed figure outside its range tells what it was computed from") {
    const Found f = faults("model \"m\"\ngiven power = 400 hp\n"
                           "given pull : hp = power / 2 within 250 hp .. 300 hp\nx : hp = pull\n");
    CHECK(f.only().title == "`pull` is 200 hp, outside its allowed range 250 hp .. 300 hp");
    CHECK(has_note(f.only(), "`power` is 400 hp in the model (test.rate, line 2)"));
}

TEST_CASE("a swing that does not enclose what is computed is mended to one that does") {
    const std::string head = "model \"m\"\ngiven power = 400 hp\ngiven pull : hp = power / 2 ";
    for (const char* swing : {"swing 210 hp .. 260 hp", "swing 150 hp .. 190 hp"}) {
        const Found f = faults(head + swing + "\nx : hp = pull\n"); // of 200 hp
        CHECK(f.with(LangCode::L808).helps.at(0).text == "write  swing 80 % .. 120 % of it");
    }
}

TEST_CASE("the first item of a price may be of nothing") {
    const std::string text = "model \"m\"\ngiven area = 80 ac\ngiven miles = 12 mi\n"
                             "part \"Haul\"\n  cost truck : $/mi = $4/mi over miles\n"
                             "part \"Work\"\n  cost crawler : $/ac = $300/ac over area\n"
                             "price \"Move\" per mi of miles covers \"Haul\"\n"
                             "price \"Ripping\" per ac of area covers \"Work\"\n";
    CHECK(faults(text).all().empty());
    const Found none = faults(text, {{"miles", "0 mi"}});
    CHECK_MESSAGE(none.all().empty(), none.rendered());
}

TEST_CASE("what has no answer in a price is told whatever its other steps are") {
    const Found f = faults(ripping + "  overhead 5 %\n  at least $100 * 1 ac / (area - 80 ac)\n");
    CHECK(f.only().code == LangCode::E501);
    CHECK(f.only().others.at(0).text == "0 ac");
}

TEST_CASE("a floor below zero is told with where it came from, and one of some cents is a floor") {
    const auto with = [](const std::string& least) {
        std::string is = ripping + "given floor_of = " + least + "\n";
        is.insert(is.find("  margin share"), "  at least floor_of\n");
        return faults(is);
    };
    const Found below = with("-$100  may be negative");
    const lang::Diagnostic d = below.with(LangCode::E509);
    CHECK(d.title == "`at least` is -$100, below zero");
    CHECK(d.primary.text == "lifts no price");
    CHECK(has_note(d, "`floor_of` is -$100 in the model"));
    CHECK(d.helps.at(0).text == "turn its sign, or leave the step out");
    CHECK(with("$0.50").said.error_count() == 0);
    CHECK(with("$0").said.error_count() == 0);
}

TEST_CASE("what a refusal costs below zero tells what it came from") {
    const Found f = faults("model \"m\"\ngiven paid = $40\ngiven depth = 5 ft\n"
                           "require depth < 7 ft  \"too deep\"  costs paid - $100\n"
                           "x : ft = depth\ncost c : $/ft = $1/ft over x\nprice \"P\" lump\n");
    CHECK(f.only().title == "a refusal costs -$60, below zero");
    CHECK(has_note(f.only(), "`paid` is $40 in the model (test.rate, line 2)"));
}

} // namespace notes_test
