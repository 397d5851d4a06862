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

// What stands before the first dot; all of a name without one.
std::string_view head(std::string_view name) {
    return name.substr(0, name.find('.'));
}

// A letter or two apart, or a prefix too many or too few; two prefixes that differ are of two
// models.
std::vector<std::string_view> slips_of(std::string_view name,
                                       const std::vector<std::string_view>& all) {
    const std::size_t limit = std::min<std::size_t>(2, name.size() / 3);
    const std::string_view last = last_part(name);
    std::vector<std::string_view> out;
    for (const std::string_view given : all) {
        const bool prefix_only =
            given.ends_with(last) && last_part(given) == last &&
            (given.size() < name.size() ? given : name).find('.') == given.npos;
        if (out.size() < 3 && (prefix_only || edit_distance(name, given, limit) <= limit) &&
            std::find(out.begin(), out.end(), given) == out.end())
            out.push_back(given);
    }
    return out;
}

} // namespace

std::vector<std::string_view> longer_or_shorter(std::string_view name,
                                                std::span<const std::string_view> names) {
    constexpr std::size_t least = 4; // letters that tell one name from another
    const auto begins = [](std::string_view longer, std::string_view start) {
        return longer.size() > start.size() && longer[start.size()] == '_' &&
               longer.starts_with(start) && last_part(start).size() >= least;
    };
    std::vector<std::string_view> out;
    for (const std::string_view other : names)
        if (out.size() < 3 && (begins(other, name) || begins(name, other)) &&
            std::find(out.begin(), out.end(), other) == out.end())
            out.push_back(other);
    return out;
}

SeasonNames::SeasonNames(Resolution& r, std::vector<std::string_view> givens)
    : r_(r),
      givens_(std::move(givens)) {}

// "haul" of "haul.truck.miles": a model is used under this name, here or below.
bool SeasonNames::is_prefix(std::string_view name) const {
    return std::any_of(
        r_.instances.begin(), r_.instances.end(),
        [&](const Instance& i) {
            return i.prefix.size() > name.size() && i.prefix[name.size()] == '.' &&
                   i.prefix.compare(0, name.size(), name) == 0;
        });
}

std::vector<std::string_view> SeasonNames::near(std::string_view name) const {
    std::vector<std::string_view> out;
    if (is_prefix(head(name)))
        out = near_names(name, givens_);
    else
        out = slips_of(name, givens_);
    return out.empty() ? longer_or_shorter(name, givens_) : out;
}

void SeasonNames::report() {
    std::size_t looked_up = 0;
    for (const ast::Word& name : unknown_) {
        const std::vector<std::string_view> found =
            ++looked_up > most_looked_up ? std::vector<std::string_view>() : near(name.text);
        // Of a model that is used here, and yet not of it: a slip, whatever was meant.
        if (found.empty() && !is_prefix(head(name.text)))
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
        const Found found = look_up_outside(r_, other, {});
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
