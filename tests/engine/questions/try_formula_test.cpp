#include "engine/questions/try_formula.h"

#include <doctest/doctest.h>

#include "tests/support/memory_loader.h"

namespace try_formula_test {

using namespace acre;

namespace {

const char* const model = "model \"Mowing\"\n"
                          "given area = 40 ac  \"acres\"\n"
                          "given ground = flat | rough  \"ground\"\n"
                          "given open : $/ac  \"not set\"\n"
                          "hours : h = area / 5 ac/h\n";

lang::Outcome<engine::TryAnswer> tried(const std::string& formula, bool with_job = true) {
    tests::MemoryLoader loader({});
    engine::TryQuestion question;
    question.formula = formula;
    question.from = "index.rate";
    if (with_job) {
        question.job.emplace();
        question.job->name = "mowing.rate";
        question.job->kind = lang::FileKind::Model;
        question.job->text = model;
    }
    return engine::ask(question, loader);
}

std::string text(const std::string& formula, bool with_job = true) {
    const auto answer = tried(formula, with_job);
    return answer ? answer->text
                  : std::string(lang::name_of(answer.said.diagnostics.all().front().code));
}

} // namespace

TEST_CASE("a formula has the unit and the kind that it comes to") {
    CHECK(text("2 ac + 43,560 ft^2", false) == "3 ac");
    CHECK(text("45 gal/h * 8 h", false) == "360 gal");
    CHECK(text("2 * 3", false) == "6");
    CHECK(text("7 ft > 2 yd", false) == "yes");
    CHECK(text("hours / 2") == "4 h");
    CHECK(text("ground is rough") == "no");
    CHECK(text("ground") == "flat");
    CHECK(text("-area") == "-40 ac");
    CHECK(tried("area * 2")->with_numbers == "40 ac * 2");
    CHECK(tried("area * 2")->unit == "ac");
}

TEST_CASE("a formula at fault is told, and nothing of the job beside it") {
    CHECK(text("2 ac + 3 h", false) == "U301");
    CHECK(text("area", false) == "N201");
    CHECK(text("aera") == "N201");
    CHECK(text("1 ac / (area - 40 ac)") == "E501");
    CHECK(text("2 ac +", false) == "S103");
    CHECK(text("open * 2").front() == 'I'); // nobody set it
    CHECK(text("area\nset area = 3 ac").front() == 'S');
    CHECK(!tried("").value);
}

} // namespace try_formula_test
