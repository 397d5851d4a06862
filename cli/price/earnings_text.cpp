#include "cli/price/earnings_text.h"

#include <cmath>

#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using engine::Earnings;
using lang::money_text;

constexpr double half_a_cent = 0.005;

// "target margin 12 % $11,401.37, rounding $66.54, reserve $2,179.38"
std::string made_of(const engine::Estimate& estimate) {
    const Earnings& e = estimate.earnings;
    std::string text;
    const auto add = [&](const std::string& words, double money) {
        if (std::abs(money) >= half_a_cent)
            text += (text.empty() ? "" : ", ") + words + " " + money_text(money);
    };
    const std::string target = lang::terminal_text(estimate.target_margin);
    add("target margin" + (target.empty() ? "" : " " + target), e.target_margin);
    add("markup", e.markup);
    add("up to the minimum", e.minimum);
    add("rounding", e.rounding);
    add("reserve", e.reserve);
    add("cost in no price", -e.uncovered);
    return text;
}

} // namespace

std::string earnings_text(const engine::Estimate& estimate, bool color) {
    const Earnings& e = estimate.earnings;
    Table table({{"", Align::Left, true}, {""}, {"of the price"}});
    const auto row = [&](const char* words, double money, bool strong) {
        table.row({words, money_text(money), percent_text(e.share(money), 2)}, strong);
    };
    row("contribution: price less direct cost", e.contribution(), false);
    row("overhead carried", e.overhead, false);
    table.rule();
    row("profit: contribution less overhead", e.profit(), true);
    if (std::abs(e.reserve) >= half_a_cent)
        row("profit if the reserve is spent", e.after_reserve(), false);
    std::string out = "\n" + bold("What the price leaves", color) + "\n" + table.text(color);
    if (const std::string parts = made_of(estimate); !parts.empty())
        out += remark("Profit " + percent_text(e.margin(), 2) + ": " + parts + ".");
    return out;
}

} // namespace acre::cli
