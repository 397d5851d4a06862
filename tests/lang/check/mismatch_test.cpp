#include <doctest/doctest.h>

#include <string>

#include "lang/check/mismatch.h"
#include "tests/support/compile_text.h"

namespace mismatch_test {

using namespace acre;
using namespace acre::lang;
using tests::expect_diag;

namespace {

const std::string head = "model \"m\"\n"
                         "given fuel_rate = $40/h\n"            // line 2
                         "given land = $12/ac\n"                // line 3
                         "given pace = 5 ac/h\n"                // line 4
                         "given season_use : h/yr = 800 h/yr\n" // line 5
                         "given owning = $30,000/yr\n"          // line 6
                         "given age = 9 yr\n"                   // line 7
                         "given texture = fine | coarse\n"      // line 8
                         "given hours = 7 h\n"                  // line 9
                         "given flow = 20 gal/ac\n"             // line 10
                         "given runs = 12 lb\n";                // line 11

Diagnostic diag(const std::string& text, Code code) {
    return expect_diag(head + text, code);
}

std::string help(const Diagnostic& d) {
    return d.helps.empty() ? "" : d.helps[0].text;
}

// The text with the edit of the first help made in it.
std::string mended(const std::string& text, const Diagnostic& d) {
    std::string out = head + text;
    REQUIRE(!d.helps.empty());
    REQUIRE(d.helps[0].edit.has_value());
    const Edit& edit = *d.helps[0].edit;
    return out.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.replacement);
}

} // namespace

TEST_CASE("the line that would mend a formula is named with its line number") {
    struct {
        const char* text;
        Code code;
        const char* title;
        const char* help;
    } const rows[] = {
        {"a : $/h = fuel_rate + land\n", Code::U301, "cannot add $/ac to $/h",
         "`pace` (line 4) is in ac/h: write  land * pace"},
        {"a : $/ac = fuel_rate + land\n", Code::U301, "cannot add $/ac to $/h",
         "`pace` (line 4) is in ac/h: write  fuel_rate / pace"},
        {"a : $/h = owning + fuel_rate\n", Code::U303, "cannot add $/h to $/yr",
         "`season_use` (line 5) is in h/yr: write  owning / season_use"},
        {"a : $/yr = owning + fuel_rate\n", Code::U303, "cannot add $/h to $/yr",
         "`season_use` (line 5) is in h/yr: write  fuel_rate * season_use"},
        {"require owning > fuel_rate \"x\"\n", Code::U303, "cannot compare $/yr with $/h",
         "`season_use` (line 5) is in h/yr: write  fuel_rate * season_use"},
        {"a : $/ac = fuel_rate\n", Code::U302, "`a` is declared $/ac but its formula gives $/h",
         "`pace` (line 4) is in ac/h: write  fuel_rate / pace"},
        {"a : $/ac = fuel_rate + $3/h\n", Code::U302,
         "`a` is declared $/ac but its formula gives $/h",
         "`pace` (line 4) is in ac/h: write  (fuel_rate + $3/h) / pace"},
        {"a : $/h = owning\n", Code::U302, "`a` is declared $/h but its formula gives $/yr",
         "`season_use` (line 5) is in h/yr: write  owning / season_use"},
        {"cost c : $/h = fuel_rate over 10 ac\n", Code::U310,
         "`c` is $/h over ac, which is not money", "`hours` (line 9) is in h: write  over hours"},
        {"a : $/h = 24.50\n", Code::U304, "`a` is declared $/h but is given a plain number",
         "write  $24.50/h"},
        {"a : yr = age + 1\n", Code::U301, "cannot add a plain number to yr",
         "give the number its unit: write  1 yr"},
        {"a : 1 = age ^ 0.68\n", Code::U306, "only a plain number can be raised to the power 0.68",
         "divide out the unit first: write  (age / 1 yr) ^ 0.68"},
        {"a : 1 = log(age)\n", Code::U305, "`log` takes a plain number but is given yr",
         "divide out the unit: write  log(age / 1 yr)"},
        {"a : 1 = sin(30)\n", Code::U305, "`sin` takes an angle but is given a plain number",
         "write  sin(30 deg)"},
        {"a : h = ceil(hours)\n", Code::U305, "`ceil` needs a step for a value in h",
         "write  ceil(hours, 1 h)"},
        {"define f (speed : mi/h) : mi/h = speed\na : mi/h = f(3)\n", Code::U305,
         "`f` takes `speed` in mi/h but is given a plain number", "write  3 mi/h"},
        {"require texture == 3 \"x\"\n", Code::U309,
         "cannot compare a choice of `texture` with a plain number",
         "compare it to one of its choices: write  texture is fine"},
    };
    for (const auto& row : rows) {
        CAPTURE(std::string(row.text));
        const Diagnostic d = diag(row.text, row.code);
        CHECK(d.title == row.title);
        CHECK(help(d) == row.help);
    }
}

TEST_CASE("what the help says mends the formula") {
    for (const char* text :
         {"a : $/h = fuel_rate + land\n", "a : $/h = owning + fuel_rate\n",
          "a : $/yr = owning + fuel_rate\n", "a : $/h = 24.50\n", "a : 1 = sin(30)\n",
          "cost c : $/h = fuel_rate over 10 ac\n", "a : yr = age + 1\n"}) {
        CAPTURE(std::string(text));
        const tests::Compilation c = tests::compile_text(head + text);
        REQUIRE(c.diagnostics.error_count() == 1);
        CHECK(tests::compile_text(mended(text, c.diagnostics.all()[0])).sheet);
    }
}

TEST_CASE("a mend that is a guess has no edit") {
    for (const char* text :
         {"a : $/ac = fuel_rate\n",                               // or times, or not so
          "given other = 6 ac/h\na : $/h = land\n",               // one of two
          "define f (x : $/h) : $/h = x\na : $/h = f(land)\n"}) { // or another argument
        CAPTURE(std::string(text));
        const tests::Compilation c = tests::compile_text(head + text);
        REQUIRE(c.diagnostics.error_count() == 1);
        for (const Help& one : c.diagnostics.all()[0].helps)
            CHECK(!one.edit.has_value());
    }
}

TEST_CASE("a line declared in a unit that nothing needs is told to declare another, once") {
    const std::string text = "way : h = 60 ac / 7 ft\n"
                             "time : h = way / (2 mi/h)\n"
                             "cost c : $/h = fuel_rate over time\n";
    const tests::Compilation c = tests::compile_text(head + text);
    REQUIRE(c.diagnostics.error_count() == 1);
    const Diagnostic& d = c.diagnostics.all()[0];
    CHECK(d.code == Code::U302);
    CHECK(tests::compile_text(mended(text, d)).sheet);
    // What needs it as declared leaves the formula to be mended.
    CHECK(diag("way : h = 60 ac / 7 ft\ntime : h = way * 2\n", Code::U302)
              .title.find("gives ac/ft") != std::string::npos);
    // What takes it either way says nothing for either.
    CHECK(help(diag("a : $/h = fuel_rate / pace\nb : $ = a * 10 ac\nc : 1 = a / a\n",
                    Code::U302)) == "write  a : $/ac");
    // The largest of the model's own units of the kind, in whatever order they stand.
    CHECK(help(diag("given yard = 100 ft^2\ngiven whole = 2 mi^2\ngiven patch = 3 in^2\n"
                    "spread : ft = 3 ft * age / 1 yr * 2 m\nb : $ = land * spread\n",
                    Code::U302)) == "write  spread : mi^2");
    // The unit is replaced as far as it is written.
    for (const char* unit : {"$/hour", "$/h", "dollars/h"}) {
        const std::string line = std::string("a : ") + unit + "= fuel_rate / pace\n";
        const std::string rest = "b : $ = a * 10 ac\n";
        CHECK(tests::compile_text(mended(line + rest, diag(line + rest, Code::U302))).sheet);
    }
}

TEST_CASE(
    "for an argument in another unit a line in its own is named, and one upside down is not") {
    const auto said = [](const std::string& lines) {
        return help(diag("define f (speed : mi/h) : 1 = speed / 1 mi/h\ngiven wide = 3 ft\n" +
                             lines + "a : 1 = f(wide)\n",
                         Code::U305));
    };
    CHECK(said("given slow = 3 h/mi\n").find("slow") == std::string::npos);
    CHECK(said("given slow = 3 h/mi\ngiven quick = 3 km/h\ngiven other = 3 mi/h\n") ==
          "`quick` (line 15) is in km/h: did you mean it?");
}

TEST_CASE("a given whose number lost its unit is told, not the formula that reads it") {
    struct {
        const char* text;
        const char* help;
    } const rows[] = {
        {"given burn = 28\ncost c : $/h = burn * $4.35/gal over hours\n", "write  28 gal/h"},
        {"given wage = $38\ncost c : $/h = wage over hours\n", "write  $38/h"},
        {"given speed = 1.6\ntime : h = 3 mi / speed\n", "write  1.6 mi/h"},
        {"given miles = 40\ncost c : $/mi = $9/mi over 2 * miles\n", "write  40 mi"},
    };
    for (const auto& row : rows) {
        CAPTURE(std::string(row.text));
        const Diagnostic d = diag(row.text, Code::U304);
        CHECK(help(d) == row.help);
        CHECK(tests::compile_text(mended(row.text, d)).sheet);
    }
    // One that is a plain number elsewhere is not to blame, nor one that says it is.
    CHECK(diag("given n = 2\nb : ac = n * 3 ac\na : ac = n * 3 ft\n", Code::U302).title ==
          "`a` is declared ac but its formula gives ft");
    CHECK(diag("given n : 1 = 2\na : ac = n * 3 ft\n", Code::U302).title ==
          "`a` is declared ac but its formula gives ft");
}

TEST_CASE("units are those the author wrote") {
    const Diagnostic d = diag("a : ft = 3 mi/h * 2 ft\n", Code::U302);
    CHECK(d.title == "`a` is declared ft but its formula gives mi.ft/h");
    CHECK(diag("a : ft = 1,000 mph / 2 km\n", Code::U302).title ==
          "`a` is declared ft but its formula gives mph/km");
    CHECK(diag("a : ft = fuel_rate / pace * 50 %\n", Code::U302).title ==
          "`a` is declared ft but its formula gives $/ac");
    CHECK(diag("a : ft = $4.35/gal * 2 gal\n", Code::U302).title ==
          "`a` is declared ft but its formula gives $");
    CHECK(diag("a : ac = 90 min * 2 mi/h / 1 h * hours\n", Code::U302).title ==
          "`a` is declared ac but its formula gives mi");
    CHECK(diag("a : ft = age ^ 2\n", Code::U302).title ==
          "`a` is declared ft but its formula gives yr^2");
}

TEST_CASE("the year is told apart from the hour, the day and the shift too") {
    CHECK(diag("a : $/h = fuel_rate + owning\n", Code::U303)
              .notes.at(0)
              .find("neither is a fixed number of the other") != std::string::npos);
    CHECK(diag("a : day = 3 day + hours\n", Code::U301).notes.at(0) ==
          "how many hours a day has is up to the model: a line in h/day");
    CHECK(diag("a : shift = 3 shift + hours\n", Code::U301).notes.at(0) ==
          "how many hours a shift has is up to the model: a line in h/shift");
}

TEST_CASE("without a line that mends it, the message says what is missing and no more") {
    const Diagnostic d = diag("a : lb = runs + 3 ft\n", Code::U301);
    CHECK(d.helps.empty());
    CHECK(d.notes.at(0) == "the two sides differ by a factor of lb/ft");
    // Of a plain number and a unit it goes without saying.
    for (const char* formula : {"runs + share", "share + runs"})
        CHECK(diag("share : 1 = age / 9 yr\na : lb = " + std::string(formula) + "\n", Code::U301)
                  .notes.empty());
}

TEST_CASE("no help makes a loop, and none proposes a length that hides a ratio") {
    // The only line in h/lb rests on the line to be mended.
    CHECK(diag("a : lb = hours\nb : lb/h = a / 1 h\n", Code::U302).helps.empty());
    // gal/ac is a length, but nobody means it as one.
    CHECK(help(diag("a : ac = 12 ft * age / 1 yr\n", Code::U302)).find("flow") ==
          std::string::npos);
}

TEST_CASE("a function sees nothing but its parameters, and so do its helps") {
    const Diagnostic d = diag("define f (p : $/yr, used : h/yr) : $/h = p\n", Code::U302);
    CHECK(help(d) == "`used` is in h/yr: write  p / used");
    CHECK(diag("define f (p : $/yr) : $/h = p\n", Code::U302).helps.empty());
}

TEST_CASE(
    "a value set in another file is told with its place, and the lines of the model by theirs") {
    const Diagnostic d = expect_diag("job \"j\"\nmodel \"m\"\nset wage = 24.50\n", Code::U304,
                                     {{{"m.rate", "model \"m\"\ngiven wage : $/h \"wage\"\n"}}});
    CHECK(d.title == "`wage` is declared $/h but is given a plain number");
    CHECK(help(d) == "write  $24.50/h");
    REQUIRE(d.others.size() == 1);
    CHECK(d.others[0].span.file != d.primary.span.file);
}

TEST_CASE(
    "names in reach: another model's line by its dotted name, and never a block's from outside") {
    const tests::Choices files{
        {{"crawler.rate", "model \"c\"\ngiven use_a_year = 900 h/yr \"x\"\n"}}};
    const Diagnostic d =
        expect_diag("model \"m\"\nuse \"crawler\" as c\ngiven owning = $9/yr\na : $/h = owning\n",
                    Code::U302, files);
    CHECK(help(d) == "`crawler.use_a_year` (crawler.rate, line 2) is in h/yr: write  owning / "
                     "crawler.use_a_year");
}

TEST_CASE("a flood of mistakes is counted and cut off, and long formulas are not quoted") {
    std::string text;
    for (int i = 0; i < 5000; ++i)
        text.append("x" + std::to_string(i)).append(" : $/h = land + fuel_rate\n");
    const tests::Compilation c = tests::compile_text(head + text);
    CHECK(c.diagnostics.error_count() == 5000);
    CHECK(c.diagnostics.all().size() == Diagnostics::cap);
    std::string sum = "owning";
    for (int i = 0; i < 100; ++i)
        sum += " + owning";
    CHECK(help(diag("a : $/h = " + sum + "\n", Code::U302)) ==
          "`season_use` (line 5) is in h/yr: divide by it");
}

} // namespace mismatch_test
