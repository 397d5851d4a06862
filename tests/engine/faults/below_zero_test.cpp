#include "engine/faults/below_zero.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/engine/faults/found.h"

namespace below_zero_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;
using LangCode = acre::lang::Code;

TEST_CASE("a value below zero is told where it began, unless it is meant or has a sense there") {
    const Found f = faults(ripping + "part \"More\"\n  cost more : $/h = $5/h over hours\n",
                           {{"width", "-6 ft"}});
    const lang::Diagnostic d = f.only(); // not of pace, hours, costs and prices, which rest on it
    CHECK(d.code == LangCode::E509);
    CHECK(d.title == "`width` is -6 ft, below zero");
    CHECK(d.primary.text == "set on the command line");
    CHECK(f.at(d.primary.span) == "-6 ft");

    const Found computed = faults(ripping + "left : ac = area - 100 ac\n");
    CHECK(computed.only().title == "`left` is -20 ac, below zero");
    CHECK(has_note(computed.only(), "`area` is 80 ac"));
    REQUIRE(computed.only().helps.size() == 1);
    CHECK(computed.only().helps[0].text ==
          "if it is meant, write  may be negative  behind it; if not, perhaps  max(…, 0 ac)");

    // Of two lines of one value that which says it is told, whichever stands first.
    const Found copied = faults("model \"m\"\nagain : ft = width\ngiven width = 6 ft\n"
                                "once_more : ft = width\ncost c : $/ft = $1/ft over again\n"
                                "price \"P\" lump\n",
                                {{"width", "-6 ft"}});
    CHECK(copied.only().title == "`width` is -6 ft, below zero");

    for (const char* lawful :
         {"left : ac = area - 100 ac  may be negative\n", "left : 1 = -0.5\n",
          "tilt : deg = -3 deg\n", "given back = -$1  within -$2 .. $0\n",
          "given back = -$1  may be negative\n", "left : ft = 0.1 ft + 0.2 ft - 0.3 ft\n",
          "left : ft = 0.3 ft - 0.1 ft - 0.2 ft\n"}) { // the dust of a difference
        CAPTURE(std::string(lawful));
        const Found lawfully = faults(ripping + lawful);
        CHECK_MESSAGE(lawfully.all().empty(), lawfully.rendered());
    }
    for (const char* unlawful : {"left : % = -1 %\n", "left : $/h = -$1/h\n", "left : h = -1 h\n"})
        CHECK(faults(ripping + unlawful).only().code == LangCode::E509);
}

TEST_CASE("a credit may be larger than its cost, but not than all costs together") {
    const std::string text = "model \"m\"\npart \"Work\"\n  cost crew : $ = $300 over 1\n"
                             "  cost back : $ = -$200 over 1  may be negative\n"
                             "price \"Work\" lump\n";
    CHECK(faults(text).all().empty());
    std::string more = text;
    more.replace(more.find("$200"), 4, "$400");
    const Found f = faults(more);
    CHECK(f.only().code == LangCode::E509);
    CHECK(f.only().title.find("below zero") != std::string::npos);
    CHECK(f.only().helps.at(0).text.find("come to more than the others") != std::string::npos);
}

TEST_CASE("by the first version of the notation a value below zero is no fault") {
    tests::MemoryLoader loader({});
    lang::Request request = tests::request_of(ripping, {});
    request.sets = {{"width", "-6 ft"}};
    for (const std::uint32_t notation : {1U, 2U}) {
        request.notation = notation;
        const lang::Outcome<Job> job = make_job(request, loader);
        REQUIRE(job);
        lang::Diagnostics said;
        report_faults(**job, {}, said);
        CHECK(said.has_errors() == (notation == 2));
    }
}

TEST_CASE("a cost that no price covers, or two, is warned of with its money") {
    const std::string work = "model \"m\"\npart \"Work\"\n  cost crew : $ = $300 over 1\n"
                             "part \"Haul\"\n  cost haul : $/h = $90/h over 5 h\n";
    const Found none = faults(work + "price \"Work\" lump covers \"Work\"\n");
    const lang::Diagnostic left_out = none.with(LangCode::L803);
    CHECK(left_out.title == "no price covers the cost `haul`");
    CHECK(has_note(left_out, "$450.00 of cost that no price asks for"));
    const Found twice = faults(work + "price \"All\" lump covers \"Work\", \"Haul\"\n"
                                      "price \"Move\" lump covers \"Haul\"\n");
    const lang::Diagnostic again = twice.with(LangCode::L804);
    CHECK(again.title == "the cost `haul` is in 2 prices");
    CHECK(has_note(again, "$450.00 too much"));
    CHECK(again.helps.at(0).text == "keep its part in the `covers` of one price only");
    const Found nothing = faults(work + "part \"Idle\"\n  given spare = 1 h\n"
                                        "price \"All\" lump covers \"Work\", \"Haul\"\n"
                                        "price \"Spare\" lump\n");
    const lang::Diagnostic empty = nothing.with(LangCode::L820);
    CHECK(empty.title == "the price \"Spare\" covers no cost");
    CHECK(empty.helps.at(0).text == "name its part in its `covers`, or take the price out");
}

} // namespace below_zero_test
