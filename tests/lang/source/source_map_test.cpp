#include <doctest/doctest.h>

#include "lang/source/source_map.h"

namespace source_map_test {

using namespace acre::lang;

TEST_CASE("positions count lines from one and characters from one") {
    const SourceFile file("a.rate", "one\ntw\xC3\xB6 x\r\n\tlast");
    struct {
        std::uint32_t offset, line, column;
    } const rows[] = {{0, 1, 1}, {3, 1, 4},  {4, 2, 1},  {6, 2, 3},  {8, 2, 4},
                      {9, 2, 5}, {12, 3, 1}, {13, 3, 2}, {17, 3, 6}, {999, 3, 6}};
    for (const auto& row : rows) {
        CAPTURE(row.offset);
        CHECK(file.position(row.offset).line == row.line);
        CHECK(file.position(row.offset).column == row.column);
    }
}

TEST_CASE("a line comes without its end, be it LF or CRLF") {
    const SourceFile file("a.rate", "one\r\ntwo\n\nlast");
    CHECK(file.line_count() == 4);
    CHECK(file.line(1) == "one");
    CHECK(file.line(2) == "two");
    CHECK(file.line(3).empty());
    CHECK(file.line(4) == "last");
    CHECK(file.line_begin(4) == 10);
}

TEST_CASE("a text that ends in a line end has an empty last line, and an empty text has one line") {
    CHECK(SourceFile("a", "x\n").line_count() == 2);
    CHECK(SourceFile("a", "x\n").line(2).empty());
    CHECK(SourceFile("a", "").line_count() == 1);
    CHECK(SourceFile("a", "").line(1).empty());
    CHECK(SourceFile("a", "").position(0).line == 1);
}

TEST_CASE("spans are cut from the text they point into, and never past its end") {
    SourceMap map;
    const FileId first = map.add("a.rate", "travel = area");
    const FileId second = map.add("b.rate", "x");
    const std::string_view kept = map.text({first, 0, 6});
    for (int i = 0; i < 100; ++i)
        map.add("more", "more");
    CHECK(kept == "travel"); // texts do not move
    CHECK(map.text({first, 9, 99}) == "area");
    CHECK(map.text({second, 5, 9}).empty());
    CHECK(map.text({9999, 0, 1}).empty());
    CHECK(join({first, 4, 6}, {first, 9, 13}) == Span{first, 4, 13});
}

} // namespace source_map_test
