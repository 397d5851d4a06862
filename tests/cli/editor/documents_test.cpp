#include "cli/editor/documents.h"

#include <doctest/doctest.h>

namespace documents_test {

using namespace acre::cli;

TEST_CASE("a path goes through a URI and back") {
    for (const std::string path : {"/a/b.job", "/a b/ü.rate", "/100%/x#y?z.season", "/a+b/c:d.job"})
        CHECK(path_of(uri_of(path)) == path);
    CHECK(uri_of("/a b.job") == "file:///a%20b.job");
    CHECK(path_of("file://localhost/a.job") == "/a.job");
    CHECK(path_of("file:///%zz.job") == "/%zz.job");
    CHECK(path_of("file:///a%2") == "/a%2");
    CHECK(!path_of("untitled:one"));
    CHECK(!path_of("file:///a%00b.job"));
    CHECK(!path_of("file://"));
}

TEST_CASE("places count UTF-16 code units") {
    const std::string text = "a\xc3\xa4\xf0\x9f\x9a\x9c!\r\nb\n"; // ä is one, a tractor two
    const TextIndex index(text);
    CHECK(index.place(7).character == 4); // before the `!`
    CHECK(index.offset({0, 4}) == 7);
    CHECK(index.offset({0, 99}) == 8); // before the line end
    CHECK(index.offset({1, 0}) == 10);
    CHECK(index.offset({9, 0}) == text.size());
    CHECK(index.place(9'999).line == 2);
    for (std::uint32_t offset : {0U, 1U, 3U, 7U, 8U, 10U, 11U})
        CHECK(index.offset(index.place(offset)) == offset);
}

TEST_CASE("a change replaces what it names, and nothing outside the text") {
    Documents documents;
    documents.open("/a.job", "file:///a.job", "one\ntwo\n");
    const auto text = [&] { return documents.find("/a.job")->text; };
    CHECK(documents.change("/a.job", {false, {0, 3}, {1, 0}, "; "}));
    CHECK(text() == "one; two\n");
    CHECK(documents.change("/a.job", {false, {7, 0}, {99, 99}, "end"}));
    CHECK(text() == "one; two\nend");
    CHECK(documents.change("/a.job", {false, {0, 5}, {0, 2}, "x"})); // the wrong way round
    CHECK(text() == "one; xtwo\nend");
    CHECK(documents.change("/a.job", {true, {}, {}, "new"}));
    CHECK(text() == "new");
    CHECK(!documents.change("/b.job", {true, {}, {}, ""}));
    documents.close("/a.job");
    CHECK(documents.find("/a.job") == nullptr);
}

} // namespace documents_test
