#include "lang/season_of_job.h"

#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "lang/units/letters.h"

namespace acre::lang {
namespace {

// Letters and digits, small: "2027, autumn" and "2027-autumn" are one name.
std::string bare(std::string_view text) {
    std::string out;
    for (const char c : text)
        if (is_digit(c) || (c >= 'a' && c <= 'z'))
            out += c;
        else if (c >= 'A' && c <= 'Z')
            out += static_cast<char>(c - 'A' + 'a');
    return out;
}

// A head that says less than the file's name, or more, is the file's own, unless another file is
// called so.
bool is_another(const std::string& head, const std::string& wanted,
                const std::vector<std::string>& there) {
    if (head.empty() || head == wanted)
        return false;
    if (head.find(wanted) == std::string::npos && wanted.find(head) == std::string::npos)
        return true;
    return std::any_of(there.begin(), there.end(),
                       [&](const std::string& other) { return bare(other) == head; });
}

// The years a season is for: 2027 of "2027, autumn"; 2026 and 2027 of "2026-27".
std::set<int> years_in(std::string_view text) {
    std::set<int> years;
    for (std::size_t i = 0; i < text.size(); ++i) {
        std::size_t end = i;
        while (end < text.size() && is_digit(text[end]))
            ++end;
        if (end - i == 4 && (text[i] == '1' || text[i] == '2')) {
            const int year = std::stoi(std::string(text.substr(i, 4)));
            years.insert(year);
            const bool joined = end + 2 < text.size() && (text[end] == '-' || text[end] == '/') &&
                                is_digit(text[end + 1]) && is_digit(text[end + 2]);
            if (joined && (end + 3 == text.size() || !is_digit(text[end + 3])))
                years.insert(year / 100 * 100 + std::stoi(std::string(text.substr(end + 1, 2))));
        }
        i = end;
    }
    return years;
}

// A season copied from last year's keeps its days: they would hold for no job, in silence.
void compare_days(const ast::Module& season, const std::set<int>& years, Diagnostics& diagnostics) {
    for (const ast::Statement& statement : season.statements) {
        const auto* set = std::get_if<ast::Set>(&statement.node);
        if (set == nullptr || !set->within)
            continue;
        const ast::Date& first = set->within->first;
        const ast::Date& last = set->within->last.value_or(first);
        const auto in_it = years.lower_bound(first.year);
        if (in_it != years.end() && *in_it <= last.year)
            continue;
        diagnostics.add({Code::L840,
                         fmt::format("`{}` is set for days of {}, and the season is \"{}\"",
                                     set->name.text, first.year, season.title.text),
                         {first.span, "another year"},
                         {},
                         {"no job of this season has one of these days"},
                         {{"correct the year", std::nullopt}}});
    }
}

void compare_years(const Program& program, const ast::Text& asked, Diagnostics& diagnostics) {
    const ast::Text& title = program.modules[program.season].title;
    std::set<int> years = years_in(title.text);
    if (years.empty())
        years = years_in(asked.text);
    if (years.empty())
        return;
    compare_days(program.modules[program.season], years, diagnostics);
    for (const ast::Statement& statement : program.modules[program.job].statements) {
        const auto* dates = std::get_if<ast::Dates>(&statement.node);
        if (dates == nullptr || years.contains(dates->first.year))
            continue;
        const ast::Date* const date = &dates->first;
        diagnostics.add({Code::L830,
                         fmt::format("the job is dated in {}, and its season is \"{}\"", date->year,
                                     title.text),
                         {date->span, "another year"},
                         {{asked.span, "the season"}},
                         {"its prices may be those of another year"},
                         {{"correct the date, or name the season of that year", std::nullopt}}});
    }
}

} // namespace

void judge_season(const Program& program, const ast::Text& asked, Loader& loader,
                  const SourceMap& sources, Diagnostics& diagnostics) {
    const ast::Text& title = program.modules[program.season].title;
    const std::string wanted = bare(asked.text.substr(asked.text.rfind('/') + 1));
    const std::vector<std::string> there =
        loader.references(ReferenceKind::Season, sources.file(asked.span.file).name());
    if (is_another(bare(title.text), wanted, there))
        diagnostics.add(
            {Code::L812,
             fmt::format(R"(the job asks for season "{}", and {} says it is "{}")", asked.text,
                         sources.file(title.span.file).name(), title.text),
             {title.span, "another name"},
             {{asked.span, "asked for here"}},
             {"its values may be those of another year"},
             {{fmt::format("if they are those of {0}, write  season \"{0}\"", asked.text),
               Edit{title.span, fmt::format("\"{}\"", asked.text)}}}});
    compare_years(program, asked, diagnostics);
}

void judge_no_season(const ast::Module& job, Loader& loader, const SourceMap& sources,
                     Diagnostics& diagnostics) {
    constexpr std::size_t most_named = 5;
    const std::vector<std::string> there =
        loader.references(ReferenceKind::Season, sources.file(job.file).name());
    if (there.empty())
        return;
    std::string names;
    for (std::size_t i = 0; i < std::min(there.size(), most_named); ++i)
        names += fmt::format("{}\"{}\"", i == 0 ? "" : ", ", there[i]);
    if (there.size() > most_named)
        names += fmt::format(" and {} more", there.size() - most_named);
    Diagnostic d{Code::L813,
                 "the job names no season, so the model's own prices are in force",
                 {job.title.span, {}},
                 {},
                 {fmt::format("{} {} within reach: {}", there.size() == 1 ? "a season" : "seasons",
                              there.size() == 1 ? "is" : "are", names)},
                 {}};
    d.helps.push_back({fmt::format("add a line like  season \"{}\"", there.front()), {}});
    if (there.size() == 1) // which one is meant is clear
        d.helps.back().edit = Edit{{job.title.span.file, job.title.span.end, job.title.span.end},
                                   fmt::format("\nseason \"{}\"", there.front())};
    diagnostics.add(std::move(d));
}

} // namespace acre::lang
