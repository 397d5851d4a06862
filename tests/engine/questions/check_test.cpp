#include "engine/questions/check.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/memory_loader.h"

namespace check_test {

using namespace acre;
using namespace acre::tests;
using lang::Code;

namespace {

const std::string model = "model \"Mowing\"\n"
                          "given area : ac \"acres mowed\"\n"
                          "given pace = 5 ac/h\n"
                          "nobody : ac = 3 ac\n"
                          "cost mower : $/h = $50/h over area / pace\n"
                          "price \"Mowing\" per ac of area\n";

engine::CheckAnswer look(lang::FileKind kind, const std::string& text, Files files = {}) {
    lang::Request request;
    request.name = "a text";
    request.kind = kind;
    request.text = text;
    files.insert({"mowing.rate", model});
    MemoryLoader loader(std::move(files));
    return engine::check(request, loader);
}

std::vector<Code> codes(lang::FileKind kind, const std::string& text, Files files = {}) {
    std::vector<Code> found;
    for (const lang::Said& said : look(kind, text, std::move(files)).said)
        for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
            found.push_back(diagnostic.code);
    return found;
}

} // namespace

TEST_CASE("a model may leave open what a job sets; a job may not") {
    CHECK(codes(lang::FileKind::Model, model) == std::vector{Code::L801});
    CHECK(codes(lang::FileKind::Job, "job \"Creek\"\nmodel \"mowing\"\n") ==
          std::vector{Code::I603, Code::L801});
    CHECK(codes(lang::FileKind::Job, "job \"Creek\"\nmodel \"mowing\"\nset area = 9 ac\n") ==
          std::vector{Code::L801});
}

TEST_CASE("a job is worked out: what stops its figures is found") {
    CHECK(codes(lang::FileKind::Job,
                "job \"Creek\"\nmodel \"mowing\"\nset area = 9 ac\nset pace = 0 ac/h\n") ==
          std::vector{Code::L801, Code::E501});
}

TEST_CASE("a model whose values are all there is worked out too") {
    CHECK(codes(lang::FileKind::Model, "model \"M\"\ngiven a = 0 ac\nb : 1 = 3 ac / a\n") ==
          std::vector{Code::E501});
}

TEST_CASE("a function that nothing calls is checked all the same") {
    const std::string function = "define unused (x : ft) : ac = x\n";
    const auto has_unit_error = [](const std::vector<Code>& found) {
        return std::find(found.begin(), found.end(), Code::U301) != found.end() ||
               std::find(found.begin(), found.end(), Code::U302) != found.end();
    };
    CHECK(has_unit_error(codes(lang::FileKind::Model, model + function)));
    CHECK(!has_unit_error(codes(lang::FileKind::Model, model)));
}

TEST_CASE("what cannot be read is said, and nothing else") {
    CHECK(codes(lang::FileKind::Job, "job \"Creek\"\nmodel \"lost\"\n") == std::vector{Code::F701});
}

TEST_CASE("every option is worked out, and what only one of them does is told with its title") {
    const std::string job = "job \"Creek\"\nmodel \"mowing\"\nset area = 9 ac\n"
                            "option \"Slow\"\n  set pace = 2 ac/h\n"
                            "option \"Standing\"\n  set pace = 0 ac/h\n";
    CHECK(codes(lang::FileKind::Job, job) == std::vector{Code::L801, Code::E501});
    const engine::CheckAnswer answer = look(lang::FileKind::Job, job);
    CHECK(answer.options == 2);
    REQUIRE(answer.said.size() == 2);
    const std::vector<std::string>& notes = answer.said[1].diagnostics.all()[0].notes;
    CHECK(std::find(notes.begin(), notes.end(), "with the option \"Standing\"") != notes.end());
}

TEST_CASE("a value that only an option gives is no missing value of that option") {
    CHECK(codes(lang::FileKind::Job,
                "job \"Creek\"\nmodel \"mowing\"\noption \"All\"\n  set area = 9 ac\n") ==
          std::vector{Code::I603, Code::L801});
}

TEST_CASE("a season is tried with every model: a name that none of them has is a slip") {
    const Files other = {{"raking.rate", "model \"Raking\"\ngiven hands = 2 \"hands\"\n"}};
    CHECK(codes(lang::FileKind::Season, "season \"S\"\nset pace = 4 ac/h\nset hands = 3\n", other)
              .empty());
    const engine::CheckAnswer answer =
        look(lang::FileKind::Season, "season \"S\"\nset pase = 4 ac/h\nset hands = 3\n", other);
    CHECK(answer.models == 2);
    REQUIRE(answer.said.size() == 1);
    const lang::Diagnostic& slip = answer.said[0].diagnostics.all()[0];
    CHECK(slip.code == Code::L807);
    REQUIRE(!slip.helps.empty());
    CHECK(slip.helps[0].text == "did you mean `pace`?");
    // One model is enough, and what a model without a price asks for is a name too.
    CHECK(codes(lang::FileKind::Season, "season \"S\"\nset pase = 4 ac/h\n") ==
          std::vector{Code::L807});
    const engine::CheckAnswer hands =
        look(lang::FileKind::Season, "season \"S\"\nset hans = 3\n", other);
    REQUIRE(hands.said.size() == 1);
    REQUIRE(!hands.said[0].diagnostics.all()[0].helps.empty());
    CHECK(hands.said[0].diagnostics.all()[0].helps[0].text == "did you mean `hands`?");
}

TEST_CASE("what cannot be read in a season is told once, as of no model") {
    const engine::CheckAnswer answer =
        look(lang::FileKind::Season, "season \"S\"\nset pace = \n",
             {{"raking.rate", "model \"Raking\"\ngiven hands = 2 \"hands\"\n"}});
    REQUIRE(answer.said.size() == 1);
    REQUIRE(answer.said[0].diagnostics.all().size() == 1);
    CHECK(answer.said[0].diagnostics.all()[0].notes.empty());
}

TEST_CASE("an answer says whether a job was seen with all its values") {
    const std::string job = "job \"Creek\"\nmodel \"mowing\"\n";
    const auto seen = [&](lang::FileKind kind, const std::string& text) {
        const engine::CheckAnswer answer = look(kind, text);
        return std::pair(answer.job != nullptr, answer.whole);
    };
    CHECK(seen(lang::FileKind::Job, job + "set area = 9 ac\n") == std::pair(true, true));
    CHECK(seen(lang::FileKind::Job, job + "set area = 9 h\n") == std::pair(true, false));
    CHECK(seen(lang::FileKind::Job, "job \"Creek\"\nmodel \"lost\"\n") == std::pair(false, false));
    CHECK(seen(lang::FileKind::Model, model) == std::pair(true, true));
    // An option at fault leaves the job as it is seen without one; each is seen afresh.
    CHECK(codes(lang::FileKind::Job, job + "set area = 9 ac\noption \"A\"\n  set pace = 4 ft\n"
                                           "option \"B\"\n  set pace = 0 ac/h\n") ==
          std::vector{Code::L801, Code::U304, Code::E501});
}

TEST_CASE("a season's value in the wrong unit is told, with the model that takes it") {
    CHECK(codes(lang::FileKind::Season, "season \"S\"\nset pace = 4 ft\n") ==
          std::vector{Code::U304});
}

TEST_CASE("a season that sets what models compute is told of each, and of no unknown name") {
    const std::string computes = "model \"M\"\ngiven area = 4 ac \"acres\"\n"
                                 "worked : h = area / 2 ac/h \"hours\"\n"
                                 "cost mow : $/h = $9/h over worked\n"
                                 "price \"All\" per ac of area\n";
    const std::string season = "season \"S\"\nset worked = 4 h\n";
    const engine::CheckAnswer alone =
        look(lang::FileKind::Season, season, {{"one.rate", computes}});
    REQUIRE(alone.said.size() == 1);
    REQUIRE(alone.said[0].diagnostics.all().size() == 1);
    const lang::Diagnostic& told = alone.said[0].diagnostics.all()[0];
    CHECK(told.code == Code::I606);
    CHECK(std::find(told.notes.begin(), told.notes.end(), "seen from the model one.rate") !=
          told.notes.end());
    // Of another model that has it as a given the season may set it.
    const std::string sets = "model \"N\"\ngiven worked = 3 h \"hours\"\n"
                             "cost mow : $/h = $9/h over worked\nprice \"All\" lump\n";
    CHECK(codes(lang::FileKind::Season, season, {{"one.rate", computes}, {"two.rate", sets}})
              .empty());
}

TEST_CASE("a value outside its range is a fault though no figure rests on it") {
    const Files files = {{"standing.rate",
                          "model \"Standing\"\n"
                          "given area = 4 ac \"acres\"\n"
                          "given standby = 4 h/day \"standby\" within 0 h/day .. 24 h/day\n"
                          "cost mow : $/ac = $9/ac over area\n"
                          "price \"All\" per ac of area\n"}};
    CHECK(codes(lang::FileKind::Job, "job \"Creek\"\nmodel \"standing\"\nset standby = 30 h/day\n",
                files) == std::vector{Code::I602});
}

TEST_CASE("a value that is at fault hides no other, and none is made up in its place") {
    const Files files = {{"ripping.rate", "model \"Ripping\"\n"
                                          "given area : ac \"acres\" within 1 ac .. 90 ac\n"
                                          "given wage = $30/h \"driver\"\n"
                                          "given pace = 2 ac/h \"pace\"\n"
                                          "require wage > $31/h \"a driver's least\"\n"
                                          "cost rip : $/h = wage over area / pace\n"
                                          "price \"All\" per ac of area\n"}};
    const std::string job = "job \"Creek\"\nmodel \"ripping\"\n";
    // The model's own wage would fail the requirement; it is not in force.
    CHECK(codes(lang::FileKind::Job, job + "set area = 99 ac\nset wage = $44\n", files) ==
          std::vector{Code::U304, Code::I602});
    CHECK(codes(lang::FileKind::Job,
                job + "set area = 99 ac\nset wage = $44/h\nset paces = 3 ac/h\n",
                files) == std::vector{Code::I601, Code::I602});
}

TEST_CASE("a model that leaves values open is judged as far as they let it") {
    CHECK(codes(lang::FileKind::Model,
                "model \"Standing\"\n"
                "given area : ac \"acres\"\n"
                "given standby = 30 h/day \"standby\" within 0 h/day .. 24 h/day\n"
                "cost mow : $/ac = $9/ac over area\n"
                "price \"All\" per ac of area\n") == std::vector{Code::I602});
}

} // namespace check_test
