#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "lang/diag/described.h"
#include "lang/diag/suggest.h"

namespace suggest_test {

using namespace acre::lang;

TEST_CASE("the distance counts letters put in, taken out, replaced and swapped") {
    struct {
        std::string_view a, b;
        std::size_t distance;
    } const rows[] = {{"", "", 0},
                      {"abc", "abc", 0},
                      {"abc", "ABC", 0},
                      {"feild_rate", "field_rate", 1},
                      {"kitten", "sitting", 3}, // the usual example of the distance (from memory)
                      {"ac", "acer", 2},
                      {"", "abc", 3}};
    for (const auto& row : rows) {
        CAPTURE(row.a);
        CHECK(edit_distance(row.a, row.b, 10) == row.distance);
        CHECK(edit_distance(row.b, row.a, 10) == row.distance);
    }
    CHECK(edit_distance("kitten", "sitting", 2) == 3); // past the limit: limit + 1
    CHECK(edit_distance("abcdefgh", "x", 2) == 3);
    CHECK(edit_distance(std::string(5000, 'a'), std::string(5000, 'a'), 2) ==
          3); // too long to compare
}

TEST_CASE("near names come nearest first, three at most, each once") {
    const std::string_view names[] = {"row_width",  "field_rate", "field_rates", "fuel_rate",
                                      "yield_rate", "field_rate", "moves"};
    const auto near = near_names("feild_rate", names);
    REQUIRE(near.size() == 3);
    CHECK(near[0] == "field_rate");
    CHECK(near[1] == "field_rates");
    CHECK(near_names("zzz", names).empty());
    CHECK(near_names("feild_rate", names, 1).size() == 1);
}

TEST_CASE("a name of a used model is near when its last part is") {
    const std::string_view names[] = {"crawler.fuel_price", "area"};
    REQUIRE(near_names("fuel_prize", names).size() == 1);
    CHECK(near_names("fuel_prize", names)[0] == "crawler.fuel_price");
    CHECK(near_names("crawlr.fuel_price", names)[0] == "crawler.fuel_price");
}

TEST_CASE("a long prefix makes no two words alike") {
    const std::string_view names[] = {"prices.diesel", "prices.interest", "prices.reserve_share"};
    CHECK(near_names("prices.reserve", names).empty());
    CHECK(near_names("prices.deisel", names)[0] == "prices.diesel");
}

TEST_CASE("the same name behind another prefix is nearer than another that looks alike") {
    const std::string_view names[] = {"crew.operator_hour", "crew.day_operator"};
    const auto near = near_names("site.day_operator", names);
    REQUIRE(!near.empty());
    CHECK(near[0] == "crew.day_operator");
    CHECK(near_edit("site.day_operator", near, near[0], {}).has_value());
}

TEST_CASE("a near name is an edit only where no other is as near") {
    const std::string_view names[] = {"field_rate", "fuel_rate", "feed_rate"};
    const auto near = near_names("feild_rate", names);
    REQUIRE(near.size() >= 2);
    CHECK(near_edit("feild_rate", near, near[0], {})->replacement == "field_rate");
    CHECK(!near_edit("feild_rate", near, near[1], {}));
    const std::string_view two[] = {"wage", "wade"};
    const auto both = near_names("wabe", two);
    REQUIRE(both.size() == 2);
    CHECK(!near_edit("wabe", both, both[0], {}));
}

TEST_CASE("one letter is near nothing but itself in the other case") {
    const std::string_view names[] = {"h", "s", "L"};
    const auto near = near_names("l", names);
    REQUIRE(near.size() == 1);
    CHECK(near[0] == "L");
}

} // namespace suggest_test

// Names found by a word of theirs or of their label.
namespace described_test {

using acre::lang::Described;

namespace {

const std::vector<Described> lines = {
    {"standing_by", "standby per day, machine only"},
    {"crawler.standby_per_hour", "standby rate per hour"},
    {"hard_share", "share of the distance in slow ground: pan, cobble, roots"},
    {"crawler.hard_facing", "hardfacing one shank, rod and labor"},
    {"crew.shifts_per_day", "shifts per day"},
    {"crawler.tip", "price of one tip"},
    {"rig.tip", "price of one tip"},
    {"fuel_now", "diesel price in the week of the work"},
};

std::vector<std::string> found(std::string_view words, std::size_t at_most = 4) {
    std::vector<std::string> names;
    for (const Described& one : acre::lang::described_by(words, lines, at_most))
        names.emplace_back(one.name);
    return names;
}

using Names = std::vector<std::string>;

} // namespace

TEST_CASE("a word finds the lines whose name or label has it, those named so first") {
    CHECK(found("standby") == Names{"crawler.standby_per_hour", "standing_by"});
    CHECK(found("hard") == Names{"crawler.hard_facing", "hard_share"}); // a label's head counts
    CHECK(found("DIESEL") == Names{"fuel_now"});
    CHECK(found("harvest").empty());
}

TEST_CASE("every word has to be there, whatever stands between them") {
    CHECK(found("standby per day") == Names{"standing_by"});
    CHECK(found("standby_per_day") == Names{"standing_by"});
    CHECK(found("standby week").empty());
}

TEST_CASE("a plural finds its word; what is the same in two places counts once") {
    CHECK(found("tips").empty()); // three letters are too few to be the start of it
    CHECK(found("shares") == Names{"hard_share"});
    CHECK(found("tip") == Names{"crawler.tip"});
}

TEST_CASE("words that say nothing find nothing; there is an end to it") {
    CHECK(found("").empty());
    CHECK(found("the of per").empty());
    CHECK(found("\xff\x01 _").empty());
    CHECK(found("standby", 1) == Names{"crawler.standby_per_hour"});
    CHECK(found(std::string(1 << 20, 'x')).empty());
    CHECK(acre::lang::described_help(lines[7]) ==
          "`fuel_now`: diesel price in the week of the work");
}

} // namespace described_test
