#include <doctest/doctest.h>

#include <string>

#include "tests/support/compile_text.h"

namespace lint_test {

using namespace acre;
using namespace acre::lang;

namespace {

std::string warnings(const std::string& text, const tests::Choices& choices = {}) {
    const tests::Compilation c = tests::compile_ok(text, choices);
    std::string out;
    for (const Diagnostic& d : c.diagnostics.all())
        out.append(out.empty() ? "" : "; ").append(name_of(d.code)).append(" ").append(d.title);
    return out;
}

const std::string priced = "model \"m\"\n"
                           "given area = 80 ac\n"
                           "part \"Work\"\n"
                           "  cost work : $/ac = $100/ac over area\n";
const std::string price = "price \"Job\" per ac of area\n  margin 10 %\n";

} // namespace

TEST_CASE(
    "a line that nothing uses is told, unless it has a label or the model is there for others") {
    CHECK(warnings(priced + "  idle : 1 = 3\n" + price) ==
          "L801 `idle` is computed but nothing uses or shows it");
    CHECK(warnings(priced + "  idle : 1 = 3 \"shown\"\n" + price).empty());
    CHECK(warnings(priced + "given idle = 3 ft\n" + price) ==
          "L801 `idle` is a given but nothing uses or shows it");
    CHECK(warnings("model \"m\"\nidle : 1 = 3\n").empty());
}

TEST_CASE("every kind of use counts") {
    for (const char* use :
         {"  shown : 1 = x \"s\"\n", "  require x < 3 \"no\"\n", "  caution when x > 3 \"no\"\n",
          "given y = 1 within 0 .. x \"y\"\n", "given y = 1 swing 0 .. x \"y\"\n",
          "event e = x over 1 costs $3\n", "cost more : $ = $3 over x\n"}) {
        CAPTURE(std::string(use));
        CHECK(warnings(priced + "  x : 1 = 2\n" + use + price).empty());
    }
    CHECK(warnings(priced +
                   "given x = 2 swing 1 .. 3\ngiven y = 2 swing 1 .. 3\ncorrelate x, y 50 %\n" +
                   price)
              .empty());
    CHECK(warnings(priced + "  x : 1 = 2\nuse \"u\" as u with v = x\n" + price,
                   {{{"u.rate", "model \"u\"\ngiven v = 1\n"}}})
              .empty());
}

TEST_CASE("a line of a used model is its own model's business") {
    CHECK(warnings(priced + "use \"u\"\n" + price, {{{"u.rate", "model \"u\"\ngiven v = 1\n"}}})
              .empty());
}

TEST_CASE("a value stands within its swing, a swing within its allowed range and not upside down") {
    const auto given = [](const std::string& text) {
        return warnings("model \"m\"\ngiven d = " + text + "\n");
    };
    CHECK(given("5 ft swing 3 ft .. 7 ft").empty());
    CHECK(given("5 ft swing 1 yd .. 2.5 yd").empty()); // compared in one unit
    CHECK(given("8 ft swing 3 ft .. 7 ft") == "L802 `d` is 8 ft, outside its swing 3 ft .. 7 ft");
    CHECK(given("80 in swing 1 ft .. 2 yd") == "L802 `d` is 80 in, outside its swing 1 ft .. 2 yd");
    CHECK(given("5 ft swing 7 ft .. 3 ft") == "L806 the swing of `d` is empty");
    CHECK(given("5 ft within 4 ft .. 6 ft swing 3 ft .. 7 ft") ==
          "L806 the swing of `d` goes outside its allowed range");
    CHECK(given("8 ft choose 3 ft .. 7 ft") ==
          "L802 `d` is 8 ft, outside its range of choice 3 ft .. 7 ft");
    CHECK(given("5 ft choose 7 ft .. 3 ft") == "L806 the range of choice of `d` is empty");
    CHECK(given("5 ft within 4 ft .. 6 ft choose 3 ft .. 7 ft") ==
          "L806 the range of choice of `d` goes outside its allowed range");
    CHECK(given("-5 ft swing -7 ft .. -3 ft").empty());
    // What is computed is not known here.
    CHECK(warnings("model \"m\"\ngiven e = 9 ft\ngiven d = 5 ft swing e .. 7 ft\n").empty());
}

TEST_CASE("a value that a job sets outside its swing is told where it is set") {
    const tests::Compilation c =
        tests::compile_ok("job \"j\"\nmodel \"m\"\nset d = 9 ft\n",
                          {{{"m.rate", "model \"m\"\ngiven d = 5 ft swing 3 ft .. 7 ft \"d\"\n" +
                                           std::string("given a = 1 ac\ncost w : $/ac = $9/ac "
                                                       "over a\nprice \"Job\" per ac of a\n")}}});
    const Diagnostic* d = c.find(Code::L802);
    REQUIRE(d != nullptr);
    CHECK(c.sources->file(d->primary.span.file).name() == "test.job");
}

} // namespace lint_test
