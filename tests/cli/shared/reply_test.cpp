// What a command replies as words and as JSON, and an internal error.
#include <doctest/doctest.h>

#include <new>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "cli/shared/reply.h"

namespace reply_test {

using namespace acre;
using cli::Console;
using cli::Reply;

namespace {

Reply broken() {
    throw std::out_of_range("a place \x1b[31m that is not there");
}

} // namespace

TEST_CASE("an internal error is a diagnostic, shown safely, and ends with 70") {
    Console console;
    console.out = "half a page";
    console.err = "half a remark";
    CHECK(cli::say_what(broken, false, console) == 70);
    CHECK(console.out.empty());
    CHECK(console.err.starts_with("error P001: internal error: a place \\x1b[31m that is not"));
    CHECK(console.err.find("nothing was written") != std::string::npos);
}

TEST_CASE("with --json an internal error is one failure document, and standard error is empty") {
    Console console;
    CHECK(cli::say_what(broken, true, console) == 70);
    CHECK(console.err.empty());
    const auto json = nlohmann::json::parse(console.out);
    CHECK(json["schema"] == "acrewright.failure/1");
    CHECK(json["code"] == "P001");
    CHECK(json["places"].empty());
    CHECK(json["helps"].size() == 1);
    CHECK(json["errors"].size() == 1);
}

TEST_CASE("out of memory is said so") {
    Console console;
    CHECK(cli::say_what([]() -> Reply { throw std::bad_alloc(); }, false, console) == 70);
    CHECK(console.err.find("internal error: out of memory") != std::string::npos);
}

TEST_CASE("what is no error is said as it is replied") {
    Console console;
    const auto page = [] {
        Reply reply;
        reply.page = "all is well\n";
        return reply;
    };
    CHECK(cli::say_what(page, false, console) == 0);
    CHECK(console.out == "all is well\n");
}

TEST_CASE(
    "of a price the warnings that touch it are kept, and all of them where some are left out") {
    lang::Said said;
    const auto add = [&](lang::Code code, std::uint32_t at) {
        lang::Diagnostic warning{code, "a warning", {}, {}, {}, {}};
        warning.primary.span = {0, at, at + 1};
        said.diagnostics.add(std::move(warning));
    };
    // L801 is about the text alone; L804 touches the price (lang/diag/codes.def).
    add(lang::Code::L804, 0);
    for (std::uint32_t at = 1; at < lang::Diagnostics::cap; ++at)
        add(lang::Code::L801, at);
    REQUIRE(said.diagnostics.left_out() == 0);
    CHECK(cli::of_the_price(said).diagnostics.all().size() == 1);
    add(lang::Code::L801, lang::Diagnostics::cap);
    REQUIRE(said.diagnostics.left_out() == 1);
    CHECK(cli::of_the_price(said).diagnostics.warning_count() == lang::Diagnostics::cap + 1);
}

} // namespace reply_test
