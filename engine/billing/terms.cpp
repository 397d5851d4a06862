#include "engine/billing/terms.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/log/log_cells.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

bool same(const RecordLine& a, const RecordLine& b) {
    return a.unit == b.unit && a.choice == b.choice &&
           (a.value == b.value || (std::isnan(a.value) && std::isnan(b.value)));
}

bool is_name(std::string_view text) {
    return !text.empty() && std::all_of(
                                text.begin(), text.end(),
                                [](char c) {
                                    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                                           (c >= '0' && c <= '9') || c == '_' || c == '.';
                                });
}

} // namespace

const RecordLine* Terms::find(std::string_view name) const {
    const std::string ending = "." + std::string(name);
    const RecordLine* found = nullptr;
    bool differ = false;
    for (const RecordLine& line : quote_.lines) {
        if (line.name == name)
            return &line;
        if (!line.name.ends_with(ending))
            continue;
        differ = differ || (found != nullptr && !same(*found, line));
        if (found == nullptr || line.name.size() < found->name.size())
            found = &line;
    }
    return differ ? nullptr : found;
}

const RecordLine* Terms::stated(std::string_view name) const {
    const RecordLine* line = find(name);
    if (line == nullptr)
        return nullptr;
    if (!quote_.shown)
        return std::find(quote_.inner.begin(), quote_.inner.end(), line->name) == quote_.inner.end()
                   ? line
                   : nullptr;
    return std::find(quote_.shown->begin(), quote_.shown->end(), line->name) != quote_.shown->end()
               ? line
               : nullptr;
}

std::optional<double> Terms::value(std::string_view name) const {
    const RecordLine* line = stated(name);
    return line == nullptr || !std::isfinite(line->value) ? std::nullopt
                                                          : std::optional<double>(line->value);
}

std::optional<double> Terms::inner_value(std::string_view name) const {
    const RecordLine* line = find(name);
    return line == nullptr || !std::isfinite(line->value) ? std::nullopt
                                                          : std::optional<double>(line->value);
}

std::string Terms::choice(std::string_view name) const {
    const RecordLine* line = find(name);
    return line == nullptr ? std::string() : line->choice;
}

std::optional<double> Terms::minimum(const RecordItem& item, std::string& term,
                                     std::string& fault) const {
    for (const RecordStep& step : item.steps) {
        constexpr std::string_view phrase = "at least ";
        if (!step.text.starts_with(phrase))
            continue;
        const std::string_view written = std::string_view(step.text).substr(phrase.size());
        if (const auto amount = figure_in(written, false)) {
            term = step.text;
            return amount;
        }
        if (is_name(written)) {
            const RecordLine* line = find(written.substr(written.rfind('.') + 1));
            if (line != nullptr && std::isfinite(line->value) &&
                line->unit.find('/') == line->unit.npos) {
                term = line->name;
                return line->value;
            }
        }
        term = step.text;
        fault = fmt::format("the minimum of `{}` is a formula that its record does not have by "
                            "itself: `{}`",
                            item.title, step.text);
    }
    return std::nullopt;
}

} // namespace acre::engine
