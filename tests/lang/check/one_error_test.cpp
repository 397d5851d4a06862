// One mistake is one error: what rests on it says nothing more.
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/compile_text.h"

namespace one_error_test {

using namespace acre;
using namespace acre::lang;

namespace {

std::string errors(const std::string& text, const tests::Files& files = {}) {
    const tests::Compilation c = tests::compile_text(text, {files});
    std::string out;
    for (const Diagnostic& d : c.diagnostics.all())
        if (d.severity() == Severity::Error)
            out.append(out.empty() ? "" : "; ").append(name_of(d.code)).append(" ").append(d.title);
    return out;
}

std::string of_model(const std::string& lines) {
    return errors("model \"m\"\n" + lines);
}

const std::string no_acer = "N203 no unit named `acer`";

} // namespace

TEST_CASE("a unit that nobody knows is told where it stands, and not where it is used") {
    for (const char* lines :
         {"given a : acer = 3\ncount a\n", "given a : acer = 3\nb : ft = a * 2 ft\n",
          "given soil : acer\nx : 1 = when soil is fine then 1 otherwise 2\n",
          "define f (a : ft) : acer = a\nx : 1 = when f(1 ft) is fine then 1 otherwise 2\n",
          "define f (a : acer) : 1 = when a is fine then 1 otherwise 2\n",
          "define f (a : ft) : 1 = when b is fine then 1 otherwise 2\n  b : acer = a\n",
          "given s : acer\ngiven y = yes | no\n"
          "x : 1 = when (when y is yes then s otherwise 3) is fine then 1 otherwise 2\n",
          "given s : acer\ngiven y = yes | no\n"
          "x : 1 = when (when y is yes then 3 otherwise s) is fine then 1 otherwise 2\n",
          "given area = 8 ac\ncost c : $/ac = $3/ac over area\nprice \"P\" per acer of area\n"
          "  round up to $1/ac\n"}) {
        CAPTURE(std::string(lines));
        CHECK(of_model(lines) == no_acer);
    }
}

TEST_CASE("a line in the wrong unit is told, and not the call in a cost that reads it") {
    const std::string head = "given hours = 7 h\ndefine f (t : h) : h = t\n"
                             "cost first : $/h = $3/h over hours\n";
    const std::string called = "cost c : $/h = $40/h over ";
    CHECK(of_model(head + "way : h = 60 ac / 7 ft\ntime : h = way / (2 mi/h)\n" + called +
                   "f(way / (2 mi/h))\n") == "U302 `way` is declared h but its formula gives ft");
    // A formula may read it twice, with others between.
    CHECK(of_model("given speed = 1.6\ngiven n : 1 = 2\n"
                   "time : h = 3 mi / speed * n + 2 mi / speed\n") ==
          "U304 `speed` is given without a unit but `time` needs it in mi/h");
}

TEST_CASE("what is not of the unit that it is for is told once") {
    CHECK(of_model("given area = 8 ac\ngiven wage = $3/h\ncost c : $/ac = $3/ac over area\n"
                   "price \"P\" lump\n  overhead wage\n") ==
          "U311 the step `overhead` needs a share, for example 15 %");
    const std::string f = "define f (a : ft) : ft = a\n  example f(1 ft) = ";
    CHECK(of_model(f + "1 h\n") == "U304 the example is in ft but is given h");
    CHECK(of_model(f + "1 ft within 1 h\n") == "U304 the example is in ft but is given h");
    CHECK(of_model(f + "12 in within 0.1 in\n").empty());
    // Of other days as well.
    CHECK(errors("job \"j\"\nmodel \"m\"\nseason \"2028\"\ndate 2028-03-01\n",
                 {{"m.rate", "model \"m\"\ngiven wage = $3/h  \"wage\"\n"},
                  {"2028.season", "season \"2028\"\nset wage = 3 ft within 2028-08-01 .. "
                                  "2028-10-31\nset wage = $34/h\n"}}) ==
          "U304 `wage` is declared $/h but is given ft");
}

TEST_CASE("a number is no choice, however it is written") {
    const std::string text = "U309 `is` needs a choice, and `";
    CHECK(of_model("x : 1 = when 3 ft is fine then 1 otherwise 2\n") == text + "3 ft` is not one");
    CHECK(of_model("x : 1 = when (2 + 3) is fine then 1 otherwise 2\n") ==
          text + "(2 + 3)` is not one");
    CHECK(of_model("a : 1 = 2\nx : 1 = when a is fine then 1 otherwise 2\n") ==
          text + "a` is not one");
}

TEST_CASE("a unit that cannot be made is told at its definition alone") {
    CHECK(of_model("unit big = 3 mi^12\ngiven a = 1 big\nb : big = a\n") ==
          "U312 the unit `mi^12` is too large"); // 63,360^12 has 192 bits
    CHECK(of_model("unit huge = 1e30 mi^3\ngiven a = 1 huge\nunit two = 2 huge\nb : two = a\n") ==
          "U312 the unit `huge` is too large"); // 100 bits and 48
    CHECK(of_model("unit none = 0 ft\ngiven a = 1 none\n") == "S106 a unit cannot be 0 of another");
}

TEST_CASE("`before` adds up numbers of the entries") {
    const std::string head = "list block\npart \"P\" each block\n  given soil = fine | coarse\n"
                             "  cost c : $ = $3 over 2\n";
    CHECK(of_model(head + "  x : 1 = before(soil)\n") ==
          "U309 `before` adds up numbers, and `soil` is a choice");
    CHECK(of_model(head + "  x : $ = before(c.amount)\n").empty());
    const tests::Compilation c =
        tests::compile_text("model \"m\"\n" + head + "  x : 1 = before(c.quantity)\n");
    REQUIRE(c.diagnostics.error_count() == 1);
    CHECK(c.diagnostics.all()[0].helps.at(0).text ==
          "make  c.quantity  a line of the `each` part, and name that line here");
    CHECK(of_model("choice soil = fine | coarse\nlist layer = top | pan\n"
                   "define f (d : ft) each layer (thick : ft, kind : soil) : ft = sum(own) + d\n"
                   "  own : ft = when before(kind) > 1 then thick otherwise 2 ft\n"
                   "  example f(2 ft, each layer (1 ft, fine)) = 4 ft\n") ==
          "U309 `before` adds up numbers, and `kind` is a choice");
}

TEST_CASE("a function over a list sees the rows that it is called with") {
    const std::string above =
        "list layer = top | pan\n"
        "define above (d : ft) each layer (thick : ft) : ft = sum(thick) + d\n";
    CHECK(of_model(above +
                   "define other (d : ft) each layer (deep : ft) : ft = above(d, each layer)"
                   " + sum(deep)\n") ==
          "N219 `above` takes `thick` of each layer, and there is no such line here");
    CHECK(of_model(above + "  example above(2 ft, each layer) = 1 ft\n") ==
          "N219 `layer` has no entries to be seen here");
    CHECK(of_model(above + "x : ft = above(1 ft, each layer)\n") ==
          "N219 `above` takes `thick` of each layer, and there is no such line here");
    const tests::Compilation c = tests::compile_text("model \"m\"\n" + above + "x : ft = above\n");
    REQUIRE(c.find(Code::N211) != nullptr);
    CHECK(c.find(Code::N211)->helps.at(0).text ==
          "give it its values in parentheses: write  above(d, each layer)");
}

TEST_CASE("how many machines there are is a plain number") {
    const auto said = [](const std::string& many) {
        return errors("job \"j\"\nmodel \"m\"\n",
                      {{"m.rate", "model \"m\"\nuse \"u\"\ngiven apart = 3 ft\ngiven n = 3\n"
                                  "given soil = fine | coarse\ngiven bad : acer\n"
                                  "given hours = 3 h\ncount hours of " +
                                      many + " u\n"},
                       {"u.rate", "model \"u\"\ngiven y = $3/yr\ngiven h = 300 h/yr\n"
                                  "fleet costs y over h\n"}});
    };
    const std::string lead = "; U304 how many machines there are is a plain number, and `";
    CHECK(said("n") == no_acer);
    CHECK(said("apart") == no_acer + lead + "apart` is in ft");
    CHECK(said("soil") == no_acer + lead + "soil` is a choice");
    CHECK(said("bad") == no_acer);
}

TEST_CASE("an hour of four digits is no clock time") {
    const auto helps = [](const std::string& time) {
        const Diagnostic d =
            tests::expect_diag("model \"m\"\ngiven a = " + time + "\n", Code::N203);
        std::string out;
        for (const Help& help : d.helps)
            out += help.text + ";";
        return out;
    };
    CHECK(helps("7 pm") == "write  19:00;");
    CHECK(helps("12 am") == "write  0:00;");
    CHECK(helps("1007 pm").find("19:00") == std::string::npos);
    CHECK(helps("13 pm").find("write  noun pm") != std::string::npos);
}

TEST_CASE("a name of a used model that could not be read is not unknown beside it") {
    const tests::Files files{
        {"m.rate", "model \"m\"\nuse \"u\" as v\ny : ft = v.x\nz : ft = v.w\n"},
        {"u.rate", "model \"u\"\ngiven x = = 3 ft\n"}};
    CHECK(errors("job \"j\"\nmodel \"m\"\n", files) ==
          "N201 `v` has no line or given named `w`; S103 a value is missing after `=`");
}

TEST_CASE("an entry of a list that has none is not called a missing one") {
    const std::string model = "model \"m\"\nlist block\nlist layer\npart \"B\" each block\n"
                              "  given depth = 1 ft  \"depth\"\npart \"L\" each layer\n"
                              "  given thick = 1 ft  \"thick\"\n";
    const std::string job = "job \"j\"\nmodel \"m\"\nset north.depth = 3 ft\n";
    CHECK(errors(job + "layer top \"t\"\n", {{"m.rate", model}}) ==
          "I601 no given named `north.depth`");
    CHECK(errors(job + "block south \"s\"\n", {{"m.rate", model}}) ==
          "I607 the job has no block `north`");
}

} // namespace one_error_test
