// What an editor knows of the texts of a job: names, where they are said, what they come to.
#include "engine/questions/outline.h"

#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace outline_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string model = R"(model "Rip"
noun tree
table burn (load : %) : gal/h  "fuel burned"
  20   8
  100  38
define eased (pull : hp, share : %) : hp = pull * share  "less of it"
  source "by hand"
  known ours
given area = 80 ac  "net acres"  because "county map"
given depth = 5 ft  "depth"  swing 4 ft .. 6 ft
given wide : ft = depth  "how wide"  swing 90 % .. 110 % of it
given way = along | both_ways  "way"
pull : hp = eased(200 hp, 50 %)  "pull"
rate : 1/h = burn(60 %) / 23 gal   # 23 gallons are one
cost work : $/ac = $10/ac over area  "work"
correlate depth, wide 60 %
show area, depth,
  way
price "Ripping" per ac of area
  margin 20 %
)";

const Symbol& symbol(const Outline& outline, const std::string& name) {
    const auto found = std::find_if(outline.symbols.begin(), outline.symbols.end(),
                                    [&](const Symbol& s) { return s.name == name; });
    REQUIRE_MESSAGE(found != outline.symbols.end(), name);
    return *found;
}

// Each place where a text says the name, as "line:column file".
std::vector<std::string> places(const tests::Priced& job, const Outline& outline,
                                const std::string& name) {
    std::vector<std::string> out;
    for (const Mention& mention : outline.mentions) {
        const Symbol& said = outline.symbols.at(mention.symbol);
        if (said.name != name)
            continue;
        for (lang::FileId id = 0; id < job.sources().size(); ++id) {
            const lang::SourceFile& file = job.sources().file(id);
            if (file.name() != mention.at.file)
                continue;
            CHECK(file.text().substr(mention.at.begin, mention.at.end - mention.at.begin) == name);
            const auto at = file.position(mention.at.begin);
            out.push_back(std::to_string(at.line) + ":" + std::to_string(at.column) + " " +
                          file.name());
        }
    }
    return out;
}

} // namespace

TEST_CASE("a name is known in formulas, calls, lists over several lines, and what a job sets") {
    const auto job = tests::priced_ok("job \"J\"\nmodel \"rip\"\nset area = 40 ac because \"dug\"\n"
                                      "set way = both_ways\n",
                                      {{{"rip.rate", model}}});
    const Outline outline = ask(job, OutlineQuestion{});
    using Places = std::vector<std::string>;
    CHECK(places(job, outline, "area") == Places{"3:5 test.job", "9:7 rip.rate", "15:32 rip.rate",
                                                 "17:6 rip.rate", "19:27 rip.rate"});
    CHECK(places(job, outline, "depth") ==
          Places{"10:7 rip.rate", "11:19 rip.rate", "16:11 rip.rate", "17:12 rip.rate"});
    CHECK(places(job, outline, "wide") == Places{"11:7 rip.rate", "16:18 rip.rate"});
    CHECK(places(job, outline, "way") == Places{"4:5 test.job", "12:7 rip.rate", "18:3 rip.rate"});
    CHECK(places(job, outline, "eased") == Places{"6:8 rip.rate", "13:13 rip.rate"});
    CHECK(places(job, outline, "burn") == Places{"3:7 rip.rate", "14:14 rip.rate"});
    CHECK(places(job, outline, "work") == Places{"15:6 rip.rate"});
}

TEST_CASE("what is known of each name, and what it comes to") {
    const auto job = tests::priced_ok(
        "job \"J\"\nmodel \"rip\"\nset area = 40 ac because \"dug\"\n", {{{"rip.rate", model}}});
    const Outline outline = ask(job, OutlineQuestion{});
    CHECK(outline.title == "J");
    CHECK(std::find(outline.nouns.begin(), outline.nouns.end(), "tree") != outline.nouns.end());
    const Symbol& area = symbol(outline, "area");
    CHECK(area.kind == Symbol::Kind::Given);
    CHECK(area.label == "net acres");
    CHECK(area.unit == "ac");
    CHECK_FALSE(area.is_choice());
    REQUIRE(area.lines.size() == 1);
    CHECK(area.lines[0].text == "40 ac");
    CHECK(area.lines[0].set_by == "job");
    CHECK(area.lines[0].because == "dug");
    CHECK(area.lines[0].place == "test.job:3");
    const Symbol& depth = symbol(outline, "depth");
    CHECK(depth.lines.at(0).text == "5 ft");
    CHECK(symbol(outline, "way").options == std::vector<std::string>{"along", "both_ways"});
    CHECK(symbol(outline, "way").unit == "");
    const Symbol& rate = symbol(outline, "rate");
    CHECK(rate.kind == Symbol::Kind::Line);
    CHECK(rate.written == "burn(60 %) / 23 gal"); // its comment is none of it
    CHECK(rate.lines.at(0).text == "1 1/h");      // halfway from 8 to 38 gal/h
    const Symbol& work = symbol(outline, "work");
    CHECK(work.kind == Symbol::Kind::Cost);
    REQUIRE(work.lines.size() == 3);
    CHECK(work.lines[0].text == "$10.00/ac");
    CHECK_FALSE(work.lines[0].amount);
    CHECK(work.lines[2].amount);
    CHECK(work.lines[2].text == "$400");
    const Symbol& eased = symbol(outline, "eased");
    CHECK(eased.kind == Symbol::Kind::Function);
    CHECK(eased.label == "less of it");
    CHECK(eased.unit == "hp");
    CHECK(eased.written == "eased (pull : hp, share : %) : hp");
    CHECK(eased.parameters == std::vector<std::string>{"pull : hp", "share : %"});
    CHECK(eased.sources == std::vector<std::string>{"by hand"});
    const Symbol& burn = symbol(outline, "burn");
    CHECK(burn.kind == Symbol::Kind::Table);
    CHECK(burn.label == "fuel burned");
    CHECK(burn.written == "burn (load : %) : gal/h");
    CHECK(burn.parameters == std::vector<std::string>{"load : %"});
    // $400 of cost and a fifth of the price.
    CHECK(outline.total == "$500.00");
    CHECK(outline.per_unit == "$12.50/ac all in");
    REQUIRE(outline.prices.size() == 1);
    CHECK(outline.prices[0].amount == "$500.00");
    CHECK(outline.prices[0].rate == "$12.50/ac");
    REQUIRE(outline.uses.size() == 1);
    CHECK(outline.uses[0].from == "test.job");
    CHECK(outline.uses[0].written == "rip");
    CHECK(outline.uses[0].file == "rip.rate");
}

TEST_CASE("a formula of two hundred letters is shown, a longer one is not; of many lines twelve") {
    const auto written = [](std::size_t length) {
        std::string sum = "1";
        while (sum.size() + 4 <= length)
            sum += " + 1";
        sum.insert(0, length - sum.size(), '1');
        const auto job = tests::priced_ok("model \"m\"\nx : 1 = " + sum + "\n");
        return symbol(ask(job, OutlineQuestion{}), "x").written.size();
    };
    CHECK(written(200) == 200);
    CHECK(written(201) == 0);
    std::string blocks = "job \"J\"\nmodel \"m\"\n";
    for (int i = 0; i < 13; ++i)
        blocks += "block b" + std::to_string(i) + "\n  set area = " + std::to_string(i) + " ac\n";
    const auto many = tests::priced_ok(
        blocks, {{{"m.rate", "model \"m\"\nlist block\npart \"G\" each block\n"
                             "  given area = 80 ac  \"acres\"\nall : ac = sum(area)\n"}}});
    const Outline outline = ask(many, OutlineQuestion{});
    REQUIRE(symbol(outline, "area").lines.size() == 12);
    CHECK(symbol(outline, "area").lines[0].name == "b0.area");
    CHECK(symbol(outline, "area").lines[11].text == "11 ac");
    CHECK(outline.prices.empty());
    CHECK(outline.total == ""); // no price is not a price of nothing
}

} // namespace outline_test
