#include "cli/rate_card/card.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "cli/shared/quantity.h"
#include "engine/questions/what_if/grid.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string called(const lang::Sheet& sheet, const std::string& given) {
    const lang::Line& line = sheet.lines[sheet.find(given)];
    return line.label.empty() ? line.name : line.label;
}

class Maker {
  public:
    Maker(const engine::PricedJob& job, const CardRequest& request, RateCard& card,
          std::string& reason)
        : job_(job),
          sheet_(job.sheet()),
          request_(request),
          card_(card),
          reason_(reason) {}

    bool make() {
        const lang::PriceItem* item = find_item();
        return item != nullptr && axes() && rounding(item->per_text) && cells(*item) && bands() &&
               facts(*item);
    }

  private:
    const engine::PricedJob& job_;
    const lang::Sheet& sheet_;
    const CardRequest& request_;
    RateCard& card_;
    std::string& reason_;
    AxisWords pages_;
    double round_ = 0;

    const lang::PriceItem* find_item() {
        for (const lang::PriceItem& item : sheet_.prices)
            if (!item.per_text.empty() && (request_.item.empty() || item.name == request_.item))
                return &item;
        reason_ = request_.item.empty() ? "the model has no price per unit to make a card of"
                                        : "the model has no price per unit named `" +
                                              lang::terminal_text(request_.item) + "`";
        return nullptr;
    }
    bool axes() {
        if (!read_axis(request_.rows, sheet_, card_.rows, reason_) ||
            !read_axis(request_.columns, sheet_, card_.columns, reason_))
            return false;
        card_.row_label = called(sheet_, card_.rows.given);
        card_.column_label = called(sheet_, card_.columns.given);
        if (request_.pages.empty())
            return true;
        if (!read_axis(request_.pages, sheet_, pages_, reason_))
            return false;
        card_.page_label = called(sheet_, pages_.given);
        return true;
    }
    bool rounding(const std::string& per) {
        if (request_.round.empty())
            return true;
        const std::optional<double> step = read_quantity(request_.round, "$/" + per, reason_);
        if (step && *step > 0)
            round_ = *step;
        else if (step)
            reason_ = "`--round` takes money above zero";
        return step && *step > 0;
    }
    double rounded(double rate) const {
        return round_ > 0 ? std::ceil(rate / round_ - 1e-9) * round_ : rate;
    }

    bool cells(const lang::PriceItem& item) {
        engine::GridQuestion question;
        if (!pages_.given.empty())
            question.along.push_back({pages_.given, pages_.at});
        question.along.push_back({card_.rows.given, card_.rows.at});
        question.along.push_back({card_.columns.given, card_.columns.at});
        const std::string& rate = sheet_.lines[item.rate].name;
        const std::string& cost = sheet_.lines[item.cost].name;
        const std::string& quantity = sheet_.lines[item.quantity].name;
        question.lines = {rate, cost, quantity};
        double all_cells = 1;
        for (const engine::GridQuestion::Along& along : question.along)
            all_cells *= static_cast<double>(along.at.size());
        if (all_cells > static_cast<double>(max_card_cells)) {
            reason_ =
                fmt::format("the card has more than {} cells", lang::number_text(max_card_cells));
            return false;
        }
        engine::Refusal refusal;
        const std::optional<engine::Grid> grid = engine::grid(job_, question, refusal);
        if (!grid) {
            reason_ = refusal.what;
            return false;
        }
        const std::size_t size = card_.rows.at.size() * card_.columns.at.size();
        for (std::size_t first = 0; first < grid->cells; first += size) {
            CardPage& page = card_.pages.emplace_back();
            if (!pages_.given.empty())
                page.name = pages_.shown[first / size];
            for (std::size_t i = first; i < first + size; ++i) {
                const double value = rounded(grid->columns[0].value[i]);
                page.rate.push_back(value);
                page.left.push_back(
                    (value - grid->columns[1].value[i] / grid->columns[2].value[i]) / value);
            }
        }
        card_.item = item.title;
        card_.unit = "$/" + item.per_text;
        return true;
    }

    bool bands() {
        if (request_.bands.empty())
            return true;
        const auto lump =
            std::find_if(sheet_.prices.begin(), sheet_.prices.end(),
                         [](const lang::PriceItem& item) { return item.per_text.empty(); });
        if (lump == sheet_.prices.end()) {
            reason_ = "the model has no lump to band";
            return false;
        }
        AxisWords axis;
        if (!read_axis(request_.bands, sheet_, axis, reason_))
            return false;
        engine::GridQuestion question;
        question.along.push_back({axis.given, axis.at});
        question.lines = {sheet_.lines[lump->amount].name};
        engine::Refusal refusal;
        const std::optional<engine::Grid> grid = engine::grid(job_, question, refusal);
        if (!grid) {
            reason_ = refusal.what;
            return false;
        }
        for (std::size_t i = 0; i < axis.at.size(); ++i)
            card_.bands.push_back({axis.shown[i], grid->columns[0].value[i]});
        card_.band_label = called(sheet_, axis.given);
        card_.band_item = lump->title;
        return true;
    }

    // What the card rests on: the minimum, and the givens of the item's first part that nobody
    // varies here.
    bool facts(const lang::PriceItem& item) {
        card_.title = sheet_.job.title.empty() ? sheet_.job.model_title : sheet_.job.title;
        card_.season = sheet_.job.season_title;
        for (const lang::PriceStep& step : item.steps)
            if (step.kind == lang::ast::StepKind::AtLeast && !step.per_unit)
                if (const engine::Slot slot = job_.compiled().origins.slot_of_node[step.value];
                    slot != engine::no_slot)
                    card_.minimum = lang::quantity_text(job_.values().slot[slot], "$");
        for (const lang::Given& given : sheet_.givens) {
            const lang::Line& line = sheet_.lines[given.line];
            const bool varied = line.name == card_.rows.given || line.name == card_.columns.given ||
                                line.name == pages_.given;
            if (varied || line.part != 0 || line.name.find('.') != std::string::npos ||
                line.label.empty() || card_.fixed.size() >= 12)
                continue;
            const engine::Slot slot = job_.plan().line_slot[given.line];
            if (slot == engine::no_slot || !std::isfinite(job_.values().slot[slot]) ||
                job_.plan().operations[slot].code != engine::OpCode::Input)
                continue;
            const std::string value =
                line.type.kind == lang::Type::Kind::Choice
                    ? sheet_.choices[line.type.choice]
                          .options[static_cast<std::size_t>(job_.values().slot[slot])]
                    : lang::quantity_text(job_.values().slot[slot], line.unit_text);
            card_.fixed.push_back(line.label + ": " + value);
        }
        return true;
    }
};

} // namespace

bool make_card(const engine::PricedJob& job, const CardRequest& request, std::string date,
               RateCard& card, std::string& reason) {
    card.date = std::move(date);
    return Maker(job, request, card, reason).make();
}

} // namespace acre::cli
