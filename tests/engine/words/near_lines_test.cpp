// What somebody who asked for a line that does not exist is told.
#include "engine/words/near_lines.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace near_lines_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;
using Helps = std::vector<std::string>;

namespace {

const std::string model = "model \"m\"\ngiven wage = $30/h  \"pay of the driver\"\n"
                          "given days_off = 2  \"days without work\"\n"
                          "wages : $ = wage * 8 h  \"pay for a day\"\n"
                          "rest : 1 = days_off\n";

} // namespace

TEST_CASE("names that look like it come first, of the kind that is asked for") {
    const Priced job = priced_ok(model);
    CHECK(near_lines(job.sheet(), "wagez", Among::Lines) ==
          Helps{"did you mean `wage`?", "did you mean `wages`?"});
    CHECK(near_lines(job.sheet(), "wagez", Among::Givens) == Helps{"did you mean `wage`?"});
    CHECK(near_lines(job.sheet(), "rast", Among::Lines) == Helps{"did you mean `rest`?"});
    CHECK(near_lines(job.sheet(), "rast", Among::Givens).empty());
}

TEST_CASE("without such a name, lines are told whose names or labels have its words") {
    const Priced job = priced_ok(model);
    // The first word at the head of both labels; the shorter name first.
    CHECK(near_lines(job.sheet(), "pay", Among::Lines) ==
          Helps{"`wage`: pay of the driver", "`wages`: pay for a day"});
    CHECK(near_lines(job.sheet(), "pay", Among::Givens) == Helps{"`wage`: pay of the driver"});
    CHECK(lines_that_say(job.sheet(), "days", Among::Lines) ==
          Helps{"`days_off`: days without work"}); // "day" is too short to stand for it
    const std::string_view left_out[] = {"wage"};
    CHECK(lines_that_say(job.sheet(), "pay", Among::Lines, left_out) ==
          Helps{"`wages`: pay for a day"});
    CHECK(lines_that_say(job.sheet(), "rest", Among::Lines) == Helps{"`rest`"});
    CHECK(near_lines(job.sheet(), "zzzzzz", Among::Lines).empty());
}

TEST_CASE("eight lines are told at most") {
    std::string many = "model \"m\"\n";
    for (char c = 'a'; c < 'a' + 9; ++c)
        many += std::string("given q") + c + " = 1  \"blade " + c + c + "\"\n";
    const Helps helps = lines_that_say(priced_ok(many).sheet(), "blade", Among::Givens);
    CHECK(helps.size() == 8);
    CHECK(helps.front() == "`qa`: blade aa");
}

} // namespace near_lines_test
