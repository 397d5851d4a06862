#include "engine/questions/explain.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace explain_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

const std::string model =
    "model \"Ripping\"\n"                                                     // 1
    "choice pattern = one_way | tree_rows\n"                                  // 2
    "given area = 80 ac \"net acres\" because \"map\"\n"                      // 3
    "given method : pattern = one_way\n"                                      // 4
    "given spacing = 5.5 ft\n"                                                // 5
    "given row : ft = spacing * 4\n"                                          // 6
    "travel : mi = when method is tree_rows then area / row   # with trees\n" // 7
    "  otherwise area / spacing  \"way\"\n"                                   // 8
    "given speed = 2 mi/h\n"                                                  // 9
    "define run_time (way : mi, pace : mi/h) : h = way / eased(pace)\n"       // 10
    "  source \"a handbook, clause 5\"\n"                                     // 11
    "  known read\n"                                                          // 12
    "define eased (pace : mi/h) : mi/h = pace\n"                              // 13
    "  source \"a lecture\"\n"                                                // 14
    "  known recalled\n"                                                      // 15
    "hours : h = run_time(travel, speed)\n"                                   // 16
    "slack : h = hours - 70 h\n"                                              // 17
    "part \"Work\"\n"                                                         // 18
    "  cost crawler : $/h = $150/h + slack / 1 h * $0/h over hours\n"         // 19
    "price \"Ripping\" per ac of area\n"                                      // 20
    "  overhead 10 %\n"                                                       // 21
    "  margin 15 %\n";                                                        // 22

const std::string job =
    "job \"Block 4\"\nmodel \"ripping\"\nset area = 160 ac because \"walked\"\n";

ExplainStep explain_line(const std::string& text, const char* line, const Choices& choices = {},
                         ExplainLimits limits = {}) {
    const Priced p = priced_ok(text, choices);
    return explain(p, p.line(line), limits);
}
const ExplainStep& input(const ExplainStep& step, const std::string& name) {
    for (const ExplainStep& i : step.inputs)
        if (i.name == name)
            return i;
    FAIL("no input " << name << " of " << step.name);
    return step;
}
std::vector<std::string> names(const ExplainStep& step) {
    std::vector<std::string> out;
    for (const ExplainStep& i : step.inputs)
        out.push_back(i.name);
    return out;
}

} // namespace

TEST_CASE("a line shows its formula as written and the same with numbers") {
    const ExplainStep step = explain_line(model, "travel");
    CHECK(step.name == "travel");
    CHECK(step.label == "way");
    CHECK(step.unit == "mi");
    CHECK(step.value == doctest::Approx(120));
    CHECK(step.written == "when method is tree_rows then area / row otherwise area / spacing");
    CHECK(step.with_numbers ==
          "when one_way is tree_rows then 80 ac / 22 ft otherwise 80 ac / 5.5 ft");
    CHECK(step.place == "test.rate:7");
    CHECK(step.set_by.empty());
}

TEST_CASE("only the branch taken is followed") {
    CHECK(names(explain_line(model, "travel")) ==
          std::vector<std::string>{"method", "area", "spacing"});
    Choices rows;
    rows.sets = {{"method", "tree_rows"}};
    const ExplainStep step = explain_line(model, "travel", rows);
    CHECK(names(step) == std::vector<std::string>{"method", "area", "row"});
    CHECK(input(step, "method").choice == "tree_rows");
    CHECK(input(step, "method").set_by == "command line");
    CHECK(names(input(step, "row")) == std::vector<std::string>{"spacing"});
}

TEST_CASE("a given says who set it, where and because of what") {
    const ExplainStep own = explain_line(model, "area");
    CHECK(own.set_by == "model");
    CHECK(own.place == "test.rate:3");
    CHECK(own.because == "map");
    CHECK(own.written.empty());
    CHECK(own.inputs.empty());

    const ExplainStep set = explain_line(job, "area", {{{"ripping.rate", model}}, {}, {}, {}});
    CHECK(set.value == 160);
    CHECK(set.set_by == "job");
    CHECK(set.place == "test.job:3");
    CHECK(set.because == "walked");
}

TEST_CASE("a given that is computed shows how") {
    const ExplainStep row = explain_line(model, "row");
    CHECK(row.set_by == "model");
    CHECK(row.written == "spacing * 4");
    CHECK(row.with_numbers == "5.5 ft * 4");
}

TEST_CASE("the sources of every function behind a line are named, with how far they are known") {
    const ExplainStep step = explain_line(model, "hours");
    CHECK(step.sources == std::vector<std::string>{"run_time: a handbook, clause 5 (read)",
                                                   "eased: a lecture (recalled)"});
    CHECK(step.written == "run_time(travel, speed)");
    CHECK(step.with_numbers == "run_time(120 mi, 2 mi/h)");
}

TEST_CASE("lines that costs and prices made read as formulas") {
    CHECK(explain_line(model, "crawler.amount").written == "crawler × crawler.quantity");
    CHECK(explain_line(model, "crawler.amount").with_numbers == "$150.00/h × 60 h");
    CHECK(explain_line(model, "crawler.quantity").written == "hours");
    const ExplainStep overhead = explain_line(model, "ripping.overhead");
    CHECK(overhead.written.find("ripping.cost") != std::string::npos);
    CHECK(overhead.written.find("10 %") != std::string::npos);
    const ExplainStep margin = explain_line(model, "ripping.margin");
    CHECK(margin.written == "ripping.overhead / (1 - 15 %)");
    CHECK(explain_line(model, "cost.total").written == "crawler.amount");
    CHECK(explain_line(model, "ripping.rate").written == "ripping.amount / ripping.quantity");
}

TEST_CASE("a negative number in a formula stands in brackets") {
    CHECK(explain_line(model, "crawler").with_numbers == "$150/h + (-10 h) / 1 h * $0/h");
}

TEST_CASE("from the price down, every given is reached, and what is shared is shown in full once") {
    const ExplainStep step = explain_line(model, "price.total");
    int area_in_full = 0;
    int hours_in_full = 0;
    int hours_again = 0;
    std::vector<std::string> givens;
    const auto walk = [&](const ExplainStep& s, const auto& self) -> void {
        if (s.name == "area")
            ++area_in_full;
        if (s.name == "hours")
            ++(s.seen ? hours_again : hours_in_full);
        if (s.seen)
            CHECK(s.inputs.empty());
        if (!s.set_by.empty())
            givens.push_back(s.name);
        for (const ExplainStep& i : s.inputs)
            self(i, self);
    };
    walk(step, walk);
    CHECK(area_in_full > 0);
    CHECK(hours_in_full == 1);
    CHECK(hours_again >= 1);
    for (const char* given : {"area", "method", "spacing", "speed"})
        CHECK(std::find(givens.begin(), givens.end(), given) != givens.end());
}

TEST_CASE("a depth limits the tree") {
    CHECK(explain_line(model, "hours", {}, {0}).inputs.empty());
    const ExplainStep step = explain_line(model, "hours", {}, {1});
    REQUIRE(step.inputs.size() == 2);
    CHECK(input(step, "travel").inputs.empty());
    CHECK(input(step, "travel").value == doctest::Approx(120));
}

TEST_CASE("a chain of ten thousand lines is explained without a deep stack") {
    std::string text = "model \"m\"\ngiven a = 1 ft\nl0 : ft = a\n";
    for (int i = 1; i < 10'000; ++i)
        text += "l" + std::to_string(i) + " : ft = l" + std::to_string(i - 1) + " + 1 ft\n";
    const ExplainStep step = explain_line(text, "l9999");
    CHECK(step.value == 10'000);
    CHECK(step.inputs.size() == 1);
}

TEST_CASE("asked by name: no name is the whole price, and a near name is told") {
    Choices choices;
    choices.files = {{"ripping.rate", model}};
    const Priced p = priced_ok(job, choices);
    const lang::Outcome<ExplainStep> whole = ask(p, ExplainQuestion{});
    REQUIRE(whole.value.has_value());
    CHECK(whole->name == "price.total");
    const lang::Outcome<ExplainStep> shallow = ask(p, ExplainQuestion{"hours", 1});
    REQUIRE(shallow.value.has_value());
    CHECK(shallow->text == "120 h"); // 160 ac over 5.5 ft is 240 mi, at 2 mi/h
    CHECK(input(*shallow, "travel").inputs.empty());
    CHECK(ask(p, ExplainQuestion{"method"})->text == "one way");
    const lang::Outcome<ExplainStep> none = ask(p, ExplainQuestion{"travl"});
    CHECK(!none.value.has_value());
    REQUIRE(none.said.diagnostics.error_count() == 1);
    CHECK(none.said.diagnostics.all()[0].code == lang::Code::Q001);
    CHECK(none.said.diagnostics.all()[0].title.starts_with(
        "no line named `travl`; did you mean `travel`"));
}

TEST_CASE("what stops a line is judged where it is asked for") {
    const Priced p = priced_ok("model \"M\"\ngiven a = 0 ac\nb : 1 = 3 ac / a\nc : 1 = 2\n");
    CHECK(!ask(p, ExplainQuestion{"b"}).value.has_value());
    CHECK(ask(p, ExplainQuestion{"b"}).said.diagnostics.all()[0].code == lang::Code::E501);
    CHECK(ask(p, ExplainQuestion{"c"}).value.has_value());
    const lang::Outcome<ExplainStep> price = ask(p, ExplainQuestion{});
    CHECK(price.said.diagnostics.all()[0].title == "the model has no price");
}

} // namespace explain_test
