#include "engine/faults/price_steps.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace price_steps_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;
using LangCode = acre::lang::Code;

namespace {

// 40 ac at $50/ac: the cost is $2,000.
std::string priced_with(const std::string& steps, const std::string& given = {}) {
    return "model \"m\"\ngiven area = 40 ac  \"area\"\n" + given +
           "cost crawler : $/ac = $50/ac over area\n"
           "price \"Ripping\" per ac of area\n" +
           steps;
}

std::vector<lang::Diagnostic> said_of(const std::string& text) {
    const Priced p = priced_ok(text);
    lang::Diagnostics said;
    report_price_steps(p, said);
    return said.all();
}

std::string codes(const std::string& steps, const std::string& given = {}) {
    std::string list;
    for (const lang::Diagnostic& d : said_of(priced_with(steps, given)))
        list += (list.empty() ? "" : " ") + std::string(lang::name_of(d.code));
    return list;
}

} // namespace

TEST_CASE("steps as people write them are not warned of") {
    for (const char* steps :
         {"",
          "  overhead 9 %\n  reserve 5 %\n  margin 15 %\n  at least $6,500\n"
          "  round up to $1/ac\n",
          "  overhead 60 %\n  markup 100 %\n", "  margin 60 %\n", "  overhead 0 %\n",
          "  at least $100/ac\n", "  at least $90/ac\n  at least $5,000\n", "  round to $25\n",
          "  at least $0\n"})
        CHECK_MESSAGE(codes(steps).empty(), std::string(steps), codes(steps));
}

TEST_CASE("each step that does more than anyone means has its warning") {
    struct Row {
        const char *steps, *codes;
    };
    for (const Row& row : std::initializer_list<Row>{
             {"  overhead 61 %\n", "L815"},
             {"  reserve -3 %\n", "L815"},
             {"  markup 101 %\n", "L815"},
             {"  margin 61 %\n", "L815"},
             {"  margin -15 %\n", "L815"},
             {"  at least -$100\n", "L816"},
             {"  round up to -$5\n", "L816"},
             {"  round to -$5/ac\n", "L816"},
             {"  margin 15 %\n  margin 15 %\n", "L817"},
             {"  round to $5/ac\n  round to $5/ac\n", "L817"},
             {"  round up to $100\n  margin 15 %\n", "L818"},
             {"  at least $2,500\n  overhead 8 %\n", "L818"},
             {"  at least $101/ac\n", "L819"},
             {"  round up to $501\n", "L819"},
             {"  round up to $12.51/ac\n", "L819"},
             {"  round up to $1\n", "L819"},
         })
        CHECK_MESSAGE(codes(row.steps) == std::string(row.codes), std::string(row.steps),
                      codes(row.steps));
}

TEST_CASE("a warning says what the step came to, and what it adds") {
    const auto said =
        said_of(priced_with("  markup profit\n", "given profit = 1,200 %  \"profit\"\n"));
    REQUIRE(said.size() == 1);
    CHECK(said[0].title == "`markup profit`, 1,200 %, is past 100 %, more than is usual");
    REQUIRE(said[0].notes.size() == 1);
    CHECK(said[0].notes[0] == "this step makes $26,000.00 of $2,000.00: $24,000.00 more");
}

TEST_CASE("a whole rounding that was meant per unit has its edit") {
    const std::string text = priced_with("  round up to $0.50\n");
    const auto said = said_of(text);
    REQUIRE(said.size() == 1);
    REQUIRE(said[0].helps[0].edit);
    CHECK(said[0].helps[0].edit->replacement == "$0.50/ac");
}

TEST_CASE("the order of steps is judged while values are missing") {
    const std::string text = "model \"m\"\ngiven area : ac  \"area\"\n"
                             "cost crawler : $/ac = $50/ac over area\n"
                             "price \"Ripping\" per ac of area\n"
                             "  round up to $100\n  margin 15 %\n  margin 15 %\n";
    const Choices choices;
    MemoryLoader loader(choices.files);
    const auto job = make_job(request_of(text, choices), loader, Aim::Look);
    REQUIRE(job.value.has_value());
    lang::Diagnostics said;
    report_price_steps(**job, said);
    REQUIRE(said.all().size() == 2);
    CHECK(said.all()[0].code == LangCode::L818);
    CHECK(said.all()[1].code == LangCode::L817);
    CHECK(said.all()[0].notes.empty()); // no figures yet
    CHECK(said.all()[1].notes.empty());
    // Nor where the sum before a step is known and its own value is not.
    const auto unset = make_job(request_of("model \"m\"\ngiven area = 4 ac\ngiven lowest : $\n"
                                           "cost crawler : $/ac = $50/ac over area\n"
                                           "price \"Ripping\" per ac of area\n"
                                           "  at least $10\n  at least lowest\n  margin 15 %\n",
                                           choices),
                                loader, Aim::Look);
    REQUIRE(unset.value.has_value());
    said = {};
    report_price_steps(**unset, said);
    REQUIRE(said.all().size() == 3);
    CHECK(said.all()[0].notes.size() == 1); // of the first
    CHECK(said.all()[1].code == LangCode::L817);
    CHECK(said.all()[1].notes.empty());
    CHECK(said.all()[2].code == LangCode::L818);
    CHECK(said.all()[2].notes.empty());
}

} // namespace price_steps_test
