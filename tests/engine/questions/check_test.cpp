#include "engine/questions/check.h"

#include <algorithm>
#include <string>
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

std::vector<Code> codes(lang::FileKind kind, const std::string& text) {
    lang::Request request;
    request.name = "a text";
    request.kind = kind;
    request.text = text;
    MemoryLoader loader({{"mowing.rate", model}});
    const lang::Said said = engine::check(request, loader);
    std::vector<Code> found;
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

} // namespace check_test
