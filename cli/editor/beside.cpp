#include "cli/editor/beside.h"

#include <algorithm>

#include "cli/editor/positions.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

// Where the first statement is: behind comments and empty lines.
std::uint32_t first_statement(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && (text[at] == '#' || text[at] == '\n' || text[at] == '\r')) {
        const std::size_t end = text.find('\n', at);
        if (end == std::string_view::npos)
            return 0;
        at = end + 1;
    }
    return static_cast<std::uint32_t>(std::min(at, text.size()));
}

std::string head_text(const TextView& view, const std::string& file) {
    if (!view.no_price.empty() || !view.fresh)
        return view.no_price.empty() ? "no price" : "no price: " + view.no_price;
    const engine::Outline& outline = *view.outline;
    if (outline.total.empty())
        return "no price";
    std::string text = outline.total;
    if (!outline.per_unit.empty())
        text += "  " + outline.per_unit;
    return view.job == file ? text : text + "  for " + outline.title;
}

// A given whose value is what stands there needs none beside it.
std::string value_text_of(const engine::Symbol& symbol) {
    const auto amount = std::find_if(symbol.lines.begin(), symbol.lines.end(),
                                     [](const engine::LineNow& line) { return line.amount; });
    const engine::LineNow& line = amount != symbol.lines.end() ? *amount : symbol.lines.front();
    if (line.set_by == "model" && symbol.written == line.text)
        return {};
    std::string text = "= " + line.text;
    if (!line.set_by.empty() && line.set_by != "model")
        text += " (" + line.set_by + ")";
    return text;
}

} // namespace

std::vector<Beside> lenses_of(const TextView& view, const std::string& file,
                              std::string_view text) {
    std::vector<Beside> lenses;
    if (view.outline == nullptr && view.no_price.empty())
        return lenses;
    lenses.push_back({first_statement(text), lang::terminal_text(head_text(view, file))});
    if (!view.fresh || !view.no_price.empty())
        return lenses;
    for (const engine::PriceNow& price : view.outline->prices)
        if (price.at.file == file && price.at.begin < text.size())
            lenses.push_back(
                {price.at.begin,
                 lang::terminal_text(price.amount +
                                     (price.rate.empty() ? "" : "  at " + price.rate))});
    return lenses;
}

std::vector<Beside> values_of(const TextView& view, const std::string& file, std::string_view text,
                              std::uint32_t begin, std::uint32_t end) {
    std::vector<Beside> values;
    if (view.outline == nullptr || !view.fresh)
        return values;
    const TextIndex index(text);
    for (const engine::Symbol& symbol : view.outline->symbols) {
        if (symbol.at.file != file || symbol.at.begin < begin || symbol.at.begin >= end ||
            symbol.lines.empty() || symbol.at.begin > text.size())
            continue;
        if (std::string value = value_text_of(symbol); !value.empty())
            values.push_back({index.line_end(symbol.at.begin), lang::terminal_text(value)});
    }
    std::sort(values.begin(), values.end(),
              [](const Beside& a, const Beside& b) { return a.offset < b.offset; });
    return values;
}

} // namespace acre::cli
