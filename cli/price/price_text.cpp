#include "cli/price/price_text.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "cli/price/earnings_text.h"
#include "cli/price/lines_text.h"
#include "cli/shared/text/dates.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "engine/words/billing.h"
#include "engine/words/choice_label.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

using lang::cents_text;
using lang::money_text;
using lang::quantity_text;
using lang::terminal_text;

// What people call a line: its label, or its name with spaces.
std::string called(const std::string& name, const std::string& label, bool names) {
    if (names || label.empty()) {
        std::string text = terminal_text(name);
        if (!names)
            std::replace(text.begin(), text.end(), '_', ' ');
        return text;
    }
    return terminal_text(label);
}

class Page {
  public:
    Page(const engine::PriceAnswer& answer, PricePage page)
        : answer_(answer),
          estimate_(answer.estimate),
          page_(std::move(page)) {}

    std::string draw() {
        head();
        if (answer_.has_price && page_.part.empty()) {
            price();
            steps();
            out_ += earnings_text(estimate_, page_.color);
            costs();
            quantities();
        } else {
            out_ += lines_text(answer_, page_);
        }
        remarks("Conditions met", answer_.conditions, "");
        std::vector<std::string> cautions;
        for (const engine::CautionRow& row : estimate_.cautions)
            cautions.push_back(row.text);
        remarks("Cautions", cautions, "! ");
        out_ += '\n' + faint(standing_line, page_.color) + '\n';
        return std::move(out_);
    }

  private:
    void section(const std::string& title) { out_ += '\n' + bold(title, page_.color) + '\n'; }

    // The options that were not taken: "Tree rows; Crossed (take one with --option)"
    static std::string options(const std::vector<std::string>& titles) {
        std::string text;
        for (const std::string& title : titles)
            text += (text.empty() ? "" : "; ") + title;
        return text.empty() ? "" : text + " (take one with --option)";
    }

    // "2027 (2027.season); nothing here uses its `wages`", or "… uses 13 of its values"
    static std::string season(const engine::JobHead& job) {
        if (job.season.empty())
            return {};
        constexpr std::size_t most_named = 3;
        const std::size_t unused = job.season_unused.size();
        std::string names;
        for (const std::string& name : job.season_unused)
            names += (names.empty() ? "its `" : ", `") + name + "`";
        const std::string head = job.season + " (" + job.season_file + ")";
        if (unused == 0)
            return head;
        return head + "; nothing here uses " +
               (unused <= most_named ? names : count_text(unused) + " of its values");
    }

    void head() {
        const engine::JobHead& job = answer_.job;
        out_ += heading(terminal_text(job.title.empty() ? job.model : job.title), page_.color) +
                not_for_the_customer(page_.color);
        Table table({{"", Align::Left}, {"", Align::Left, true}});
        const auto add = [&](const char* what, const std::string& text) {
            if (!text.empty())
                table.row({what, terminal_text(text)});
        };
        add("for", job.who);
        if (answer_.dates)
            add("dates", dates_words(*answer_.dates));
        else
            add("date", lang::day_text(job.date));
        add("option", job.option);
        if (job.option.empty())
            add(job.options.size() == 1 ? "option" : "options", options(job.options));
        if (!job.title.empty())
            add("model", job.model);
        add("season", season(job));
        out_ += table.text(page_.color);
    }

    // An item of which there is nothing, such as an extra that this job does not need.
    static bool nothing(const engine::ItemRow& item) { return item.cents == 0 && item.cost == 0; }

    void price() {
        section("Price");
        Table table({{"", Align::Left, true},
                     {"", Align::Right},
                     {"", Align::Left},
                     {"", Align::Right, false, true}});
        for (const engine::ItemRow& item : estimate_.items) {
            if (nothing(item))
                continue;
            const bool lump = item.per.empty();
            table.row({terminal_text(item.title),
                       lump ? "" : quantity_text(item.quantity, item.per),
                       lump                 ? "lump sum"
                       : item.quantity == 0 ? ""
                                            : "at " + engine::billed_rate_text(item.rate, item.per),
                       cents_text(item.cents)});
        }
        table.rule();
        const bool per = !estimate_.per.empty();
        table.row(
            {"Total", per ? quantity_text(estimate_.per_quantity, estimate_.per) : "",
             per && estimate_.per_quantity != 0
                 ? "at " + quantity_text(estimate_.price_per_unit, "$/" + estimate_.per) + " all in"
                 : "",
             cents_text(estimate_.price_cents)},
            true);
        out_ += table.text(page_.color);
    }

    void steps() {
        if (std::all_of(estimate_.items.begin(), estimate_.items.end(),
                        [](const auto& item) { return item.steps.empty(); }))
            return;
        section("From cost to price");
        Table table({{"", Align::Left, true}, {"added"}, {"subtotal"}});
        for (const engine::ItemRow& item : estimate_.items) {
            if (nothing(item))
                continue;
            table.row({terminal_text(item.title) + ": cost", "", money_text(item.cost)});
            for (const engine::StepRow& step : item.steps) {
                table.row({"  " + terminal_text(step.shown), money_text(step.added),
                           money_text(step.sum)});
            }
        }
        out_ += table.text(page_.color);
    }

    struct PartOfCosts {
        std::string title;
        std::vector<const engine::CostRow*> costs;
    };
    std::vector<PartOfCosts> cost_parts() const { // in the order of their first cost
        std::vector<PartOfCosts> parts;
        std::unordered_map<std::string_view, std::size_t> place;
        for (const engine::CostRow& cost : estimate_.costs) {
            const auto [there, is_new] = place.try_emplace(cost.part, parts.size());
            if (is_new)
                parts.push_back({cost.part, {}});
            parts[there->second].costs.push_back(&cost);
        }
        return parts;
    }

    // One number of decimals for a column: two, or those of the money, and as many more as its
    // smallest figure needs to have two digits that say something, up to five.
    int decimals_of(double engine::CostRow::*figure) const {
        int decimals = figure == &engine::CostRow::rate ? lang::shown_money().decimals() : 2;
        for (const engine::CostRow& cost : estimate_.costs)
            if (const double size = std::abs(cost.*figure); size > 0 && cost.amount != 0)
                decimals = std::max(
                    decimals, std::min(5, 1 - static_cast<int>(std::floor(std::log10(size)))));
        return decimals;
    }
    static std::string in_column(double value, const std::string& unit, int decimals) {
        if (!std::isfinite(value))
            return quantity_text(value, unit);
        if (const std::size_t money = lang::money_in(unit); money > 0)
            return money_text(value, decimals) + unit.substr(money);
        const std::string digits = lang::fixed_text(std::abs(value), decimals);
        const std::string sign = value < 0 ? "-" : "";
        return unit.empty() || unit == "1" ? sign + digits : sign + digits + " " + unit;
    }

    void costs() {
        section("Costs");
        const bool per = !estimate_.per.empty();
        std::vector<Column> columns{
            {"", Align::Left, true}, {"rate"}, {"times"}, {"amount", Align::Right, false, true}};
        if (per)
            columns.push_back({"per " + estimate_.per, Align::Right, false, true});
        columns.push_back({"share", Align::Right, false, true});
        Table table(columns);
        const auto row = [&](std::vector<std::string> cells, double amount, double per_unit,
                             double share, bool strong) {
            cells.push_back(money_text(amount));
            if (per)
                cells.push_back(money_text(per_unit));
            cells.push_back(percent_text(share));
            table.row(std::move(cells), strong);
        };
        const double divisor = per && estimate_.per_quantity != 0 ? estimate_.per_quantity : 1;
        std::string not_charged;
        const int rate_decimals = decimals_of(&engine::CostRow::rate);
        const int quantity_decimals = decimals_of(&engine::CostRow::quantity);
        for (const PartOfCosts& part : cost_parts()) {
            const bool any = std::any_of(part.costs.begin(), part.costs.end(),
                                         [](const auto* cost) { return cost->amount != 0; });
            if (!part.title.empty() && any) {
                double amount = 0;
                for (const engine::CostRow* cost : part.costs)
                    amount += cost->amount;
                row({terminal_text(part.title), "", ""}, amount, amount / divisor,
                    estimate_.cost_total == 0 ? 0 : amount / estimate_.cost_total, true);
            }
            for (const engine::CostRow* of_part : part.costs) {
                const engine::CostRow& cost = *of_part;
                const std::string name = called(cost.name, cost.label, page_.names);
                if (cost.amount == 0) {
                    not_charged += (not_charged.empty() ? "" : "; ") + name;
                    continue;
                }
                row({"  " + name, in_column(cost.rate, cost.rate_unit, rate_decimals),
                     in_column(cost.quantity, cost.quantity_unit, quantity_decimals)},
                    cost.amount, cost.per_unit, cost.share, false);
            }
        }
        table.rule();
        row({"Direct cost", "", ""}, estimate_.cost_total, estimate_.cost_total / divisor, 1, true);
        out_ += table.text(page_.color);
        out_ += "  " + wrap("Rates and quantities are rounded; amounts are exact.", page_width, 2) +
                "\n";
        if (!not_charged.empty())
            out_ += "  Not charged: " + wrap(not_charged + ".", page_width, 15) + "\n";
        by_hour();
    }

    void by_hour() {
        const engine::HourlyCosts& hourly = answer_.by_hour;
        std::string what;
        for (const std::size_t i : hourly.costs) {
            const engine::CostRow& cost = estimate_.costs[i];
            what += (what.empty() ? "" : "; ") + called(cost.name, cost.label, page_.names);
        }
        if (hourly.hours > 0)
            out_ += "  " +
                    wrap("Hourly costs: " + money_text(hourly.per_hour) + "/h over " +
                             quantity_text(hourly.hours, "h") + ": " + what + ".",
                         page_width, 4) +
                    "\n";
    }

    // Those of the job's own model; what used models count stands in `--quantities` and in the
    // JSON.
    void quantities() {
        Table table({{"", Align::Left, true}, {"", Align::Right}, {"", Align::Left}});
        for (const engine::QuantityRow& row : estimate_.quantities) {
            if (page_.all_quantities || row.own) {
                const std::string value = row.choice.empty()
                                              ? quantity_text(row.value, row.unit)
                                              : terminal_text(engine::choice_label(row.choice));
                table.row({called(row.name, row.label, page_.names), value,
                           page_.names || row.label.empty() ? "" : terminal_text(row.name)});
            }
        }
        if (!table.empty()) {
            section("Quantities behind the price");
            out_ += table.text(page_.color);
        }
    }

    void remarks(const char* title, const std::vector<std::string>& texts,
                 const std::string& mark) {
        if (texts.empty())
            return;
        section(title);
        for (const std::string& text : texts) {
            const std::string line =
                "  " + mark + wrap(terminal_text(text), page_width, 2 + mark.size());
            out_ += (mark.empty() ? line : warm(line, page_.color)) + '\n';
        }
    }

    const engine::PriceAnswer& answer_;
    const engine::Estimate& estimate_;
    PricePage page_;
    std::string out_;
};

} // namespace

std::string price_text(const engine::PriceAnswer& answer, PricePage page) {
    return Page(answer, std::move(page)).draw();
}

} // namespace acre::cli
