#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/bridge/bridge_text.h"
#include "cli/compare/compare_page.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "engine/words/choice_label.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

// At most so many columns beside each other; the rest go below, each time against the first.
constexpr std::size_t columns_at_once = 4;

std::string cell(const engine::CompareRow& row, std::size_t column) {
    if (!row.choice.empty())
        return terminal_text(row.is_choice ? engine::choice_label(row.choice[column])
                                           : row.choice[column]);
    if (!std::isfinite(row.value[column]))
        return "-";
    return lang::money_in(row.unit) == row.unit.size()
               ? lang::money_text(row.value[column])
               : terminal_text(lang::quantity_text(row.value[column], row.unit));
}

class ComparePage {
  public:
    ComparePage(const engine::CompareAnswer& comparison, bool color)
        : c_(comparison),
          color_(color) {}

    std::string draw() {
        out_ = heading(terminal_text(c_.title), color_) + not_for_the_customer(color_);
        names();
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
        minimums();
        why();
        return std::move(out_);
    }

  private:
    const engine::CompareAnswer& c_;
    bool color_;
    std::string out_;

    // Of jobs of different sizes the one that is cheapest by the acre may cost more in all.
    std::string cheapest_words(const engine::CompareColumn& cheapest) const {
        if (!cheapest.cheapest)
            return {};
        const auto cheaper = [&](const engine::CompareColumn& column) {
            return column.price_cents < cheapest.price_cents;
        };
        const bool by_unit = std::any_of(c_.columns.begin(), c_.columns.end(), cheaper);
        return by_unit ? " <- cheapest per " + terminal_text(cheapest.per) : " <- cheapest";
    }
    // A price that is the minimum does not tell what the work of one costs against the other.
    void minimums() {
        std::string letters;
        for (std::size_t i = 0; i < c_.columns.size(); ++i)
            if (c_.columns[i].at_minimum)
                letters += (letters.empty() ? "" : ", ") + column_letter(i);
        if (!letters.empty())
            out_ += "\n" + paragraph(fmt::format("A minimum charge sets the price of {}: the work "
                                                 "alone would come to less.",
                                                 letters));
    }
    void names() {
        for (std::size_t i = 0; i < c_.columns.size(); ++i)
            out_ += paragraph(terminal_text(c_.columns[i].name) + cheapest_words(c_.columns[i]),
                              "  " + column_letter(i) + "  ");
        if (!c_.cheapest && c_.columns.size() > 1)
            out_ += paragraph("All cost the same.");
        for (const std::string& name : c_.unanswered)
            out_ += paragraph(terminal_text(name) + " has no price: see the errors", "  -  ");
    }
    void tables(const std::vector<std::size_t>& shown) {
        section("Price", c_.prices, shown);
        section("By block", c_.blocks, shown);
        section("Costs", c_.costs, shown);
        section("Quantities", c_.quantities, shown);
        section("What differs", c_.differences, shown);
    }
    void section(const char* title, const std::vector<engine::CompareRow>& rows,
                 const std::vector<std::size_t>& shown) {
        if (rows.empty())
            return;
        std::vector<Column> heads = {{title, Align::Left, true}};
        for (const std::size_t i : shown)
            heads.push_back({column_letter(i) + (c_.columns[i].cheapest ? "*" : " ")});
        Table table(heads);
        for (const engine::CompareRow& row : rows) {
            // A cost that none of them has says nothing; a job of another service has no value.
            const auto none = [&](std::size_t i) {
                return row.value[i] == 0 || std::isnan(row.value[i]);
            };
            if (&rows == &c_.costs && std::all_of(shown.begin(), shown.end(), none))
                continue;
            std::vector<std::string> cells = {
                terminal_text(row.label.empty() ? row.name : row.label)};
            for (const std::size_t i : shown)
                cells.push_back(cell(row, i));
            const bool last = row.name == "price.total" || row.name == "cost.total" ||
                              row.name == "price.per_unit" || row.name == "profit.total";
            table.row(std::move(cells), last);
        }
        out_ += "\n" + table.text(color_);
    }
    void why() {
        for (const engine::CompareWhy& why : c_.why) {
            const std::string letter = column_letter(why.column);
            if (!why.bridge) {
                out_ += "\n" + paragraph(fmt::format("No bridge from A to {}: {}", letter,
                                                     terminal_text(why.why_not)),
                                         "");
                continue;
            }
            const engine::BridgeAnswer& bridge = *why.bridge;
            out_ += "\n" +
                    paragraph(
                        fmt::format("From A to {}, in {}", letter, terminal_text(bridge.unit)), "");
            Table table({{""}, {"", Align::Left, true}});
            for (const engine::BridgeRow& row : bridge.rows)
                if (row.cents != 0)
                    table.row({money_change(row.cents), terminal_text(bridge_row_words(row))});
            table.row({money_change(bridge.after.cents - bridge.before.cents), "total change"},
                      true);
            out_ += table.text(color_);
        }
    }
};

} // namespace

std::string compare_text(const engine::CompareAnswer& comparison, bool color) {
    return ComparePage(comparison, color).draw();
}

} // namespace acre::cli
