// A firm whose money is no dollar and has no cents of its own: the workbook rounds to its step and
// shows its sign, and what is read back is in it.
#include <doctest/doctest.h>

#include <set>

#include "engine/workbook/changed_givens.h"
#include "tests/support/priced.h"
#include "tests/workbook/book_case.h"

namespace money_test {

using namespace acre;
using namespace acre::tests;

namespace {

Priced of_firm(const std::string& money, const std::string& step, const std::string& unit,
               const std::vector<std::pair<std::string, std::string>>& sets = {}) {
    Choices choices;
    choices.sets = sets;
    const std::string before = unit.size() == 3 ? "" : unit;
    const std::string after = unit.size() == 3 ? " " + unit : "";
    const auto amount = [&](const std::string& digits) { return before + digits + after; };
    choices.files = {
        {"kestrel.firm", "firm \"Kestrel\"\nmoney " + money + " to " + step + "\n"},
        {"m.rate", "model \"m\"\nmoney " + money.substr(0, 3) + "\ngiven fuel = " + amount("5.07") +
                       "/gal  within " + amount("1") + "/gal .. " + amount("9") +
                       "/gal\ngiven gallons = 7.3 gal\ncost diesel : " + unit +
                       "/gal = fuel over gallons\nprice \"Work\" per gal of gallons\n  margin 10 "
                       "%\nprice \"Haul\" lump\n  margin 3 %\n"}};
    return priced_ok("job \"j\"\nmodel \"m\"\nfirm \"kestrel\"\n", choices);
}

// The formats of all figures that begin with a sign.
std::set<std::string> signs(const engine::Workbook& book) {
    std::set<std::string> all;
    for (const engine::BookSheet& sheet : book.sheets)
        for (const engine::BookCell& cell : sheet.cells)
            if (cell.format.starts_with('"'))
                all.insert(cell.format.substr(0, cell.format.find('"', 1) + 1));
    return all;
}

} // namespace

TEST_CASE("the price is rounded to the step of the firm's money, by a spreadsheet too") {
    struct Money {
        const char* is;
        const char* step;
        const char* unit;
        const char* sign;
    };
    const ScratchFolder folder;
    std::vector<BookCase> books;
    for (const Money& money :
         {Money{"CHF \"Fr.\"", "0.05", "CHF", "\"Fr. \""}, Money{"JPY \"¥\"", "¥1", "¥", "\"¥\""},
          Money{"USD \"$\"", "$0.01", "$", "\"$\""}}) {
        const Priced p = of_firm(money.is, money.step, money.unit);
        books.push_back(book_case("m" + std::to_string(books.size()), {*p.made}));
        CHECK(signs(books.back().book) == std::set<std::string>{money.sign});
        books.back().save(folder.path());
        Dice dice(books.size());
        books.push_back(changed(books.back(), books.back().name + "c", 2, dice));
        books.back().save(folder.path());
    }
    // 5.07 * 7.3 is 37.011: over 0.9 that is 41.1233…, over 0.97 38.1556…, each to the step.
    const auto charged_in = [](const BookCase& book) {
        return dollars_charged(*book.jobs[0], book.jobs[0]->values());
    };
    CHECK(charged_in(books[0]) == doctest::Approx(41.10 + 38.15));
    CHECK(charged_in(books[2]) == doctest::Approx(41 + 38));
    CHECK(charged_in(books[4]) == doctest::Approx(41.12 + 38.16));
    lang::show_money({});
    if (!has_program("soffice")) {
        MESSAGE("SKIPPED: LibreOffice is not there; .dev/install --tests installs it");
        return;
    }
    const auto cells = by_libreoffice(folder.path());
    Judged count;
    for (const BookCase& book : books)
        for (const std::string& fault : BookJudge(book, cells.at(book.name)).judge(count))
            FAIL_CHECK(fault);
    CHECK(count.prices == books.size());
}

TEST_CASE("what is read back is in the firm's money, and with every digit") {
    for (const auto& [money, step, unit, typed, wanted] :
         {std::tuple{"CHF \"Fr.\"", "0.05", "CHF", "\"Fr. 6.1\"", "6.1 CHF/gal"},
          std::tuple{"CHF \"Fr.\"", "0.05", "CHF", "CHF 6.1", "6.1 CHF/gal"},
          std::tuple{"USD \"$\"", "$0.01", "$", "$6.10", "$6.1/gal"},
          std::tuple{"USD \"$\"", "$0.01", "$", "6.123456789012", "$6.123456789012/gal"}}) {
        const Priced p = of_firm(money, step, unit);
        const auto changes = engine::changed_givens(
            p, {}, "g.csv", std::string("name,value,your reason\nfuel,") + typed + ",dock\n");
        REQUIRE(changes);
        REQUIRE(changes->size() == 1);
        CHECK(changes->front().value == wanted);
        // And the job takes it.
        const Priced again = of_firm(money, step, unit, {{"fuel", changes->front().value}});
        CHECK(again.value("fuel") ==
              doctest::Approx(
                  std::string(typed).find("123") == std::string::npos ? 6.1 : 6.123456789012));
    }
    lang::show_money({});
}

} // namespace money_test
