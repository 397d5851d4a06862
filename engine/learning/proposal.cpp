#include "engine/learning/proposal.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "lang/diag/safe_text.h"
#include "lang/source/source_map.h"
#include "lang/syntax/parse.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

struct Edit {
    std::size_t begin = 0, end = 0;
    std::string text;
};

// Half a tenth of the interval is nothing that the logs can tell apart.
double rounded(double value, double width) {
    if (!(width > 0) || !std::isfinite(value))
        return value;
    const double step = std::pow(10.0, std::floor(std::log10(width / 10)));
    return step >= 1 ? std::round(value / step) * step
                     : std::round(value * std::round(1 / step)) / std::round(1 / step);
}

// As the notation takes it inside quotes, on one line.
std::string in_quotes(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '"' || c == '\n' || c == '\r'; }, ' ');
    return lang::terminal_text(text);
}

// A label may be as long as a text may be; a reason has to fit into one.
std::string in_short(const std::string& label) {
    constexpr std::size_t longest = 200;
    std::size_t end = std::min(label.size(), longest);
    while (end > 0 && end < label.size() &&
           (static_cast<unsigned char>(label[end]) & 0xC0U) == 0x80U)
        --end; // no character is cut in two
    return end == label.size() ? label : label.substr(0, end) + "...";
}

std::string reason(const LearnedFigure& figure) {
    const double width = figure.high - figure.low;
    return in_quotes(fmt::format("{} {}, {}: 90 % between {} and {}; {}; {} before", figure.jobs,
                                 figure.jobs == 1 ? "job" : "jobs", in_short(figure.told_by),
                                 lang::written_text(rounded(figure.low, width), figure.unit),
                                 lang::written_text(rounded(figure.high, width), figure.unit),
                                 method_of(figure.tells),
                                 lang::written_text(figure.value, figure.unit)));
}

const lang::ast::Set* last_set(const lang::ast::Module& season, const std::string& name,
                               lang::Span& span) {
    const lang::ast::Set* found = nullptr;
    for (const lang::ast::Statement& statement : season.statements)
        if (const auto* set = std::get_if<lang::ast::Set>(&statement.node);
            set != nullptr && set->name.text == name && !set->within) {
            found = set;
            span = statement.span;
        }
    return found;
}

void replace(const lang::ast::Module& season, const lang::ast::Set& set, lang::Span span,
             const LearnedFigure& figure, std::vector<Edit>& edits) {
    const lang::Span value = season.exprs[set.value].span;
    edits.push_back({value.begin, value.end, learned_text(figure)});
    if (set.because)
        edits.push_back(
            {set.because->span.begin, set.because->span.end, '"' + reason(figure) + '"'});
    else
        edits.push_back({span.end, span.end, fmt::format("  because \"{}\"", reason(figure))});
}

} // namespace

std::string learned_text(const LearnedFigure& figure) {
    return lang::written_text(rounded(figure.learned, figure.high - figure.low), figure.unit);
}

lang::Outcome<std::string> proposed_season(const std::string& name, const std::string& text,
                                           const LearnAnswer& answer) {
    auto sources = std::make_shared<lang::SourceMap>();
    lang::Said said;
    const lang::FileId file = sources->add(name, text);
    said.sources = sources;
    const lang::ast::Module season =
        lang::parse(*sources, file, lang::FileKind::Season, said.diagnostics);
    if (said.diagnostics.has_errors())
        return said;
    std::string out(sources->file(file).text());
    std::vector<Edit> edits;
    std::string added;
    for (const LearnedFigure& figure : answer.figures) {
        lang::Span span;
        if (const lang::ast::Set* set = last_set(season, figure.name, span))
            replace(season, *set, span, figure, edits);
        else
            added += fmt::format("set {} = {}  because \"{}\"\n", figure.name, learned_text(figure),
                                 reason(figure));
    }
    std::sort(edits.begin(), edits.end(),
              [](const Edit& a, const Edit& b) { return a.begin > b.begin; });
    for (const Edit& edit : edits)
        out.replace(edit.begin, edit.end - edit.begin, edit.text);
    if (!out.empty() && out.back() != '\n')
        out += '\n';
    if (!added.empty())
        out += "\n# From finished jobs.\n" + added;
    return fmt::format("# Proposed from {} finished {}. Read it before you use it: `bridge` and "
                       "`book --season` show what it does.\n",
                       answer.quotes.size(), answer.quotes.size() == 1 ? "job" : "jobs") +
           out;
}

} // namespace acre::engine
