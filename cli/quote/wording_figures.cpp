#include "cli/quote/wording_figures.h"

namespace acre::cli {

QuoteFigures::QuoteFigures(const engine::QuoteRecord& record)
    : inner_(record.inner.begin(), record.inner.end()),
      says_shown_(record.shown.has_value()) {
    for (const engine::RecordLine& line : record.lines)
        figures_.emplace(line.name, QuoteFigure{line.value, line.unit, line.choice});
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

} // namespace acre::cli
