#include "engine/questions/compare/along.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/grid.h"

namespace acre::engine {
namespace {

CompareMeeting meeting_of(const Crossing& crossing) {
    using Kind = CompareMeeting::Kind;
    static constexpr Kind kinds[] = {Kind::Same, Kind::Step, Kind::Touch, Kind::Level};
    return {kinds[static_cast<std::size_t>(crossing.kind)], crossing.x, crossing.x_after,
            crossing.rising};
}

CompareFlip flip_of(const BreakEvenAnswer& found, std::size_t column) {
    CompareFlip flip;
    flip.column = column;
    for (const Crossing& crossing : found.crossings)
        flip.meetings.push_back(meeting_of(crossing));
    flip.cut = found.cut;
    flip.column_is_cheaper = found.least > 0;
    flip.least = std::min(std::abs(found.least), std::abs(found.greatest));
    flip.least_at = flip.column_is_cheaper ? found.least_at : found.greatest_at;
    return flip;
}

} // namespace

lang::Outcome<CompareFlips> flips_over(std::span<const PricedSide> sides,
                                       const std::string& given) {
    if (sides.size() < 2)
        return lang::placeless(lang::Code::Q009,
                               "there is only one price, and nothing to compare it with", {},
                               {"compare a job that has an option, or two jobs"});
    CompareFlips flips;
    for (std::size_t column = 1; column < sides.size(); ++column) {
        BreakEvenQuestion question;
        question.given = given;
        // The first less the other: rising through zero, the other is cheaper above.
        const auto found = ask(*sides[0].job, *sides[column].job, question);
        if (!found)
            return found.said;
        flips.given = found->given.name;
        flips.label = found->given.called;
        flips.unit = found->given.unit;
        flips.price_unit = found->line.unit;
        flips.range = found->range;
        flips.columns.push_back(flip_of(*found, column));
    }
    return flips;
}

lang::Outcome<CompareOver> prices_over(std::span<const PricedSide> sides,
                                       const CompareQuestion::Over& over) {
    auto at = places(over.ends, over.points);
    if (!at)
        return std::move(at.said);
    CompareOver answer;
    answer.given = over.given;
    for (const PricedSide& side : sides) {
        GridQuestion question;
        question.along.push_back({over.given, *at});
        auto found = ask(*side.job, question);
        if (!found)
            return std::move(found.said);
        if (answer.price.empty()) {
            answer.label = found->along[0].given.called;
            answer.unit = found->along[0].given.unit;
            answer.price_unit = found->columns[0].line.unit;
        }
        answer.price.push_back(std::move(found->columns[0].value));
    }
    answer.at = std::move(*at);
    return answer;
}

} // namespace acre::engine
