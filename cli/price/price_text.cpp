#include "cli/price/price_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "engine/words/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

using lang::cents_text;
using lang::money_text;
using lang::quantity_text;
using lang::terminal_text;

std::string percent(double share) {
    const long tenths = std::lround(share * 1000);
    return std::to_string(tenths / 10) + "." + std::to_string(std::labs(tenths % 10)) + " %";
}

// What people call a line: its label, or its name with blanks.
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
    Page(const lang::CheckedSheet& sheet, const engine::Estimate& estimate,
         const lang::SourceMap& sources, PricePage page)
        : sheet_(sheet),
          estimate_(estimate),
          sources_(sources),
          page_(page) {
        for (const lang::Block& block : sheet->blocks)
            blocks_.insert(block.name);
    }

    std::string draw() {
        head();
        price();
        steps();
        costs();
        quantities();
        remarks("Conditions that hold", conditions_met(sheet_, sources_), "");
        std::vector<std::string> cautions;
        for (const engine::CautionRow& row : estimate_.cautions)
            cautions.push_back(row.text);
        remarks("Cautions", cautions, "! ");
        out_ += '\n' + faint(standing_line, page_.color) + '\n';
        return std::move(out_);
    }

  private:
    void section(const std::string& title) { out_ += '\n' + bold(title, page_.color) + '\n'; }

    // The options that were not taken: "Tree rows"; "Crossed" (--option TITLE)
    static std::string options(const std::vector<std::string>& titles) {
        std::string text;
        for (const std::string& title : titles)
            text += (text.empty() ? "" : "; ") + title;
        return text.empty() ? "" : text + " (take one with --option)";
    }

    void head() {
        const lang::JobInfo& job = sheet_->job;
        out_ += bold(terminal_text(job.title.empty() ? job.model_title : job.title), page_.color) +
                '\n';
        Table table({{"", Align::Left}, {"", Align::Left, true}});
        const auto add = [&](const char* what, const std::string& text) {
            if (!text.empty())
                table.row({what, terminal_text(text)});
        };
        add("for", job.who);
        add("date", job.date ? date_text(*job.date) : "");
        add("option", job.option);
        if (job.option.empty())
            add(job.options.size() == 1 ? "option" : "options", options(job.options));
        if (!job.title.empty())
            add("model", job.model_title);
        add("season", job.season_title);
        out_ += table.text(page_.color);
    }

    void price() {
        section("Price");
        Table table({{"", Align::Left, true},
                     {"", Align::Right},
                     {"", Align::Left},
                     {"", Align::Right, false, true}});
        for (const engine::ItemRow& item : estimate_.items) {
            const bool lump = item.per.empty();
            table.row({terminal_text(item.title),
                       lump ? "" : quantity_text(item.quantity, item.per),
                       lump ? "a lump" : "at " + quantity_text(item.rate, "$/" + item.per),
                       cents_text(item.cents)});
        }
        table.rule();
        const bool per = !estimate_.per.empty();
        table.row(
            {"Total", per ? quantity_text(estimate_.per_quantity, estimate_.per) : "",
             per ? "at " + quantity_text(estimate_.price_per_unit, "$/" + estimate_.per) + " all in"
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
        Table table({{"", Align::Left, true}, {"adds"}, {"makes"}});
        for (const engine::ItemRow& item : estimate_.items) {
            table.row({terminal_text(item.title) + ", its costs", "", money_text(item.cost)});
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
            cells.push_back(percent(share));
            table.row(std::move(cells), strong);
        };
        const double divisor = per && estimate_.per_quantity != 0 ? estimate_.per_quantity : 1;
        std::string nothing;
        for (const PartOfCosts& part : cost_parts()) {
            if (!part.title.empty()) {
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
                    nothing += (nothing.empty() ? "" : "; ") + name;
                    continue;
                }
                row({"  " + name, quantity_text(cost.rate, cost.rate_unit),
                     quantity_text(cost.quantity, cost.quantity_unit)},
                    cost.amount, cost.per_unit, cost.share, false);
            }
        }
        table.rule();
        row({"All costs", "", ""}, estimate_.cost_total, estimate_.cost_total / divisor, 1, true);
        out_ += table.text(page_.color);
        if (!nothing.empty())
            out_ += "  Nothing for: " + wrap(nothing, page_width, 15) + ".\n";
        if (const HourlyCosts hourly = hourly_costs(estimate_); hourly.hours > 0) {
            out_ += "  The costs by the hour make " + quantity_text(hourly.per_hour, "$/h") +
                    " over " + quantity_text(hourly.hours, "h") + ".\n";
        }
    }

    // "acres", or "north.acres" of a block.
    bool is_of_the_job(const std::string& name) const {
        const auto dot = name.find('.');
        return dot == std::string::npos || (name.find('.', dot + 1) == std::string::npos &&
                                            blocks_.contains(name.substr(0, dot)));
    }

    // Those of the job's own model; what used models count stands in `--quantities` and in the
    // JSON.
    void quantities() {
        Table table({{"", Align::Left, true}, {"", Align::Right}, {"", Align::Left}});
        for (const engine::QuantityRow& row : estimate_.quantities) {
            if (page_.all_quantities || is_of_the_job(row.name)) {
                const std::string value = row.choice.empty() ? quantity_text(row.value, row.unit)
                                                             : terminal_text(row.choice);
                table.row({called(row.name, row.label, page_.names), value,
                           row.label.empty() ? "" : terminal_text(row.name)});
            }
        }
        if (!table.empty()) {
            section("Quantities behind it");
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

    const lang::CheckedSheet& sheet_;
    const engine::Estimate& estimate_;
    const lang::SourceMap& sources_;
    PricePage page_;
    std::unordered_set<std::string> blocks_; // names
    std::string out_;
};

} // namespace

std::string price_text(const lang::CheckedSheet& sheet, const engine::Estimate& estimate,
                       const lang::SourceMap& sources, PricePage page) {
    return Page(sheet, estimate, sources, page).draw();
}

HourlyCosts hourly_costs(const engine::Estimate& estimate) {
    const engine::CostRow* largest = nullptr;
    for (const engine::CostRow& cost : estimate.costs)
        if (cost.quantity_unit == "h" && cost.rate_unit == "$/h" &&
            (largest == nullptr || cost.amount > largest->amount))
            largest = &cost;
    HourlyCosts hourly;
    int sharing = 0;
    for (const engine::CostRow& cost : estimate.costs) {
        if (largest != nullptr && cost.quantity_unit == "h" && cost.rate_unit == "$/h" &&
            cost.quantity == largest->quantity) {
            hourly.per_hour += cost.rate;
            ++sharing;
        }
    }
    hourly.hours = sharing >= 2 ? largest->quantity : 0;
    return hourly;
}

std::vector<std::string> conditions_met(const lang::CheckedSheet& sheet,
                                        const lang::SourceMap& sources) {
    std::vector<std::string> texts;
    std::unordered_set<std::string> seen;
    for (const lang::Condition& condition : sheet->requires_) {
        if (condition.condition == lang::none)
            continue;
        std::string text = engine::source_text(sources, sheet->nodes[condition.condition].span);
        if (seen.insert(text).second)
            texts.push_back(std::move(text));
    }
    return texts;
}

std::string date_text(const lang::ast::Date& date) {
    constexpr std::array months{"January",   "February", "March",    "April",
                                "May",       "June",     "July",     "August",
                                "September", "October",  "November", "December"};
    const auto month = static_cast<std::size_t>(std::clamp(date.month, 1, 12) - 1);
    return std::to_string(date.day) + " " + months[month] + " " + std::to_string(date.year);
}

} // namespace acre::cli
