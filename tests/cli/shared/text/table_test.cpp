#include <doctest/doctest.h>

#include <random>
#include <string>
#include <vector>

#include "cli/shared/text/table.h"
#include "lang/diag/glyph.h"

namespace table_test {

using namespace acre::cli;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

std::size_t widest_line(const std::string& text) {
    std::size_t widest = 0;
    for (const std::string& line : lines_of(text))
        widest = std::max(widest, line.empty() ? 0 : acre::lang::text_columns(line));
    return widest;
}

} // namespace

TEST_CASE("numbers stand right, words left, and no line ends in blanks") {
    Table table({{"", Align::Left, true}, {"rate"}, {"amount", Align::Right, false, true}});
    table.note("Costs");
    table.row({"fuel", "$187.05/h", "$28,749.59"});
    table.row({"operator", "$68.80/h", ""});
    table.rule();
    table.row({"all", "", "$28,749.59"}, true);
    CHECK(table.text() == "                 rate      amount\n"
                          "      Costs\n"
                          "  fuel      $187.05/h  $28,749.59\n"
                          "  operator   $68.80/h\n"
                          "                       ----------\n"
                          "  all                  $28,749.59\n");
}

TEST_CASE("a table that is too wide folds its column of words") {
    Table table({{"", Align::Left, true}, {""}});
    table.row({"shank protectors and shin guards", "$12.00/h"});
    table.row({"  broken-shank reserve, by the hour", "$9.00/h"});
    CHECK(table.text(false, 30) == "  shank protectors    $12.00/h\n"
                                   "  and shin guards\n"
                                   "    broken-shank       $9.00/h\n"
                                   "    reserve, by the\n"
                                   "    hour\n");
}

TEST_CASE("color is all around a line and adds no letter") {
    Table table({{"", Align::Left}});
    table.row({"total"}, true);
    CHECK(table.text(true) == "\x1b[1m  total\x1b[0m\n");
    CHECK(table.text(false) == "  total\n");
}

TEST_CASE("heads fold, and stand on their columns, before anything else is lost") {
    Table table({{"", Align::Left, true}, {"hours a year assumed"}, {"share"}});
    table.row({"crawler", "1,200", "83 %"});
    CHECK(table.text(false, 30) == "           hours a year\n"
                                   "                assumed  share\n"
                                   "  crawler         1,200   83 %\n");
}

TEST_CASE("columns that find no place stand below, figures whole") {
    Table table({{"", Align::Left, true}, {"price"}, {"cost"}, {"left"}});
    table.row({"Old block on the bench", "$9,999,999,999.99", "$9,999,999,999.98", "$0.01"});
    CHECK(table.text(false, 40) == "                                   price\n"
                                   "  Old block on the     $9,999,999,999.99\n"
                                   "  bench\n"
                                   "\n"
                                   "                             cost   left\n"
                                   "  Old block on  $9,999,999,999.98  $0.01\n"
                                   "  the bench\n");
}

TEST_CASE("no table is wider than its page, and money is whole in it") {
    const std::vector<std::string> words{"fuel",
                                         "broken-shank reserve",
                                         "日本の畑です 畑",
                                         "e\xcc\x81tat",
                                         "season_prices.diesel_delivered",
                                         std::string(90, 'x'),
                                         "",
                                         "  operator, by the hour"};
    const std::vector<std::string> money{
        "$0.01", "-$12.50/ac", "$9,999,999,999.99", "-$9,999,999,999.99/h", "no answer", ""};
    std::mt19937 random(7);
    const auto any = [&](const std::vector<std::string>& of) { return of[random() % of.size()]; };
    for (int round = 0; round < 2'000; ++round) {
        std::vector<Column> columns;
        for (std::size_t c = 0, count = 1 + random() % 12; c < count; ++c)
            columns.push_back({any(words), random() % 3 == 0 ? Align::Left : Align::Right,
                               random() % 4 == 0, random() % 2 == 0});
        Table table(columns, random() % 5);
        std::vector<std::string> put;
        for (std::size_t r = 0, count = random() % 4; r < count; ++r) {
            std::vector<std::string> cells;
            for (const Column& column : columns) {
                cells.push_back(column.align == Align::Left ? any(words) : any(money));
                if (column.align == Align::Right)
                    put.push_back(cells.back());
            }
            table.row(cells, random() % 2 == 0);
        }
        table.rule();
        table.note(any(words));
        const std::size_t width = 60 + random() % 21;
        const std::string text = table.text(false, width);
        CHECK_MESSAGE(widest_line(text) <= width, text);
        bool clean = true;
        for (const std::string& line : lines_of(text))
            clean = clean && !line.ends_with(' ');
        CHECK_MESSAGE(clean, text);
        bool whole = true;
        for (const std::string& figure : put)
            whole = whole && text.find(figure) != std::string::npos;
        CHECK_MESSAGE(whole, text);
    }
}

TEST_CASE("a column of nothing is as wide as nothing, and a row need not have all cells") {
    Table table({{"", Align::Left}, {""}, {"", Align::Left}});
    table.row({"a", "", "b"});
    table.row({"cd"});
    table.row({"", "", "e", "one too many"});
    CHECK(table.text() == "  a     b\n"
                          "  cd\n"
                          "        e\n");
}

TEST_CASE("of two columns of words the one that does not fold gives way first, after sixteen") {
    Table table({{"", Align::Left, true}, {"", Align::Left}});
    table.row({"alpha beta gamma delta", "one two three four five"});
    // 2 + 22 + 2 + 23 are 49; the first gives 6, to 16, the second the other 13.
    CHECK(table.text(false, 30) == "  alpha beta gamma  one two\n"
                                   "  delta             three four\n"
                                   "                    five\n");
    CHECK(table.text(false, 49) == "  alpha beta gamma delta  one two three four five\n");
    CHECK(table.text(false, 48) == "  alpha beta gamma       one two three four five\n"
                                   "  delta\n");
}

TEST_CASE("spaces within a cell stay where it fits") {
    Table table({{"4 ft    7 ft", Align::Left}});
    table.row({"  --  |  ++ "});
    CHECK(table.text() == "  4 ft    7 ft\n"
                          "    --  |  ++\n");
}

TEST_CASE("spaces before the words of a cell take half of its column at most") {
    Table table({{"", Align::Left, true}, {""}});
    table.row({std::string(20, ' ') + "ab cd", "1"});
    CHECK(table.text(false, 21) == "          ab cd     1\n");
}

} // namespace table_test
