// The tree that says where a figure came from, in 80 columns.
#include "cli/explain/explain_text.h"

#include <doctest/doctest.h>

#include <limits>
#include <sstream>
#include <string>
#include <vector>

namespace explain_text_test {

using namespace acre;
using engine::ExplainStep;

namespace {

ExplainStep step(const std::string& name, double value, const std::string& text) {
    ExplainStep step;
    step.name = name;
    step.value = value;
    step.text = text;
    step.unit = "$";
    return step;
}

std::vector<std::string> lines(const ExplainStep& step) {
    std::istringstream text(cli::explain_text(step, false));
    std::vector<std::string> all;
    for (std::string line; std::getline(text, line);)
        all.push_back(line);
    return all;
}

using Lines = std::vector<std::string>;

} // namespace

TEST_CASE("a value is told with all its digits where its text has fewer, of the first line alone") {
    CHECK(lines(step("a", 12.345, "$12.35")) == Lines{"a  $12.35", "   exactly 12.345 $"});
    CHECK(lines(step("a", -12.345, "-$12.35")) == Lines{"a  -$12.35", "   exactly -12.345 $"});
    CHECK(lines(step("a", 1234.5, "$1,234.50")) == Lines{"a  $1,234.50"});
    CHECK(lines(step("a", -1234.5, "-$1,234.50")) == Lines{"a  -$1,234.50"});
    ExplainStep plain = step("a", 2.0 / 3, "0.6667");
    plain.unit = "1";
    CHECK(lines(plain) == Lines{"a  0.6667", "   exactly 0.6666666666666666"});
    ExplainStep choice = step("way", 1, "one way"); // the number of an option is nobody's
    choice.choice = "one_way";
    CHECK(lines(choice) == Lines{"way  one way"});
    ExplainStep inner = step("a", 3, "$3");
    inner.inputs = {step("b", 12.345, "$12.35")};
    CHECK(lines(inner) == Lines{"a  $3", "+- b  $12.35"});
}

TEST_CASE("who set a given, for which days, where and why is one line, and why alone another") {
    ExplainStep set = step("fuel", 4, "$4");
    set.set_by = "season";
    CHECK(lines(set) == Lines{"fuel  $4", "   set by the season"});
    set.within = "2027-11-01 .. 2028-04-30";
    set.place = "a.season:3";
    set.because = "as billed";
    CHECK(lines(set) == Lines{"fuel  $4",
                              "   set by the season for jobs of 2027-11-01 .. 2028-04-30, "
                              "a.season:3, because",
                              "   \"as billed\""});
    ExplainStep why = step("fuel", 4, "$4");
    why.because = "as billed";
    why.may_be_negative = true;
    why.seen = true;
    CHECK(lines(why) ==
          Lines{"fuel  $4", "   because \"as billed\"", "   may be negative", "   shown above"});
}

TEST_CASE("what stands beside a name stands there only where 80 columns hold it") {
    const std::string name(60, 'n');
    const auto with = [&](std::size_t label, std::size_t place) {
        ExplainStep one = step(name, 4, "$4"); // 60, two spaces and two are 64
        one.label = std::string(label, 'l');
        one.place = std::string(place, 'p');
        return lines(one);
    };
    const std::string head = name + "  $4";
    CHECK(with(14, 0) == Lines{head + "  " + std::string(14, 'l')});
    CHECK(with(15, 0) == Lines{head});
    CHECK(with(0, 14) == Lines{head + "  " + std::string(14, 'p')});
    CHECK(with(0, 15) == Lines{head});
    CHECK(with(0, 3) == Lines{head + std::string(13, ' ') + "ppp"});
    CHECK(with(5, 7) == Lines{head + "  lllll  ppppppp"});
    CHECK(with(5, 8) == Lines{head + "  lllll"});
    ExplainStep wide = step(std::string(76, 'n'), 4, "$4");
    CHECK(lines(wide) == Lines{wide.name + "  $4"});
    wide.name += "n";
    wide.label = "a label";
    CHECK(lines(wide) == Lines{wide.name + " $4", "a label"});
}

TEST_CASE("formulas fold behind their mark, and the guide goes on beside them") {
    ExplainStep sum = step("sum", 4, "$4");
    for (int i = 0; i < 20; ++i)
        sum.written += (i == 0 ? "" : " + ") + std::string("value");
    sum.with_numbers = sum.written; // says nothing new
    sum.inputs = {step("value", 4, "$4"), step("other", 4, "$4")};
    const Lines all = lines(sum);
    REQUIRE(all.size() == 6);
    CHECK(all[1].starts_with("|  = value + "));
    CHECK(all[1].size() == 5 + 9 * 8 - 1); // a tenth value would end in column 82
    CHECK(all[2].starts_with("|    value + "));
    CHECK(all[3] == "|    value + value");
    CHECK(Lines(all.end() - 2, all.end()) == Lines{"+- value  $4", "+- other  $4"});
}

TEST_CASE("past the fourteenth level its number stands in place of the upper guides") {
    ExplainStep tree = step("a", 4, "$4");
    for (int i = 0; i < 16; ++i) {
        ExplainStep above = step("a", 4, "$4");
        above.inputs.push_back(std::move(tree));
        tree = std::move(above);
    }
    const Lines all = lines(tree);
    REQUIRE(all.size() == 17);
    CHECK(all[14] == std::string(39, ' ') + "+- a  $4"); // 14 times three columns
    CHECK(all[15] == "15: " + std::string(35, ' ') + "+- a  $4");
    CHECK(all[16] == "16: " + std::string(35, ' ') + "+- a  $4");
}

TEST_CASE("what --set changes of a line is told with the difference, if there is one") {
    engine::ChangedFigure money;
    money.unit = "$";
    money.before = 10;
    money.after = 12.5;
    money.before_text = "$10.00";
    money.after_text = "$12.50";
    CHECK(cli::changed_text(money, false) == "in the files $10.00, with --set $12.50: +$2.50\n\n");
    money.after = std::numeric_limits<double>::quiet_NaN();
    money.after_text = "no answer";
    CHECK(cli::changed_text(money, false) == "in the files $10.00, with --set no answer\n\n");
    engine::ChangedFigure depth;
    depth.unit = "ft";
    depth.before = 5;
    depth.after = 4;
    depth.before_text = "5 ft";
    depth.after_text = "4 ft";
    CHECK(cli::changed_text(depth, false) == "in the files 5 ft, with --set 4 ft: -1 ft\n\n");
}

} // namespace explain_text_test
