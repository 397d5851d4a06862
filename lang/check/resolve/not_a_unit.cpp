#include "lang/check/resolve/not_a_unit.h"

#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "lang/diag/suggest.h"
#include "lang/syntax/words.h"
#include "lang/units/clock.h"

namespace acre::lang::resolving {
namespace {

bool names(const ast::Statement& statement, std::string_view word) {
    if (const auto* line = std::get_if<ast::Line>(&statement.node))
        return line->name.text == word;
    if (const auto* given = std::get_if<ast::Given>(&statement.node))
        return given->name.text == word;
    if (const auto* cost = std::get_if<ast::Cost>(&statement.node))
        return cost->name.text == word;
    return false;
}

bool is_a_line(std::string_view word, FileId file, const Modules& modules) {
    for (const ast::Module& module : modules)
        if (module.file == file &&
            std::any_of(module.statements.begin(), module.statements.end(),
                        [word](const ast::Statement& statement) { return names(statement, word); }))
            return true;
    return false;
}

// `7 pm`: the number before it is an hour.
std::optional<Help> clock_time(std::string_view word, Span span, std::string_view text) {
    std::size_t end = std::min<std::size_t>(span.begin, text.size());
    while (end > 0 && text[end - 1] == ' ')
        --end;
    std::size_t begin = end;
    while (begin > 0 && end - begin < 3 && is_digit(text[begin - 1]))
        --begin;
    if (begin == end || end - begin > 2)
        return std::nullopt;
    int hour = 0;
    for (std::size_t i = begin; i < end; ++i)
        hour = hour * 10 + (text[i] - '0');
    const std::optional<double> hours = clock_of(hour, 0, word);
    if (!hours)
        return std::nullopt;
    const std::string written = written_clock(*hours);
    return Help{fmt::format("write  {}", written),
                Edit{{span.file, static_cast<std::uint32_t>(begin), span.end}, written}};
}

} // namespace

std::optional<Help> meant_instead(std::string_view word, Span span, const SourceMap& sources,
                                  const Modules& modules) {
    const std::string_view text = sources.file(span.file).text();
    const char before = span.begin > 0 && span.begin <= text.size() ? text[span.begin - 1] : ' ';
    if (before == '/' && is_a_line(word, span.file, modules))
        return Help{
            fmt::format("`{}` is a line of the model; to divide by it, put spaces around `/`",
                        word),
            Edit{{span.file, span.begin - 1, span.begin}, " / "}};
    if (std::optional<Help> time = clock_time(word, span, text))
        return time;
    if (before != ' ')
        return std::nullopt;
    if (is_a_line(word, span.file, modules))
        return Help{
            fmt::format("`{}` is a line of the model; to multiply, write  * {}", word, word),
            Edit{{span.file, span.begin, span.begin}, "* "}};
    std::vector<std::string_view> clauses;
    for (const Keyword clause : {Keyword::Because, Keyword::Within, Keyword::Swing, Keyword::Choose,
                                 Keyword::Over, Keyword::Otherwise, Keyword::Then, Keyword::Costs})
        clauses.push_back(spelling_of(clause));
    const std::vector<std::string_view> near = near_names(word, clauses, 1);
    if (near.empty())
        return std::nullopt;
    return Help{fmt::format("did you mean `{}`?", near.front()),
                Edit{span, std::string(near.front())}};
}

} // namespace acre::lang::resolving
