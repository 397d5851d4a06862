#include "engine/questions/what_if/sensitivity.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>
#include <utility>

#include "engine/questions/block_prices.h"
#include "engine/questions/estimate.h"
#include "engine/questions/what_if/study.h"

namespace acre::engine {
namespace {

bool is_rounded(const lang::Sheet& sheet) {
    const auto rounds = [](const lang::PriceStep& step) {
        return step.kind == lang::ast::StepKind::RoundUp ||
               step.kind == lang::ast::StepKind::RoundTo;
    };
    return std::any_of(sheet.prices.begin(), sheet.prices.end(), [&](const lang::PriceItem& item) {
        return std::any_of(item.steps.begin(), item.steps.end(), rounds);
    });
}

// The study that slopes are taken from.
std::optional<LineStudy> cost_behind(const PricedJob& job, lang::LineId line, bool nearby) {
    const lang::Sheet& sheet = job.sheet();
    const bool is_price = line == sheet.price_per_unit || line == sheet.price_total;
    if (!is_price || !is_rounded(sheet) || sheet.cost_total == lang::none)
        return std::nullopt;
    return std::move(study(job, sheet.cost_total, {0, nearby, nearby}).value);
}

// Every given called by its label, or by its name where two that are reached have one label.
void name_givens(const PricedJob& job, const LineStudy& of, bool names, SensitivityAnswer& answer) {
    std::map<std::string, std::size_t> labels;
    for (const Moved& moved : of.moved)
        labels[job.sheet().lines[moved.axis.line].label] += moved.reached ? 1 : 0;
    for (std::size_t i = 0; i < of.moved.size(); ++i) {
        const lang::LineId line = of.moved[i].axis.line;
        answer.effects[i].given =
            subject_of(job, line, names || labels[job.sheet().lines[line].label] > 1);
    }
}

void take_slopes(const LineStudy& from, const LineStudy& of, SensitivityAnswer& answer) {
    std::unordered_map<std::uint32_t, std::size_t> place;
    for (std::size_t i = 0; i < of.moved.size(); ++i)
        place[of.moved[i].axis.input] = i;
    for (const Moved& moved : from.moved) {
        const std::size_t i = place.at(moved.axis.input);
        Effect& effect = answer.effects[i];
        effect.slope = moved.slope;
        effect.slope_unit = moved.slope_unit;
        effect.elasticity = moved.elasticity;
        effect.nearby = moved.nearby;
        if (moved.reached && moved.axis.options == 0)
            answer.by_slope.push_back(i);
    }
    const auto weight = [&](std::size_t i) {
        const double elasticity = answer.effects[i].elasticity;
        return std::isfinite(elasticity) ? std::abs(elasticity) : -1;
    };
    std::stable_sort(answer.by_slope.begin(), answer.by_slope.end(),
                     [&](std::size_t a, std::size_t b) { return weight(a) > weight(b); });
    answer.looked_near = from.looked_near;
}

// By the first part of a given's name, which is its block's.
void take_blocks(const PricedJob& job, SensitivityAnswer& answer) {
    for (const BlockName& block : blocks_of(job.sheet())) {
        BlockSwings swings{block.name, block.label, 0, 0, 0};
        double most = 0;
        for (const std::size_t i : answer.by_swing) {
            if (!answer.effects[i].given.name.starts_with(block.name + "."))
                continue;
            const double width = answer.effects[i].width(answer.value);
            ++swings.givens;
            swings.widths += width;
            if (width > most) {
                most = width;
                swings.most = i;
            }
        }
        if (swings.givens > 0)
            answer.blocks.push_back(std::move(swings));
    }
}

} // namespace

double Effect::width(double base) const {
    double least = base, greatest = base;
    const auto take = [&](double y) {
        if (std::isfinite(y)) {
            least = std::min(least, y);
            greatest = std::max(greatest, y);
        }
    };
    if (at_low && at_high) {
        take(*at_low);
        take(*at_high);
    }
    for (const double y : at_option)
        take(y);
    return greatest - least;
}

std::size_t Effect::least_option() const {
    std::size_t least = 0;
    for (std::size_t i = 0; i < at_option.size(); ++i)
        least = !(at_option[i] >= at_option[least]) && std::isfinite(at_option[i]) ? i : least;
    return least;
}

std::size_t Effect::greatest_option() const {
    std::size_t greatest = 0;
    for (std::size_t i = 0; i < at_option.size(); ++i)
        greatest =
            !(at_option[i] <= at_option[greatest]) && std::isfinite(at_option[i]) ? i : greatest;
    return greatest;
}

lang::Outcome<SensitivityAnswer> ask(const PricedJob& job, const SensitivityQuestion& question) {
    lang::Outcome<lang::LineId> line = find_line(job, question.line);
    if (!line)
        return std::move(line.said);
    lang::Said said = judged(job, question.line.empty() ? std::vector<lang::LineId>{}
                                                        : std::vector<lang::LineId>{*line});
    if (said.diagnostics.has_errors())
        return said;
    lang::Outcome<LineStudy> of = study(job, *line, {question.interactions, question.nearby});
    if (!of)
        return std::move(of.said);
    const std::optional<LineStudy> cost = cost_behind(job, *line, question.nearby);
    const LineStudy& slopes = cost ? *cost : *of;

    SensitivityAnswer answer;
    answer.title = title_of(job);
    answer.line = asked_subject(job, *line, question.names);
    answer.value = of->value;
    answer.charged = charged_otherwise(job, *line);
    answer.slopes_of = asked_subject(job, slopes.line, question.names);
    answer.slopes_value = slopes.value;
    answer.rounded = cost.has_value();
    answer.effects.assign(of->moved.begin(), of->moved.end());
    name_givens(job, *of, question.names, answer);
    for (std::size_t i = 0; i < answer.effects.size(); ++i)
        if (answer.effects[i].reached && answer.effects[i].width(answer.value) > 0)
            answer.by_swing.push_back(i);
    take_blocks(job, answer);
    take_slopes(slopes, *of, answer);
    answer.interactions = std::move(of->interactions);
    answer.looked_together = of->looked_together;
    for (const lang::LineId id : of->computed)
        answer.computed.push_back(job.sheet().lines[id].name);
    return {std::move(answer), std::move(said)};
}

} // namespace acre::engine
