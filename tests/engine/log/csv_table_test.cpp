// What a text of CSV has of rows and cells, and where they stand.
#include "engine/log/csv_table.h"

#include <string>

#include <doctest/doctest.h>

namespace csv_table_test {

using namespace acre::engine;

namespace {

// Rows and cells as one text: "a|b/1|2".
std::string cells_of(const CsvTable& table) {
    std::string out;
    for (const CsvRow& row : table.rows) {
        out += out.empty() ? "" : "/";
        for (std::size_t i = 0; i < row.size(); ++i)
            out += (i == 0 ? "" : "|") + row[i].text;
    }
    return out;
}
std::string read(const std::string& text, char between = ',') {
    const CsvTable table = read_csv(text, 0, 100, 20, between);
    return table.well_formed ? cells_of(table) : "not well formed";
}

} // namespace

TEST_CASE("rows end with any line end, the last with none, and blank ones are left out") {
    CHECK(read("a,b\n1,2\n") == "a|b/1|2");
    CHECK(read("a,b\r\n1,2") == "a|b/1|2");
    CHECK(read("a,b\r1,2\r") == "a|b/1|2");
    CHECK(read("\n\na,b\n\n\r\n1,2\n\n") == "a|b/1|2");
    CHECK(read("a,b\n   \n\"\"\n1,2\n") == "a|b/1|2"); // a cell of nothing alone
    CHECK(read("a,b\n,\n1,\n , \n") == "a|b/1|");      // two cells of nothing
    CHECK(read("") == "");
    CHECK(read("\n\n") == "");
}

TEST_CASE("a cell in quotes has what stands between them") {
    CHECK(read("\"a,b\",c\n") == "a,b|c");
    CHECK(read("\"say \"\"no\"\"\",\"two\nlines\"\n") == "say \"no\"|two\nlines");
    CHECK(read(" a , b \n") == "a|b"); // blanks around a cell are none of it
    CHECK(read("\" a \",b\n") == " a |b");
    CHECK(read("a;b,c\n", ';') == "a|b,c");
    for (const char* wrong : {"\"a,b\n", "a\"b,c\n", "\"a\"b,c\n"})
        CHECK(read(wrong) == "not well formed");
}

TEST_CASE("the first cell of a row is on the row's own line, whatever ends the one before") {
    for (const char* text : {"a,b\r\nc,d", "a,b\n\nc,d", "\r\nab\rc,d", "\"a\r\n\"\nc,d"}) {
        const CsvTable table = read_csv(text, 0, 100, 20);
        REQUIRE(table.rows.size() == 2);
        const acre::lang::Span span = table.rows[1][0].span;
        CHECK(std::string(text).substr(span.begin, span.end - span.begin) == "c");
    }
}

TEST_CASE("a cell knows its place in the text") {
    const CsvTable table = read_csv("ab,\"c,d\"\n1,,22\n", 7, 100, 20);
    REQUIRE(table.rows.size() == 2);
    const auto place = [&](std::size_t row, std::size_t cell) {
        const acre::lang::Span span = table.rows[row][cell].span;
        CHECK(span.file == 7);
        return std::to_string(span.begin) + " " + std::to_string(span.end);
    };
    CHECK(place(0, 0) == "0 2");
    CHECK(place(0, 1) == "3 8");
    CHECK(place(1, 0) == "9 10");
    CHECK(place(1, 1) == "11 11");
    CHECK(place(1, 2) == "12 14");
    CHECK(read_csv("a\n\"b", 7, 100, 20).end.begin == 4);
}

TEST_CASE("no more rows are read than asked for, and one cell too many is enough to tell") {
    const auto rows = [](const std::string& text) { return read_csv(text, 0, 2, 3); };
    CHECK_FALSE(rows("head\n1\n2\n").too_many_rows); // the first row is not counted
    CHECK(rows("head\n1\n2\n").rows.size() == 3);
    CHECK(rows("head\n1\n2\n3\n").too_many_rows);
    CHECK(rows("head\n1\n2\n3\n4\n").rows.size() == 3);
    CHECK_FALSE(rows("head\n1\n2\n\n\n").too_many_rows);
    CHECK(rows("1,2,3\n").rows[0].size() == 3);
    CHECK(rows("1,2,3,4\n").rows[0].size() == 4);
    CHECK(rows("1,2,3,4,5,6\n").rows[0].size() == 4);
}

TEST_CASE("a semicolon or a tab parts the cells where the first line has some and no comma") {
    CHECK(between_cells("a;b\n1,2\n") == ';');
    CHECK(between_cells("a,b;c\n") == ',');
    CHECK(between_cells("a;b,c\n") == ',');
    CHECK(between_cells("\"a,b\";c\n") == ';');
    CHECK(between_cells("\"a;b\"\n1;2\n") == ',');
    CHECK(between_cells("a\tb\n") == '\t');
    CHECK(between_cells("a\tb;c\n") == ';');
    CHECK(between_cells("a\tb,c\n") == ',');
    CHECK(between_cells("\"a\tb\"\n") == ',');
    CHECK(between_cells("") == ',');
}

} // namespace csv_table_test
