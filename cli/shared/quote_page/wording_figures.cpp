#include "cli/shared/quote_page/wording_figures.h"

#include <algorithm>
#include <limits>

#include "cli/shared/quote_page/wording.h"
#include "engine/words/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {

QuoteFigures::QuoteFigures(const engine::QuoteRecord& record)
    : inner_(record.inner.begin(), record.inner.end()),
      says_shown_(record.shown.has_value()) {
    for (const engine::RecordLine& line : record.lines) {
        order_.push_back(line.name);
        figures_.emplace(line.name, QuoteFigure{line.value, line.unit, line.choice});
    }
    if (record.shown)
        shown_.insert(record.shown->begin(), record.shown->end());
}

const QuoteFigure* QuoteFigures::find(std::string_view name) const {
    const auto it = figures_.find(name);
    return it == figures_.end() ? nullptr : &it->second;
}

bool QuoteFigures::is_hidden(std::string_view name) const {
    return is_inner(name) || (figures_.contains(name) && !may_be_read(name));
}

std::vector<std::string_view> QuoteFigures::readable() const {
    std::vector<std::string_view> names;
    for (const auto& [name, figure] : figures_)
        if (may_be_read(name))
            names.push_back(name);
    return names;
}

std::vector<std::string> QuoteFigures::entries(std::string_view line) const {
    std::vector<std::string> names;
    for (const std::string& name : order_)
        if (name.size() > line.size() + 1 && name.ends_with(line) &&
            name[name.size() - line.size() - 1] == '.' && may_be_read(name))
            names.push_back(name.substr(0, name.size() - line.size() - 1));
    return names;
}

std::optional<FuelTable> fuel_table(const QuoteFigure& base, const QuoteFigure& per, double step,
                                    int rows) {
    const std::size_t money = lang::money_in(base.unit);
    const std::string of = base.unit.substr(std::min(money + 1, base.unit.size())) + "/";
    if (money == 0 || of.size() < 2 || !per.unit.starts_with(of))
        return std::nullopt;
    FuelTable table;
    table.of = of == "gal/" ? "a gallon" : "per " + of.substr(0, of.size() - 1);
    table.per = per.unit.substr(of.size());
    const auto step_cents = static_cast<double>(engine::to_cents(step));
    for (int k = 0; k <= rows; ++k)
        table.steps.push_back({base.value + k * step_cents / 100,
                               k == rows ? std::numeric_limits<double>::infinity()
                                         : base.value + (k + 1) * step_cents / 100,
                               engine::to_cents(per.value * k * step_cents / 100)});
    return table;
}

} // namespace acre::cli
