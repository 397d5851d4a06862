// Codes and signs of money, and how amounts are written in money that is not dollars.
#include "lang/units/money.h"

#include <string>

#include <doctest/doctest.h>

#include "lang/units/number_text.h"

namespace money_test {

using namespace acre::lang;

namespace {

// The text of a figure while the money is shown.
class Shown {
  public:
    explicit Shown(const Currency& money) : before_(shown_money()) { show_money(money); }
    ~Shown() { show_money(before_); }
    Shown(const Shown&) = delete;
    Shown& operator=(const Shown&) = delete;

  private:
    Currency before_;
};

} // namespace

TEST_CASE("a code of money is three capital letters in use, and a sign belongs to one") {
    CHECK(is_money_code("USD"));
    CHECK(is_money_code("AED")); // the first and the last of the list
    CHECK(is_money_code("ZMW"));
    for (const char* none : {"", "US", "usd", "USDX", "XXX", "D A", " US"})
        CHECK_FALSE(is_money_code(none));
    CHECK(code_of_sign("$") == "USD");
    CHECK(code_of_sign("\u20AC") == "EUR");
    CHECK(code_of_sign("\u00A3") == "GBP");
    CHECK(code_of_sign("\u00A5") == "JPY");
    CHECK(code_of_sign("USD").empty());
    CHECK(money_sign_size("$38") == 1);
    CHECK(money_sign_size("\u20AC") == 3);
    CHECK(money_sign_size("38$") == 0);
    CHECK(has_dollars("AUD"));
    CHECK(has_dollars("MXN"));
    CHECK_FALSE(has_dollars("EUR"));
    CHECK_FALSE(has_dollars("AU"));
}

TEST_CASE("a unit of money is written by one of the four signs, or else by the code") {
    CHECK(Currency{}.word() == "$");
    CHECK(Currency{"EUR", "\u20AC", 1}.word() == "\u20AC");
    CHECK(Currency{"AUD", "A$", 5}.word() == "AUD");
    CHECK(Currency{"CHF", "Fr.", 5}.word() == "CHF");
    CHECK(Currency{"CHF", "", 1}.word() == "CHF");
    CHECK(Currency{"CHF", "Fr.", 5}.decimals() == 2);
    CHECK(Currency{"JPY", "\u00A5", 100}.decimals() == 0);
    CHECK(Currency{"JPY", "\u00A5", 150}.decimals() == 2);
}

TEST_CASE("letters and points of a sign stand apart from the number, other signs do not") {
    struct Row {
        const char* sign;
        const char* text;
    };
    for (const Row& row : {Row{"$", "$12.50"}, Row{"A$", "A$12.50"}, Row{"kr", "kr 12.50"},
                           Row{"Fr.", "Fr. 12.50"}, Row{"\u20AC", "\u20AC12.50"}}) {
        const Shown shown({"DKK", row.sign, 1});
        CHECK(money_text(12.5) == row.text);
        CHECK(cents_text(1250) == row.text);
    }
}

TEST_CASE("money of whole ones has decimals only where its author wrote them or it is small") {
    const Shown shown({"JPY", "\u00A5", 100});
    CHECK(quantity_text(1234.567, "\u00A5") == "\u00A51,235");
    CHECK(quantity_text(1234.567, "\u00A5/h") == "\u00A51,235/h");
    CHECK(quantity_text(100.125, "\u00A5/h") == "\u00A5100/h"); // from a hundred on
    CHECK(quantity_text(99.9375, "\u00A5/h") == "\u00A599.94/h");
    CHECK(quantity_text(250.5, "\u00A5/h") == "\u00A5250.5/h"); // five digits or fewer
    CHECK(cents_text(123400) == "\u00A51,234");
    CHECK(cents_text(123450) == "\u00A51,234.50");
    CHECK(money_in("\u00A5/h") == 2);
    CHECK(money_in("$") == 1);
    CHECK(money_in("\u00A52") == 0);
}

} // namespace money_test
