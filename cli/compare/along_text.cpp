#include <algorithm>

#include <fmt/format.h>

#include "cli/compare/compare_page.h"
#include "cli/shared/chart/curves.h"
#include "cli/shared/text/page.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_meetings = 6; // of one column on a page

std::string quantity(double value, const std::string& unit) {
    return lang::terminal_text(lang::quantity_text(value, unit));
}

// A step (whole days, rounding) is told as a step: there is no single value at which the two are
// equal.
std::string meeting_words(const engine::CompareMeeting& meeting, const std::string& unit,
                          const std::string& other) {
    using Kind = engine::CompareMeeting::Kind;
    const std::string after =
        fmt::format("{} is cheaper {}", other, meeting.cheaper_above ? "above" : "below");
    switch (meeting.kind) {
    case Kind::Same:
        return fmt::format("the same at {}; {}", quantity(meeting.at, unit), after);
    case Kind::Step:
        return fmt::format("the lead changes at a step, between {} and {}; {}",
                           quantity(meeting.at, unit), quantity(meeting.to, unit), after);
    case Kind::Touch:
        return fmt::format("the same at {}, but the lead does not change",
                           quantity(meeting.at, unit));
    case Kind::Level:
        return fmt::format("the same from {} to {}", quantity(meeting.at, unit),
                           quantity(meeting.to, unit));
    }
    return {};
}

std::vector<std::string> flip_words(const engine::CompareFlips& flips,
                                    const engine::CompareFlip& flip) {
    const std::string other = column_letter(flip.column);
    const std::string range =
        quantity(flips.range.low, flips.unit) + " to " + quantity(flips.range.high, flips.unit);
    if (flip.meetings.empty())
        return {fmt::format("never the same from {}: {} is cheaper all the way, by {} at least "
                            "(at {})",
                            range, flip.column_is_cheaper ? other : "A",
                            quantity(flip.least, flips.price_unit),
                            quantity(flip.least_at, flips.unit))};
    std::vector<std::string> words;
    const std::size_t told = std::min(most_meetings, flip.meetings.size());
    for (std::size_t i = 0; i < told; ++i)
        words.push_back(meeting_words(flip.meetings[i], flips.unit, other));
    if (flip.meetings.size() > told || flip.cut)
        words.push_back(fmt::format("and {}{} more from {}", flip.meetings.size() - told,
                                    flip.cut ? " or" : "", range));
    return words;
}

bool has_band(const engine::CompareFlips& flips) {
    for (const engine::CompareFlip& flip : flips.columns)
        for (const engine::CompareMeeting& meeting : flip.meetings)
            if (meeting.kind == engine::CompareMeeting::Kind::Level)
                return true;
    return false;
}

Curves curves_of(const engine::CompareAnswer& comparison) {
    const engine::CompareOver& over = *comparison.over;
    Curves curves;
    curves.title = "Price over " + over.label;
    curves.x_name = over.label;
    curves.x_unit = over.unit;
    curves.y_unit = over.price_unit;
    curves.x = over.at;
    for (std::size_t column = 0; column < over.price.size(); ++column)
        curves.curves.push_back(
            {column_letter(column) + "  " + comparison.columns[column].name, over.price[column]});
    return curves;
}

} // namespace

std::string flips_text(const engine::CompareAnswer& comparison) {
    const engine::CompareFlips& flips = *comparison.flips;
    std::string out =
        "\n" + paragraph("Where they cost the same, over " + lang::terminal_text(flips.label), "");
    for (const engine::CompareFlip& flip : flips.columns)
        for (const std::string& words : flip_words(flips, flip))
            out += paragraph(words, "  A and " + column_letter(flip.column) + ": ");
    if (has_band(flips))
        out += paragraph("Prices are rounded, so two of them can be the same over a band; below "
                         "it one is cheaper, above it the other.");
    return out;
}

std::string over_text(const engine::CompareAnswer& comparison) {
    return "\n" + curves_text(curves_of(comparison));
}

std::string over_svg(const engine::CompareAnswer& comparison) {
    return curves_svg(curves_of(comparison));
}

} // namespace acre::cli
