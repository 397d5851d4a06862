#include <doctest/doctest.h>

#include "cli/shared/text/table.h"

using namespace acre::cli;

TEST_CASE("numbers stand right, words left, and no line ends in blanks") {
    Table table({{"", Align::Left, true}, {"rate"}, {"amount", Align::Right, false, true}});
    table.title("Costs");
    table.row({"fuel", "$187.05/h", "$28,749.59"});
    table.row({"operator", "$68.80/h", ""});
    table.rule();
    table.row({"all", "", "$28,749.59"}, true);
    CHECK(table.text() == "                 rate      amount\n"
                          "  Costs\n"
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
