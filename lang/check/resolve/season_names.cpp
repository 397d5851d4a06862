#include "lang/check/resolve/season_names.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/diag/place.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

constexpr std::size_t most_looked_up = 100; // names that are searched for near ones

std::string_view last_part(std::string_view name) {
    return name.substr(name.rfind('.') + 1);
}

} // namespace

SeasonNames::SeasonNames(Resolution& r, std::vector<std::string> givens)
    : r_(r),
      givens_(std::move(givens)) {}

// "haul" of "haul.truck.miles": a model is used under this name, here or below.
bool SeasonNames::is_prefix(std::string_view head) const {
    return std::any_of(
        r_.instances.begin(), r_.instances.end(),
        [&](const Instance& i) {
            return i.prefix.size() > head.size() && i.prefix[head.size()] == '.' &&
                   i.prefix.compare(0, head.size(), head) == 0;
        });
}

std::vector<std::string_view> SeasonNames::near(std::string_view name) const {
    const std::string_view head = name.substr(0, name.find('.'));
    const std::vector<std::string_view> all(givens_.begin(), givens_.end());
    if (head.size() < name.size() && is_prefix(head))
        return near_names(name, all);
    std::vector<std::string_view> out;
    const std::size_t limit = std::min<std::size_t>(2, name.size() / 3);
    for (const std::string_view given : all) {
        // A prefix too many, or too few; two prefixes that differ are of two models.
        const bool prefix_only = last_part(given) == last_part(name) &&
                                 (given.size() < name.size() ? given.find('.') == given.npos
                                                             : name.find('.') == name.npos);
        if (out.size() < 3 && (prefix_only || edit_distance(name, given, limit) <= limit) &&
            std::find(out.begin(), out.end(), given) == out.end())
            out.push_back(given);
    }
    return out;
}

void SeasonNames::report() {
    std::size_t looked_up = 0;
    for (const ast::Word& name : unknown_) {
        const std::vector<std::string_view> found =
            ++looked_up > most_looked_up ? std::vector<std::string_view>() : near(name.text);
        if (found.empty())
            r_.sheet.job.season_unused.emplace_back(name.text);
        else
            report_slip(name, found);
    }
}

void SeasonNames::report_slip(const ast::Word& name, const std::vector<std::string_view>& near) {
    Diagnostic d = problem(
        Code::L807,
        fmt::format("no given named `{}`; the season sets it, but nothing uses it here", name.text),
        name.span);
    for (const std::string_view other : near) {
        const Found found = look_up_outside(r_, other, none);
        const std::string place =
            found.state != Found::State::Line
                ? std::string()
                : fmt::format(" ({})",
                              spoken_place(r_.sources, r_.sheet.lines[found.line].name_span,
                                           name.span.file));
        d.helps.push_back({fmt::format("did you mean `{}`{}?", other, place),
                           Edit{name.span, std::string(other)}});
    }
    r_.add(std::move(d));
}

} // namespace acre::lang::resolving
