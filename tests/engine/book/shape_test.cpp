#include "engine/book/record.h"

#include <doctest/doctest.h>

#include <string>

#include "engine/book/seal.h"

namespace shape_test {

using namespace acre::engine;

namespace {

// A record of version 1 with these members, sealed; its canonical form sorts them by bytes.
ReadRecord read(const std::string& before, const std::string& after) {
    return read_record(
        "{" + before + (before.empty() ? "" : ",") + "\"seal\":\"" +
        sha256("{" + before + (before.empty() || after.empty() ? "" : ",") + after + "}") + "\"" +
        (after.empty() ? "" : ",") + after + "}\n");
}

} // namespace

TEST_CASE("a record is refused for a member of another kind, with its name; members it does not "
          "know are not looked at") {
    const struct {
        const char* before; // the seal, in the order of the names
        const char* after;
        const char* fault;
    } cases[] = {
        {R"("counter":{"2027":1},"items":[{"cents":1200}],"kind":"quote","price":{"cents":1200,)"
         R"("cost":9.5},"quote":"2027-001")",
         "", ""},
        {R"("kind":"word")", R"("soil":7,"weather":["dry"])", ""},
        {R"("kind":7)", "", "`kind` is not text"},
        {R"("items":"x","kind":"quote")", "", "`items` is not a list"},
        {R"("items":[1],"kind":"quote")", "", "one of `items` is not an object"},
        {R"("items":[{"cents":1.5}],"kind":"quote")", "",
         "`items.cents` is not an amount in cents"},
        {R"("kind":"quote","price":{"cents":1e+300})", "",
         "`price.cents` is not an amount in cents"},
        {R"("kind":"quote","price":{"cents":18446744073709551615})", "",
         "`price.cents` is not an amount in cents"},
        {R"("kind":"quote","price":[1])", "", "`price` is not an object"},
        {R"("counter":{"2027":9223372036854775807})", "",
         "one of `counter` is not a count of quotes"},
        {R"("costs":[{"rate":"x"}],"kind":"quote")", "", "`costs.rate` is not a number"},
        {R"("inner":[null],"kind":"quote")", "", "one of `inner` is not text"},
        {R"("job":{"title":[]},"kind":"quote")", "", "`job.title` is not text"},
    };
    for (const auto& [before, after, fault] : cases) {
        CAPTURE(std::string(before));
        const std::string wanted = *fault == '\0' ? "" : "is not a record of this program: ";
        CHECK(read(before, after).fault == wanted + fault);
    }
    CHECK(read_record("[]\n").fault.starts_with("is not a whole record"));
}

} // namespace shape_test
