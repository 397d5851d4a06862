#include "cli/shared/quote_page/wording_figures.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "cli/shared/quote_page/wording.h"
#include "engine/words/money.h"
#include "lang/diag/suggest.h"
#include "lang/units/number_text.h"

namespace acre::cli {

QuoteFigures::QuoteFigures(const engine::QuoteRecord& record, Reader reader)
    : reader_(reader),
      inner_(record.inner.begin(), record.inner.end()),
      says_shown_(record.shown.has_value()) {
    for (const engine::RecordLine& line : record.lines) {
        order_.push_back(line.name);
        figures_.emplace(line.name, QuoteFigure{line.value, line.unit, line.choice});
    }
    if (record.shown)
        shown_.insert(record.shown->begin(), record.shown->end());
}

bool QuoteFigures::may_be_read(std::string_view name) const {
    if (reader_ == Reader::Customer)
        return says_shown_ ? shown_.contains(name) : !is_inner(name);
    const QuoteFigure* figure = find(name);
    return !is_inner(name) && figure != nullptr && lang::money_in(figure->unit) == 0;
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

NameFault hidden_name(const QuoteFigures& figures, std::string_view name) {
    if (figures.reader() == QuoteFigures::Reader::Crew)
        return {fmt::format("`{}` is money, and the crew's page has none", name),
                "a price or a cost",
                {}};
    if (figures.is_inner(name))
        return {fmt::format("`{}` is an internal figure and cannot be on the grower's page", name),
                "a cost, an overhead or a margin",
                {}};
    return {fmt::format("the model does not show `{}`", name),
            "not for the customer",
            {{fmt::format("if the customer may see it, add it in the job's model:  show {}", name),
              {}}}};
}

NameFault unknown_name(const QuoteFigures& figures, std::string_view name,
                       const std::map<std::string, std::string>& words) {
    NameFault fault{fmt::format("the job has no line named `{}`", name), "not in this job", {}};
    std::vector<std::string_view> names = figures.readable();
    for (const auto& [known, value] : words)
        names.push_back(known);
    for (const std::string_view near : lang::near_names(name, names))
        fault.helps.push_back({fmt::format("a similar name: `{}`", near), {}});
    fault.helps.push_back(
        {fmt::format("put `? {}` before the block to leave it out of jobs that have no such line",
                     name),
         {}});
    return fault;
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
