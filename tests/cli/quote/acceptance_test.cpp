// What a quote waits for, and what may be accepted.
#include "cli/quote/acceptance.h"

#include <doctest/doctest.h>

#include <cstdint>
#include <string>
#include <vector>

namespace acceptance_test {

using namespace acre;
using namespace acre::cli;
using lang::Code;

namespace {

lang::Said said_of(const std::vector<Code>& codes) {
    lang::Said said;
    for (const Code code : codes)
        said.diagnostics.add({code, "x", {}, {}, {}, {}});
    return said;
}

// The code and title, then each help on a line of its own.
std::string fault_of(const std::vector<lang::Said>& said,
                     const std::vector<std::string>& accepted) {
    const auto fault = not_accepted(said, accepted);
    if (!fault)
        return "none";
    std::string text = std::string(lang::name_of(fault->code)) + " " + fault->title;
    for (const lang::Help& help : fault->helps)
        text += "\n" + help.text;
    return text;
}

const std::string stands = "R007 no quote was issued: a warning stands against it: ";
const std::string put_right = "\nput it right, and ask for the quote again\n"
                              "if it is meant, issue the quote with";
const std::string kept = " , and its record keeps that";

} // namespace

TEST_CASE("a quote waits for every warning against its price, and for none of risk") {
    const std::vector<lang::Said> clean = {said_of({}), said_of({Code::L802})};
    CHECK(fault_of(clean, {}) == "none");
    CHECK(fault_of({said_of({Code::L815})}, {}) ==
          stands + "L815" + put_right + " --accept L815" + kept);
    CHECK(fault_of({said_of({Code::L815, Code::L803, Code::L815})}, {}) ==
          stands + "L803, L815" + put_right + " --accept L803 --accept L815" + kept);
    CHECK(fault_of({said_of({Code::L815, Code::L803})}, {"L815"}) ==
          stands + "L803" + put_right + " --accept L803" + kept);
    CHECK(fault_of({said_of({Code::L815, Code::L803})}, {"L803", "L815"}) == "none");
}

TEST_CASE("what is said of an option offered too counts as what is said of the job") {
    const std::vector<lang::Said> both = {said_of({Code::L815}), said_of({Code::L803})};
    CHECK(fault_of(both, {"L815", "L803"}) == "none");
    CHECK(fault_of(both, {"L815"}) == stands + "L803" + put_right + " --accept L803" + kept);
    CHECK(fault_of({said_of({}), said_of({Code::L815})}, {"L815"}) == "none");
}

TEST_CASE("what nobody warned of cannot be accepted") {
    CHECK(fault_of({said_of({Code::L815})}, {"L815", "L803"}) ==
          "C003 `--accept L803`: nothing warns of that");
    CHECK(fault_of({said_of({Code::L802})}, {"L802"}) ==
          "C003 `--accept L802`: nothing warns of that");
    CHECK(fault_of({}, {"nonsense"}) == "C003 `--accept nonsense`: nothing warns of that");
}

TEST_CASE("where not all warnings are shown none can be accepted unseen") {
    lang::Said many;
    for (std::uint32_t place = 0; place < 100; ++place)
        many.diagnostics.add({Code::L815, "x", {{0, place, place + 1}, ""}, {}, {}, {}});
    REQUIRE(many.diagnostics.left_out() > 0);
    CHECK(fault_of({said_of({}), many}, {"L815"}) ==
          "R007 no quote was issued: too many warnings to show them all");
    CHECK(fault_of({many}, {}).starts_with(stands + "L815"));
}

TEST_CASE("an option's own warnings are all accepted, or not") {
    CHECK(all_accepted(said_of({}), {}));
    CHECK(all_accepted(said_of({Code::L802}), {}));
    CHECK(!all_accepted(said_of({Code::L815}), {}));
    CHECK(!all_accepted(said_of({Code::L815, Code::L803}), {"L815"}));
    CHECK(all_accepted(said_of({Code::L815}), {"L803", "L815"}));
}

} // namespace acceptance_test
