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

} // namespace reply_test
