#include "engine/questions/library.h"

#include <string>

#include <doctest/doctest.h>

#include "tests/support/memory_loader.h"

namespace library_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

const Files files = {
    {"mowing.rate",
     "library \"Mowing\"\n"
     "use \"grass\"\n"
     "define mowed (speed : mi/h, width : ft) : ac/h = speed * width \"acres an hour\"\n"
     "  source \"a handbook, table 3\"\n"
     "  known recalled\n"
     "  tested speed 0.5 mi/h .. 2 mi/h\n"
     "  limit width 1 ft .. 40 ft \"a gang\"\n"
     "  note \"without turns\"\n"
     "  example mowed(1 mi/h, 8.25 ft) = 1 ac/h within 1e-9 ac/h\n"},
    {"grass.rate", "library \"Grass\"\n"
                   "choice height = knee_high | short\n"
                   "define grown (days : day) : height = when days > 30 day then knee_high "
                   "otherwise short \"how high\"\n"
                   "  known ours\n"
                   "  example grown(40 day) = knee_high\n"}};

lang::Outcome<LibraryAnswer> ask_for(const std::string& name, const Files& texts = files) {
    MemoryLoader loader(texts);
    return ask(LibraryQuestion{{"mowing", "grass"}, "index", name}, loader);
}

} // namespace

TEST_CASE("each formula is listed once, under the library that defines it") {
    const auto answer = ask_for("");
    REQUIRE(answer.value.has_value());
    REQUIRE(answer->formulas.size() == 2);
    const Formula& mowed = answer->formulas[0];
    CHECK(mowed.name == "mowed");
    CHECK(mowed.library == "mowing");
    CHECK(mowed.label == "acres an hour");
    CHECK(mowed.signature == "mowed (speed : mi/h, width : ft) : ac/h");
    CHECK(mowed.unit == "ac/h");
    CHECK(mowed.known == "from memory; its source was not seen");
    CHECK(mowed.sources == std::vector<std::string>{"a handbook, table 3"});
    CHECK(mowed.notes == std::vector<std::string>{"without turns"});
    CHECK(mowed.tested == std::vector<std::string>{"speed 0.5 mi/h .. 2 mi/h"});
    CHECK(mowed.limits == std::vector<std::string>{"width 1 ft .. 40 ft (a gang)"});
    CHECK(mowed.examples.empty());
    CHECK(answer->formulas[1].library == "grass");
}

TEST_CASE("a formula asked for by name comes with its examples worked out") {
    const auto mowed = ask_for("mowed");
    REQUIRE(mowed.value.has_value());
    REQUIRE(mowed->formulas.size() == 1);
    REQUIRE(mowed->formulas[0].examples.size() == 1);
    const WorkedExample& example = mowed->formulas[0].examples[0];
    // 5,280 ft/h * 8.25 ft = 43,560 ft^2/h.
    CHECK(example.value == doctest::Approx(1));
    CHECK(example.text == "1 ac/h");
    CHECK(example.call == "mowed(1 mi/h, 8.25 ft)");
    CHECK(example.expected == "1 ac/h within 1e-9 ac/h");
    const auto grown = ask_for("grown");
    REQUIRE(grown.value.has_value());
    CHECK(grown->formulas[0].examples[0].text == "knee high");
}

TEST_CASE("a name that is not there, and a library at fault") {
    const auto none = ask_for("mowd");
    CHECK(!none.value.has_value());
    REQUIRE(none.said.diagnostics.error_count() == 1);
    CHECK(none.said.diagnostics.all()[0].code == lang::Code::Q001);
    CHECK(none.said.diagnostics.all()[0].title ==
          "the library has no formula `mowd`; did you mean `mowed`?");
    const auto lost = ask_for("", {});
    CHECK(!lost.value.has_value());
    CHECK(lost.said.diagnostics.all()[0].code == lang::Code::F701);
    const auto wrong = ask_for("", {{"mowing.rate", "library \"M\"\ndefine x () : ac = 3 ft\n"},
                                    {"grass.rate", files.at("grass.rate")}});
    CHECK(!wrong.value.has_value());
    CHECK(wrong.said.sources != nullptr);
}

} // namespace library_test
