#include "engine/questions/compare/compare.h"

#include <utility>

#include <fmt/format.h>

#include "engine/questions/compare/along.h"
#include "engine/questions/compare/columns.h"
#include "engine/questions/estimate.h"
#include "engine/questions/one_money.h"
#include "engine/questions/subject.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

std::string name_of(const CompareSide& side) {
    if (!side.name.empty() || !side.job)
        return side.name.empty() ? side.from : side.name;
    const std::string& title = (*side.job)->sheet().job.title;
    return title.empty() ? side.from : title;
}

std::optional<lang::Diagnostic> in_two_moneys(std::span<const CompareSide> sides) {
    const PricedJob* first = nullptr;
    for (const CompareSide& side : sides) {
        if (!side.job)
            continue;
        if (first == nullptr)
            first = &**side.job;
        if (auto other = in_other_money(first->sheet().firm.money, **side.job))
            return other;
    }
    return std::nullopt;
}

void tell(lang::Said said, CompareAnswer& answer) {
    if (!said.diagnostics.all().empty())
        answer.told.push_back(std::move(said));
}

std::vector<PricedSide> price_all(std::vector<CompareSide> sides, CompareAnswer& answer) {
    std::vector<PricedSide> priced;
    for (CompareSide& side : sides) {
        std::string name = name_of(side);
        lang::Outcome<Estimate> estimated =
            side.job ? estimate(**side.job) : lang::Outcome<Estimate>(std::move(side.job.said));
        tell(std::move(estimated.said), answer);
        if (!estimated) {
            answer.unanswered.push_back(std::move(name));
            continue;
        }
        if (priced.empty())
            answer.title = title_of(**side.job);
        answer.columns.push_back({std::move(name), estimated->price_cents, estimated->per,
                                  estimated->earnings.minimum > 0});
        priced.push_back({*side.job, std::move(*estimated)});
    }
    return priced;
}

} // namespace

std::vector<std::string> options_of(const PricedJob& job) {
    return job.sheet().job.options;
}

lang::Outcome<std::string> unit_of_given(const PricedJob& job, const std::string& given) {
    const lang::LineId id = job.sheet().find(given);
    if (id == lang::none || job.sheet().lines[id].given == lang::none)
        return lang::placeless(lang::Code::Q001, "the job has no given named `" + given + "`");
    const std::string unit = unit_text(job.sheet(), job.sheet().lines[id]);
    return unit.empty() ? std::string("1") : unit;
}

std::optional<lang::Diagnostic> too_much_side_by_side(std::span<const CompareSide> sides) {
    std::size_t steps = 0;
    for (const CompareSide& side : sides)
        steps += side.job ? (*side.job)->sheet().nodes.size() : 0;
    if (steps <= max_side_by_side)
        return std::nullopt;
    return lang::placeless(lang::Code::Q006,
                           "the jobs side by side come to more than " +
                               lang::number_text(max_side_by_side) + " steps of calculation",
                           {}, {"compare fewer"});
}

std::optional<lang::Diagnostic> too_many_side_by_side(std::size_t columns) {
    if (columns <= max_columns)
        return std::nullopt;
    return lang::placeless(
        lang::Code::Q006,
        fmt::format("at most {} jobs side by side, and these are {}", max_columns, columns), {},
        {"`--option TITLE` names the options to compare, one each"});
}

lang::Outcome<CompareAnswer> ask(std::vector<CompareSide> sides, const CompareQuestion& question) {
    if (auto too_many = too_many_side_by_side(sides.size()))
        return std::move(*too_many);
    if (auto too_much = too_much_side_by_side(sides))
        return std::move(*too_much);
    if (auto other = in_two_moneys(sides))
        return std::move(*other);
    CompareAnswer answer;
    const std::vector<PricedSide> priced = price_all(std::move(sides), answer);
    if (priced.empty())
        return answer;
    fill_columns(priced, answer);
    if (question.by_block)
        fill_blocks(priced, answer);
    if (!question.flip.empty()) {
        lang::Outcome<CompareFlips> flips = flips_over(priced, question.flip);
        if (!flips)
            return std::move(flips.said);
        answer.flips = std::move(*flips);
    }
    if (question.over) {
        lang::Outcome<CompareOver> over = prices_over(priced, *question.over);
        if (!over)
            return std::move(over.said);
        answer.over = std::move(*over);
    }
    return answer;
}

} // namespace acre::engine
