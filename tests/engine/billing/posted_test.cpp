// The bookkeeper's posted prices: what is read, and what is refused at its row and column.
#include "engine/billing/posted.h"

#include <doctest/doctest.h>

#include "lang/units/calendar.h"

namespace posted_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string head = "week,product,price,source\n";

void refused(const std::string& text, std::uint32_t row, std::uint32_t column,
             const std::string& words) {
    CAPTURE(text);
    const lang::Outcome<PostedPrices> prices = read_posted("posted.csv", text);
    REQUIRE(!prices);
    const lang::Diagnostic& said = prices.said.diagnostics.all()[0];
    CHECK(said.code == lang::Code::J005);
    const auto at =
        prices.said.sources->file(said.primary.span.file).position(said.primary.span.begin);
    CHECK(at.line == row);
    CHECK(at.column == column);
    CHECK_MESSAGE(said.title.find(words) != std::string::npos, said.title);
}

} // namespace

TEST_CASE("a price holds for the seven days of its week") {
    const lang::Outcome<PostedPrices> prices = read_posted(
        "posted.csv", head +
                          "2027-06-28,Off-road  diesel,$4.69,board\n"
                          "2027-06-21,off-road diesel,4.61,board\n2027-06-21,clear diesel,5.2,x\n");
    REQUIRE(prices);
    const auto on = [&](const char* date) {
        const PostedPrice* row = prices->find("off road diesel", *lang::day_number(date));
        return row == nullptr ? 0 : row->price;
    };
    CHECK(on("2027-06-20") == 0);
    CHECK(on("2027-06-21") == 4.61);
    CHECK(on("2027-06-27") == 4.61);
    CHECK(on("2027-06-28") == 4.69);
    CHECK(on("2027-07-04") == 4.69);
    CHECK(on("2027-07-05") == 0);
    CHECK(prices->products.size() == 2);
}

TEST_CASE("weeks as Americans write them, between semicolons") {
    const lang::Outcome<PostedPrices> prices = read_posted(
        "posted.csv", "week mm/dd/yyyy;product;price;source\n6/21/2027;diesel;4.61;board\n");
    REQUIRE(prices);
    CHECK(prices->rows[0].week == "2027-06-21");
}

TEST_CASE(
    "a comma in a price parts thousands between commas, and is not known between semicolons") {
    const auto price = [](const std::string& text) {
        const lang::Outcome<PostedPrices> prices = read_posted("posted.csv", text);
        return prices ? prices->rows.at(0).price : 0;
    };
    CHECK(price(head + "2027-06-21,diesel,\"1,000.00\",board\n") == 1'000); // the most a gallon
    CHECK(price(head + "2027-06-21,diesel,0.01,board\n") == 0.01);
    const std::string semicolons = "week;product;price;source\n";
    CHECK(price(semicolons + "2027-06-21;diesel;4.61;board, on the wall\n") == 4.61);
    refused(semicolons + "2027-06-21;diesel;1,000;board\n", 2, 19, "a price a gallon is needed");
    refused(head + "2027-06-21,diesel,1000.01,board\n", 2, 19, "a price a gallon is needed");
    refused(head + "2027-06-21,diesel,-4.61,board\n", 2, 19, "a price a gallon is needed");
}

TEST_CASE("posted prices that cannot be read are refused whole") {
    refused("", 1, 1, "no rows");
    refused(head, 1, 1, "no rows");
    refused("week,product,price\n2027-06-21,diesel,4.61\n", 1, 1, "`source`");
    refused("week,product,price,source,city\n2027-06-21,diesel,4.61,board,Lisk\n", 1, 27, "`city`");
    refused("week,price,price,product,source\n2027-06-21,4,4,diesel,x\n", 1, 12, "appears twice");
    refused(head + "2027-06-21,diesel,4.61\n", 2, 19, "3 cells");
    refused(head + "6/21/2027,diesel,4.61,board\n", 2, 1, "`week`: no such date");
    refused(head + "2027-06-21,diesel,four,board\n", 2, 19, "`price`");
    refused(head + "2027-06-21,diesel,0,board\n", 2, 19, "`price`");
    refused(head + "2027-06-21,diesel,\"4,61\",board\n", 2, 19, "`price`");
    refused(head + "2027-06-21,,4.61,board\n", 2, 12, "`product`");
    refused(head + "2027-06-21,diesel,4.61,\n", 2, 24, "`source`");
    refused(head + "2027-06-21,diesel,4.61,board\n2027-06-27,diesel,4.7,board\n", 3, 1, "overlap");
    refused(head + "2027-06-21,\"diesel,4.61,board\n", 3, 1, "not valid CSV");
}

TEST_CASE("a column for weeks in another form of date is known by its form alone") {
    const lang::Outcome<PostedPrices> prices =
        read_posted("posted.csv", "week (m/d/yyyy),product,price,source\n6/21/2027,clear,5.2,x\n");
    REQUIRE(prices);
    CHECK(prices->find("clear", *lang::day_number("2027-06-22")) != nullptr);
    refused("week begins,product,price,source\n2027-06-21,clear,5.2,x\n", 1, 1, "unknown column");
}

} // namespace posted_test
