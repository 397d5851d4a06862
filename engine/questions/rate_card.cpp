#include "engine/questions/rate_card.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/card_notes.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/grid.h"
#include "engine/questions/what_if/reach.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr std::size_t max_facts = 12;

lang::Outcome<const lang::PriceItem*> item_named(const PricedJob& job, const std::string& name) {
    for (const lang::PriceItem& item : job.sheet().prices)
        if (!item.per_text.empty() && (name.empty() || item.name == name))
            return &item;
    return lang::placeless(
        lang::Code::Q001, name.empty() ? "the model has no price per unit, so there is no rate card"
                                       : "the model has no price per unit named `" + name + "`");
}

lang::Outcome<GridAnswer> grid_of(const PricedJob& job, std::span<const CardAlong* const> along,
                                  std::span<const lang::LineId> lines) {
    GridQuestion question;
    double cells = 1;
    for (const CardAlong* one : along) {
        question.along.push_back({one->given, one->at});
        cells *= static_cast<double>(one->at.size());
    }
    for (const lang::LineId line : lines)
        question.lines.push_back(job.sheet().lines[line].name);
    if (cells > static_cast<double>(max_card_cells))
        return lang::placeless(lang::Code::Q006, fmt::format("the card has more than {} cells",
                                                             lang::number_text(max_card_cells)));
    return ask(job, question);
}

CardAxis axis_of(const GridAnswer::Along& along) {
    const Subject& given = along.given;
    CardAxis axis{given.name, given.called, {}, given.is_choice()};
    for (const double value : along.at)
        axis.places.push_back(given.is_choice() ? given.option(value) : given.text(value));
    return axis;
}

double rounded_up(double rate, double step) {
    return step > 0 ? std::ceil(rate / step - 1e-9) * step : rate;
}

// What stands at the cells of each page, `size` of them.
lang::Outcome<bool> fill_notes(const PricedJob& job, const GridAnswer& grid, std::size_t size,
                               RateCard& card) {
    std::vector<std::string> givens;
    for (const GridAnswer::Along& along : grid.along)
        givens.push_back(along.given.name);
    std::vector<CardCell> cells(grid.cells);
    for (std::size_t i = 0; i < grid.cells; ++i) {
        for (std::size_t k = 0; k < grid.along.size(); ++k)
            cells[i].at.push_back(grid.along[k].at[grid.place(i, k)]);
        cells[i].has_rate = std::isfinite(grid.columns[0].value[i]);
    }
    lang::Outcome<CardNotes> notes = card_notes(job, givens, cells);
    if (!notes)
        return std::move(notes.said);
    card.notes = std::move(notes->text);
    for (std::size_t i = 0; i < grid.cells; ++i)
        card.pages[i / size].notes.push_back(std::move(notes->by_cell[i]));
    return true;
}

lang::Outcome<bool> fill_pages(const PricedJob& job, const CardQuestion& question,
                               const lang::PriceItem& item, RateCard& card) {
    std::vector<const CardAlong*> along;
    if (question.pages)
        along.push_back(&*question.pages);
    along.push_back(&question.rows);
    along.push_back(&question.columns);
    std::vector<lang::LineId> lines = {item.rate, item.cost, item.quantity};
    lang::LineId before = item.cost;
    for (const lang::PriceStep& step : item.steps) {
        if (step.kind == lang::ast::StepKind::Overhead)
            lines.insert(lines.end(), {before, step.line});
        before = step.line;
    }
    lang::Outcome<GridAnswer> found = grid_of(job, along, lines);
    if (!found)
        return std::move(found.said);
    const std::size_t axes = found->along.size();
    card.rows = axis_of(found->along[axes - 2]);
    card.columns = axis_of(found->along[axes - 1]);
    if (question.pages)
        card.along_pages = axis_of(found->along[0]);
    const std::size_t size = question.rows.at.size() * question.columns.at.size();
    for (std::size_t cell = 0; cell < found->cells; ++cell) {
        CardPage& page = cell % size == 0 ? card.pages.emplace_back() : card.pages.back();
        const double rate = rounded_up(found->columns[0].value[cell], question.round);
        double cost = found->columns[1].value[cell]; // and overhead
        for (std::size_t line = 3; line < lines.size(); line += 2)
            cost += found->columns[line + 1].value[cell] - found->columns[line].value[cell];
        page.rate.push_back(rate);
        page.margin.push_back((rate - cost / found->columns[2].value[cell]) / rate);
    }
    return fill_notes(job, *found, size, card);
}

lang::Outcome<CardBands> bands_of(const PricedJob& job, const CardAlong& along) {
    const std::vector<lang::PriceItem>& items = job.sheet().prices;
    const auto lump = std::find_if(items.begin(), items.end(), [](const lang::PriceItem& item) {
        return item.per_text.empty();
    });
    if (lump == items.end())
        return lang::placeless(lang::Code::Q001, "the model has no lump sum for the bands");
    const CardAlong* const one[] = {&along};
    const lang::LineId lines[] = {lump->amount};
    lang::Outcome<GridAnswer> found = grid_of(job, one, lines);
    if (!found)
        return std::move(found.said);
    return CardBands{lump->title, axis_of(found->along[0]), std::move(found->columns[0].value)};
}

std::optional<double> minimum_of(const PricedJob& job, const lang::PriceItem& item) {
    std::optional<double> minimum;
    for (const lang::PriceStep& step : item.steps) {
        if (step.kind != lang::ast::StepKind::AtLeast || step.per_unit)
            continue;
        const Slot slot = job.compiled().origins.slot_of_node[step.value];
        if (slot != no_slot)
            minimum = job.values().slot[slot];
    }
    return minimum;
}

// What moves with the places of the card is no term of it, by whatever name.
std::vector<char> moved_by(const PricedJob& job, const RateCard& card) {
    std::vector<std::uint32_t> inputs;
    for (const CardAxis* axis :
         {&card.rows, &card.columns, card.along_pages ? &*card.along_pages : nullptr})
        if (axis != nullptr)
            if (const lang::Outcome<Axis> found = find_axis(job, axis->given))
                inputs.push_back(found->input);
    std::vector<char> moved = reached_from(job.plan(), inputs);
    for (const std::uint32_t input : inputs)
        moved[job.plan().inputs[input].slot] = 1;
    return moved;
}

// The givens of the model's first part that hold for every cell.
std::vector<CardFact> facts_of(const PricedJob& job, const RateCard& card) {
    std::vector<CardFact> facts;
    const lang::Sheet& sheet = job.sheet();
    const std::vector<char> moved = moved_by(job, card);
    for (const lang::Given& given : sheet.givens) {
        const lang::Line& line = sheet.lines[given.line];
        if (line.part != 0 || line.name.find('.') != std::string::npos || line.label.empty() ||
            facts.size() >= max_facts)
            continue;
        const Slot slot = job.plan().line_slot[given.line];
        if (slot == no_slot || moved[slot] != 0 || !std::isfinite(job.values().slot[slot]) ||
            job.plan().operations[slot].code != OpCode::Input)
            continue;
        facts.push_back({line.label, value_text(sheet, given.line, job.values().slot[slot]),
                         line.type.kind == lang::Type::Kind::Choice});
    }
    return facts;
}

} // namespace

lang::Outcome<std::string> card_unit(const PricedJob& job, const std::string& item) {
    lang::Outcome<const lang::PriceItem*> found = item_named(job, item);
    if (!found)
        return std::move(found.said);
    return job.sheet().units.money() + "/" + (*found)->per_text;
}

lang::Outcome<RateCard> ask(const PricedJob& job, const CardQuestion& question) {
    lang::Outcome<const lang::PriceItem*> found = item_named(job, question.item);
    if (!found)
        return std::move(found.said);
    const lang::PriceItem& item = **found;
    const lang::JobInfo& info = job.sheet().job;
    RateCard card;
    card.title = info.title.empty() ? info.model_title : info.title;
    card.season = info.season_title;
    card.item = item.title;
    card.unit = job.sheet().units.money() + "/" + item.per_text;
    if (lang::Outcome<bool> filled = fill_pages(job, question, item, card); !filled)
        return std::move(filled.said);
    if (question.bands) {
        lang::Outcome<CardBands> bands = bands_of(job, *question.bands);
        if (!bands)
            return std::move(bands.said);
        card.bands = std::move(*bands);
    }
    card.minimum = minimum_of(job, item);
    card.fixed = facts_of(job, card);
    return card;
}

} // namespace acre::engine
