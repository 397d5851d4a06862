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
    CHECK(given("5 ft swing 5 ft .. 5 ft") == "L806 the swing of `d` is empty");
    CHECK(given("3 ft swing 3 ft .. 7 ft").empty()); // both ends belong to it
    CHECK(given("7 ft swing 3 ft .. 7 ft").empty());
    // What is computed is not known here.
    CHECK(warnings("model \"m\"\ngiven e = 9 ft\ngiven d = 5 ft swing e .. 7 ft\n").empty());
}

TEST_CASE("shares of the value in force enclose all of it") {
    const auto swing = [](const std::string& bounds) {
        return warnings("model \"m\"\ngiven a = 5 ft\ngiven b : ft = a swing " + bounds +
                        " of it\n");
    };
    CHECK(swing("80 % .. 100 %").empty());
    CHECK(swing("100 % .. 120 %").empty());
    CHECK(swing("80 % .. 99 %") == "L802 `b` is 100 % of it, outside its swing 80 % .. 99 % of it");
    CHECK(swing("101 % .. 120 %") ==
          "L802 `b` is 100 % of it, outside its swing 101 % .. 120 % of it");
}

TEST_CASE("a case of a `when` that an earlier one takes is told, with how to mend it") {
    struct Row {
        const char *first, *second, *help; // no help: both may be taken
    };
    for (const Row& row : {
             Row{"hours > 5 h", "hours > 5 h", "ask for another case here, or take it out"},
             Row{"hours > 5 h", "hours > 6 h", "put it before  hours > 5 h"},
             Row{"hours > 5 h", "hours > 4 h", nullptr},
             Row{"hours < 5 h", "hours < 4 h", "put it before  hours < 5 h"},
             Row{"hours < 5 h", "hours < 6 h", nullptr},
             Row{"hours >= 5 h", "hours > 5 h", "put it before  hours >= 5 h"},
             Row{"hours > 5 h", "hours >= 5 h", nullptr}, // at 5 h
             Row{"hours <= 5 h", "hours < 5 h", "put it before  hours <= 5 h"},
             Row{"hours < 5 h", "hours <= 5 h", nullptr},
             Row{"hours <= 5 h", "hours  <= 5 h", "put it before  hours <= 5 h"},
             Row{"hours > 5 h", "hours > 400 min", "put it before  hours > 5 h"}, // 6 h 40 min
             Row{"hours > 5 h", "hours > 200 min", nullptr},
             Row{"hours > 5 h", "hours < 4 h", nullptr}, Row{"hours > 5 h", "other > 6 h", nullptr},
             Row{"hours > 5 h", "hours > other", nullptr},
             Row{"hours == 5 h", "hours == 6 h", nullptr},
             Row{"5 h < hours", "6 h < hours", nullptr}, // not looked at
         }) {
        CAPTURE(std::string(row.first));
        CAPTURE(std::string(row.second));
        const tests::Compilation c = tests::compile_ok(
            std::string("model \"m\"\ngiven hours = 3 h\ngiven other = 4 h\nx : 1 = when ") +
            row.first + " then 1 when " + row.second + " then 2 otherwise 3\n");
        const Diagnostic* d = c.find(Code::L826);
        REQUIRE((d != nullptr) == (row.help != nullptr));
        if (row.help == nullptr)
            continue;
        CHECK(c.sources->text(d->primary.span) == row.second);
        REQUIRE(d->others.size() == 1);
        CHECK(c.sources->text(d->others[0].span) == row.first);
        REQUIRE(d->helps.size() == 1);
        CHECK(d->helps[0].text == row.help);
    }
    // The third is looked at beside both before it; a `when` inside another is a chain of its own.
    CHECK(warnings("model \"m\"\ngiven a = 3 h\nx : 1 = when a > 5 h then 1 when a > 4 h then 2 "
                   "when a > 4.5 h then 3 otherwise 4\n") == "L826 this case is never reached");
    CHECK(warnings("model \"m\"\ngiven a = 3 h\nx : 1 = when a > 5 h then (when a > 6 h then 1 "
                   "otherwise 2) otherwise 4\n")
              .empty());
}

TEST_CASE("thousands of dollars for a gallon were meant as dollars and cents") {
    const auto help = [](const std::string& price) {
        const tests::Compilation c = tests::compile_ok("model \"m\"\ngiven a = " + price + "\n");
        const Diagnostic* d = c.find(Code::L822);
        return d == nullptr ? std::string() : d->helps.at(0).text;
    };
    const std::string lead = "for a decimal, write a point:  ";
    CHECK(help("$4,350/gal") == lead + "$4.35/gal");
    CHECK(help("$4,355/gal") == lead + "$4.355/gal");
    CHECK(help("$12,500/ft") == lead + "$12.50/ft");
    CHECK(help("$1,000/lb") == lead + "$1.00/lb"); // from a thousand on
    CHECK(help("$5,000/h") == lead + "$5.00/h");   // of an hour five
    CHECK(help("$4,999/h").empty());
    CHECK(help("$4350/gal").empty()); // no comma
    CHECK(help("$4,350/ac").empty()); // land may cost it
    CHECK(help("$4,350").empty());
    CHECK(help("4,350 gal").empty());
    CHECK(help("$1,234,567/gal").empty());
    // Bounds are wide on purpose.
    CHECK(warnings("model \"m\"\ngiven a = $4/gal within $1/gal .. $2,000/gal\n"
                   "define f (b : $/gal) : 1 = b / $1/gal\n  tested b $1,500/gal .. $2,000/gal\n"
                   "  limit b -$1,000/gal .. $2,000/gal\n")
              .empty());
}

TEST_CASE("two signs in a row read as plus or minus, and are not") {
    const auto found = [](const std::string& formula) {
        return warnings("model \"m\"\na : ft = " + formula + "\n");
    };
    CHECK(found("6 ft +-1 ft") == "L842 `+-` takes away what follows");
    CHECK(found("6 ft --1 ft") == "L842 `--` adds what follows");
    CHECK(found("6 ft - -1 ft").empty());
    CHECK(found("6 ft + 1 ft").empty());
    CHECK(found("6 ft * -1").empty());
}

TEST_CASE("a bare number that is named like a share is told, and one that is a factor is not") {
    const auto found = [](const std::string& given, const std::string& use = "") {
        const std::string text = warnings("model \"m\"\ngiven " + given + "\n" + use);
        return text.starts_with("L827 ");
    };
    for (const char* share :
         {"tax = 8", "Tax = 8", "payroll_tax = 8", "tax_rate = 8", "share_lost = 8",
          "percent_of_clay = 8", "markup = 2", "b = 8  \"payroll burden\"",
          "b = 8  \"overhead, of all\"", "b = 8  \"share that is lost\"", "b = 8  \"spilled, %\"",
          "b = 8  \"spilled %, dry\"", "b = 8  \"% spilled\"", "b = 8  \"tax rate of the county\""})
        CHECK_MESSAGE(found(share), std::string(share));
    for (const char* other :
         {"tax = 0", "tax = 1", "tax : 1 = 8", "swell = 1.25", "rate = 8", "overhead_lines = 8",
          "rows_at_the_margin = 8", "tax = 8 $", "b = 8  \"rows at the margin\"",
          "b = 8  \"trips, 100 % loaded\"", "tax = 8  \"times as much\"", "tax_factor = 8",
          "b = 8  \"a %d of it\"", "b = 8  \"taxi\"", "of_share = 8"})
        CHECK_MESSAGE(!found(other), std::string(other));
    // What the formulas do with it tells as well.
    CHECK(found("lost = 0.1", "x : 1 = 1 - lost\n"));
    CHECK_FALSE(found("lost = 0.1", "x : 1 = 2 - lost\n"));
    CHECK_FALSE(found("lost = 0.1", "x : 1 = lost - 1\n"));
    CHECK_FALSE(found("swell = 1.25", "x : 1 = 2 + swell\n"));
    CHECK(found("swell = 1.25", "x : 1 = 1 + swell\n"));
    CHECK(found("swell = 1.25", "x : 1 = swell + 1\n"));
    CHECK_FALSE(found("tax = 8", "x : 1 = 1 + tax / 100\n"));
    CHECK(found("tax = 8", "x : 1 = 1 + tax / 10\n"));
}

TEST_CASE("money beside costs that nothing asks for is told, with the cost that it would be") {
    const auto help = [](const std::string& line) {
        const tests::Compilation c = tests::compile_ok(priced + line + price);
        const Diagnostic* d = c.find(Code::L828);
        return d == nullptr ? std::string() : d->helps.at(0).text;
    };
    const std::string lead = "to charge it, make it a cost: write  cost x : $ = ";
    CHECK(help("  x : $ = area * $3/ac\n") == lead + "area * $3/ac over 1");
    CHECK(help("  given x = $300\n") ==
          "to charge it, add a cost, as in  cost x_paid : $ = x over 1");
    // Not quoted: with a comment in it, or longer than seventy letters.
    CHECK(help("  x : $ = area *  # all of it\n    $3/ac\n") == lead + "… over 1");
    CHECK(help("  x : $ = (area * $3/ac + area * $3/ac + area * $3/ac + area * $3/ac + area * "
               "$3/ac)\n") == lead + "… over 1");
    for (const char* fine :
         {"  x : $ = area * $3/ac because \"to look at\"\n", "  x : $ = work.amount * 2\n",
          "  y : $ = work.amount * 2\n  x : $ = y - $3\n", "  x : $/ac = $3/ac\n",
          "  x : $ = $3\n  require x < $4 \"no\"\n"})
        CHECK_MESSAGE(help(fine).empty(), std::string(fine));
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
