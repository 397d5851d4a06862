// What a price leaves, and what `--set` changes, below it.
#include <doctest/doctest.h>

#include <string>

#include "cli/price/changed_text.h"
#include "cli/price/earnings_text.h"

namespace price_text_test {

using namespace acre;

TEST_CASE("the profit is told in its parts, those of half a cent and more") {
    engine::Estimate estimate;
    engine::Earnings& e = estimate.earnings;
    e.price = 1'000;
    e.direct_cost = 600;
    e.overhead = 100; // leaves 300, three tenths of the price
    CHECK(cli::earnings_text(estimate, false) ==
          "\nWhat the price leaves\n"
          "                                                 of the price\n"
          "  contribution: price less direct cost  $400.00       40.00 %\n"
          "  overhead carried                      $100.00       10.00 %\n"
          "\n"
          "  profit: contribution less overhead    $300.00       30.00 %\n");
    estimate.target_margin = "12 %";
    e.target_margin = 120;
    e.markup = 60;
    e.minimum = 70;
    e.rounding = 0.005;
    e.reserve = 80;
    e.uncovered = 30;
    const std::string all = cli::earnings_text(estimate, false);
    CHECK(
        all.find("  profit if the reserve is spent        $220.00       22.00 %\n"
                 "  Profit 30.00 %: target margin 12 % $120.00, markup $60.00, up to the minimum\n"
                 "    $70.00, rounding $0.01, reserve $80.00, cost in no price -$30.00.\n") !=
        std::string::npos);
    e.rounding = -0.005;
    CHECK(cli::earnings_text(estimate, false).find("rounding -$0.01") != std::string::npos);
    e.rounding = 0.0049;
    CHECK(cli::earnings_text(estimate, false).find("rounding") == std::string::npos);
}

TEST_CASE("what --set changes stands without its reasons where there are none") {
    engine::ChangedPrice changed;
    engine::ChangedFigure figure;
    figure.name = "price.total";
    figure.label = "price";
    figure.unit = "$";
    figure.before = 10;
    figure.after = 12;
    figure.before_text = "$10.00";
    figure.after_text = "$12.00";
    changed.figures = {figure};
    const std::string page = "\nWhat --set changes\n"
                             "         in the files  with --set  difference\n"
                             "  price        $10.00      $12.00      +$2.00\n";
    CHECK(cli::changed_text(changed, false) == page);
    changed.why.emplace();
    CHECK(cli::changed_text(changed, false) == page);
    changed.why->rows.resize(2);
    changed.why->rows[0].cents = 200;
    CHECK(cli::changed_text(changed, false).starts_with(page + "  +$2.00"));
}

} // namespace price_text_test
