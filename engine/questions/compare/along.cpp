#include "engine/questions/compare/along.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/grid.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

lang::Diagnostic refused(Refusal refusal) {
    return lang::placeless(lang::Code::Q003, std::move(refusal.what), {}, std::move(refusal.helps));
}

std::string called(const lang::Line& line) {
    return line.label.empty() ? line.name : line.label;
}

CompareMeeting meeting_of(const Crossing& crossing) {
    using Kind = CompareMeeting::Kind;
    static constexpr Kind kinds[] = {Kind::Same, Kind::Step, Kind::Touch, Kind::Level};
    return {kinds[static_cast<std::size_t>(crossing.kind)], crossing.x, crossing.x_after,
            crossing.rising};
}

CompareFlip flip_of(const BreakEven& found, std::size_t column) {
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
                               "there is one price only, and nothing that it could be the same as",
                               {}, {"compare a job that has an option, or two jobs"});
    CompareFlips flips;
    const lang::Sheet& sheet = sides[0].job->sheet();
    for (std::size_t column = 1; column < sides.size(); ++column) {
        BreakEvenQuestion question;
        question.given = given;
        Refusal refusal;
        // The first less the other: rising through zero, the other is cheaper above.
        const auto found = break_even_against(*sides[0].job, *sides[column].job, question, refusal);
        if (!found)
            return refused(std::move(refusal));
        const lang::Line& line = sheet.lines[found->axis.line];
        flips.given = line.name;
        flips.label = called(line);
        flips.unit = unit_text(sheet, line);
        flips.price_unit = unit_text(sheet, sheet.lines[found->line]);
        flips.range = found->range;
        flips.columns.push_back(flip_of(*found, column));
    }
    return flips;
}

lang::Outcome<CompareOver> prices_over(std::span<const PricedSide> sides,
                                       const CompareQuestion::Over& over) {
    Refusal refusal;
    auto at = places(over.ends, over.points, refusal);
    if (!at)
        return refused(std::move(refusal));
    CompareOver answer;
    answer.given = over.given;
    for (const PricedSide& side : sides) {
        GridQuestion question;
        question.along.push_back({over.given, *at});
        auto found = grid(*side.job, question, refusal);
        if (!found)
            return refused(std::move(refusal));
        if (answer.price.empty()) {
            const lang::Sheet& sheet = side.job->sheet();
            const lang::Line& line = sheet.lines[found->along[0].axis.line];
            answer.label = called(line);
            answer.unit = unit_text(sheet, line);
            answer.price_unit = unit_text(sheet, sheet.lines[found->columns[0].line]);
        }
        answer.price.push_back(std::move(found->columns[0].value));
    }
    answer.at = std::move(*at);
    return answer;
}

} // namespace acre::engine
