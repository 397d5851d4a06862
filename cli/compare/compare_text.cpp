#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/bridge/bridge_text.h"
#include "cli/compare/columns.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

// As many columns as 80 characters hold; more than four go below one another, each time against the
// first.
constexpr std::size_t columns_at_once = 4;

std::string letter(std::size_t column) {
    return std::string(1, static_cast<char>('A' + column % 26));
}

class Page {
  public:
    Page(const Comparison& comparison, bool color) : c_(comparison), color_(color) {}

    std::string draw() {
        const lang::JobInfo& job = c_.columns[0].job->sheet().job;
        out_ = bold(terminal_text(job.title.empty() ? job.model_title : job.title), color_) + "\n";
        for (std::size_t i = 0; i < c_.columns.size(); ++i)
            out_ += fmt::format("  {}  {}{}\n", letter(i), terminal_text(c_.columns[i].name),
                                i == c_.cheapest ? "   <- cheapest" : "");
        for (const std::string& name : c_.unanswered)
            out_ += fmt::format("  -  {}   has no price: see the errors\n", terminal_text(name));
        std::vector<std::size_t> shown = {0};
        for (std::size_t i = 1; i < c_.columns.size(); ++i) {
            shown.push_back(i);
            if (shown.size() == columns_at_once || i + 1 == c_.columns.size()) {
                tables(shown);
                shown = {0};
            }
        }
        if (c_.columns.size() == 1)
            tables({0});
        why();
        return std::move(out_);
    }

  private:
    const Comparison& c_;
    bool color_;
    std::string out_;

    void tables(const std::vector<std::size_t>& shown) {
        section("Price", c_.prices, shown);
        section("Costs", c_.costs, shown);
        section("Quantities", c_.quantities, shown);
        section("What is not the same", c_.differences, shown);
    }
    void section(const char* title, const std::vector<CompareRow>& rows,
                 const std::vector<std::size_t>& shown) {
        if (rows.empty())
            return;
        std::vector<Column> heads = {{title, Align::Left, true}};
        for (const std::size_t i : shown)
            heads.push_back({letter(i) + (i == c_.cheapest ? "*" : " ")});
        Table table(heads);
        for (const CompareRow& row : rows) {
            std::vector<std::string> cells = {
                terminal_text(row.label.empty() ? row.name : row.label)};
            for (const std::size_t i : shown) {
                if (!row.choice.empty())
                    cells.push_back(terminal_text(row.choice[i]));
                else if (!std::isfinite(row.value[i]))
                    cells.push_back("-");
                else
                    cells.push_back(row.unit == "$" ? lang::money_text(row.value[i])
                                                    : lang::quantity_text(row.value[i], row.unit));
            }
            const bool last = row.name == "price.total" || row.name == "cost.total" ||
                              row.name == "price.per_unit";
            table.row(std::move(cells), last);
        }
        out_ += "\n" + table.text(color_);
    }
    void why() {
        for (const Comparison::Why& why : c_.why) {
            if (!why.why_not.empty()) {
                out_ += fmt::format("\nNo bridge from A to {}: {}\n", letter(why.column),
                                    terminal_text(why.why_not));
                continue;
            }
            out_ += fmt::format("\nFrom A to {}, in {}\n", letter(why.column), why.bridge.unit);
            Table table({{""}, {"", Align::Left, true}});
            for (const engine::BridgeRow& row : why.bridge.rows)
                if (row.cents != 0)
                    table.row({(row.cents > 0 ? "+" : "") + lang::cents_text(row.cents),
                               bridge_row_text(row)});
            table.rule();
            const std::int64_t all = why.bridge.after_cents - why.bridge.before_cents;
            table.row({(all > 0 ? "+" : "") + lang::cents_text(all), "in all"}, true);
            out_ += table.text(color_);
        }
    }
};

} // namespace

std::string compare_text(const Comparison& comparison, bool color) {
    return Page(comparison, color).draw();
}

} // namespace acre::cli
