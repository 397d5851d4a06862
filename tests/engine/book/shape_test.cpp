#include "engine/book/shape.h"

#include <doctest/doctest.h>

#include <string>

#include <nlohmann/json.hpp>

namespace shape_test {

using acre::engine::shape_fault;

TEST_CASE("a record is refused for a member of another kind, with its name; members it does not "
          "know are not looked at") {
    const struct {
        const char* text;
        const char* fault;
    } cases[] = {
        {R"({"kind":"quote","quote":"2027-001","price":{"cents":1200,"cost":9.5},)"
         R"("items":[{"cents":1200}],"counter":{"2027":1}})",
         ""},
        {R"({"kind":"word","weather":["dry"],"soil":7})", ""},
        {"{}", ""},
        {"[]", "it is not an object"},
        {R"({"kind":7})", "`kind` is not text"},
        {R"({"items":"x"})", "`items` is not a list"},
        {R"({"items":[1]})", "one of `items` is not an object"},
        {R"({"items":[{"cents":1.5}]})", "`items.cents` is not an amount in cents"},
        {R"({"price":{"cents":1e300}})", "`price.cents` is not an amount in cents"},
        {R"({"price":{"cents":18446744073709551615}})", "`price.cents` is not an amount in cents"},
        {R"({"price":[1]})", "`price` is not an object"},
        {R"({"counter":{"2027":9223372036854775807}})",
         "one of `counter` is not a count of quotes"},
        {R"({"costs":[{"rate":"x"}]})", "`costs.rate` is not a number"},
        {R"({"inner":[null]})", "one of `inner` is not text"},
        {R"({"job":{"title":[]}})", "`job.title` is not text"},
    };
    for (const auto& [text, fault] : cases) {
        CAPTURE(std::string(text));
        CHECK(shape_fault(nlohmann::json::parse(text)) == fault);
    }
}

} // namespace shape_test
