#include "engine/book/make_record.h"

#include <cmath>
#include <set>

#include <fmt/format.h>

#include "engine/book/texts.h"
#include "engine/questions/block_prices.h"
#include "engine/questions/dates.h"
#include "engine/questions/risk/risk.h"
#include "engine/words/words.h"
#include "lang/check/inner_lines.h"

namespace acre::engine {
namespace {

// The value of a line, or of a choice its option's name; false without an answer.
template <class Entry> bool take_value(const PricedJob& job, lang::LineId id, Entry& to) {
    const lang::Sheet& sheet = job.sheet();
    const Slot slot = job.plan().line_slot[id];
    const double value = slot == no_slot ? no_value : job.values().slot[slot];
    if (!std::isfinite(value))
        return false;
    const lang::Line& line = sheet.lines[id];
    to.name = line.name;
    if (line.type.kind == lang::Type::Kind::Choice) {
        const std::vector<std::string>& options = sheet.choices[line.type.choice].options;
        const auto index = static_cast<std::size_t>(value);
        to.choice = index < options.size() ? options[index] : std::string();
    } else {
        to.value = value;
        to.unit = line.unit_text;
    }
    return true;
}

void take_texts(const PricedJob& job, const QuoteRecord* sealed, QuoteRecord& quote) {
    const lang::Request& request = job.request();
    const auto take = [&](const std::string& name, const std::string& text) {
        if (sealed != nullptr)
            if (const auto seal = sealed->texts.find(name); seal != sealed->texts.end())
                if (const std::string* known = carried_text(*sealed, seal->second);
                    known != nullptr && *known == text) {
                    quote.carried.emplace(seal->second, text);
                    quote.texts[name] = seal->second;
                    return;
                }
        quote.texts[name] = carry(quote, text);
    };
    take(request.name, request.text);
    if (request.season)
        take(request.season->name, request.season->text);
    for (const auto& [name, text] : job.used().texts)
        take(name, text);
    for (const auto& [key, name] : job.used().names) {
        const auto& [kind, reference, from] = key;
        quote.references.push_back({std::string(reference_word(kind)), reference, from, name});
    }
    quote.request = {request.name,
                     request.kind == lang::FileKind::Job ? "job" : "model",
                     request.option,
                     request.field_sets.value_or(""),
                     request.season ? request.season->name : std::string(),
                     request.sets,
                     request.notation};
}

void take_job(const lang::Sheet& sheet, QuoteRecord& quote) {
    const lang::JobInfo& info = sheet.job;
    quote.title = info.title;
    quote.who = info.who;
    quote.option = info.option;
    quote.model = info.model_title;
    quote.season = info.season_title;
    quote.job_words = info.words;
    if (info.date)
        quote.date =
            fmt::format("{:04}-{:02}-{:02}", info.date->year, info.date->month, info.date->day);
    if (!sheet.firm.file.empty()) {
        quote.firm = sheet.firm.name;
        for (const auto& [name, text] : sheet.firm.words)
            quote.firm_words.emplace_back(name, text);
    }
    quote.money = sheet.firm.money;
}

void take_givens(const PricedJob& job, QuoteRecord& quote) {
    for (const lang::Given& given : job.sheet().givens) {
        RecordGiven entry;
        if (given.settings.empty() || !take_value(job, given.line, entry))
            continue;
        const lang::Setting& setting = given.settings.back();
        const lang::SourceFile& file = job.sources().file(setting.span.file);
        entry.label = job.sheet().lines[given.line].label;
        entry.set_by = layer_text(setting.layer);
        entry.place = fmt::format("{}:{}", file.name(), file.position(setting.span.begin).line);
        entry.because = setting.because;
        quote.givens.push_back(std::move(entry));
    }
}

std::vector<std::string> names_of(const lang::Sheet& sheet, const std::vector<bool>& lines) {
    std::set<std::string> names;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id)
        if (lines[id])
            names.insert(sheet.lines[id].name);
    return {names.begin(), names.end()};
}

// What a wording may name: what the model shows, and what every price says. What is shown is inner
// no more.
void take_shown(const lang::Sheet& sheet, QuoteRecord& quote) {
    std::vector<bool> inner = lang::inner_lines(sheet);
    std::vector<bool> shown = lang::price_lines(sheet);
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id)
        if (sheet.lines[id].shown) {
            shown[id] = true;
            inner[id] = false;
        }
    quote.inner = names_of(sheet, inner);
    quote.shown = names_of(sheet, shown);
}

// Names of the costs over this very line.
std::vector<std::string> costs_over(const lang::Sheet& sheet, lang::LineId line) {
    std::vector<std::string> names;
    for (const lang::Cost& cost : sheet.costs) {
        const lang::NodeId quantity = sheet.lines[cost.quantity].value;
        if (quantity != lang::none && sheet.nodes[quantity].op == lang::Op::Line &&
            sheet.nodes[quantity].index == line)
            names.push_back(sheet.lines[cost.rate].name);
    }
    return names;
}

// What a log of the job counts.
void take_counted(const PricedJob& job, QuoteRecord& quote) {
    const lang::Sheet& sheet = job.sheet();
    for (const lang::Counted& what : sheet.counted) {
        const double value = job.value(what.line);
        if (!std::isfinite(value))
            continue;
        const std::string unit = unit_text(sheet, sheet.lines[what.line]);
        quote.counted.push_back({sheet.lines[what.line].name, unit,
                                 how_counted(unit, !what.machine.empty()), what.machine, value,
                                 costs_over(sheet, what.line)});
    }
}

} // namespace

std::vector<RecordItem> items_of(const Estimate& estimate) {
    std::vector<RecordItem> items;
    for (const ItemRow& row : estimate.items) {
        RecordItem& item = items.emplace_back(RecordItem{
            row.title, row.name, row.per, row.quantity, row.rate, row.cost, row.cents, {}});
        for (const StepRow& step : row.steps)
            item.steps.push_back({step.text, step.added, step.sum});
    }
    return items;
}

std::vector<RecordBlock> record_blocks(const PricedJob& job, const Estimate& estimate) {
    std::vector<RecordBlock> blocks;
    for (const BlockPrice& block : block_prices(job, estimate).blocks)
        blocks.push_back(
            {block.label, block.acres.text, block.depth.text, block.soil.text, block.cents});
    return blocks;
}

QuoteRecord quote_of(const PricedJob& job, const Estimate& estimate, const QuoteRecord* sealed) {
    QuoteRecord quote;
    take_texts(job, sealed, quote);
    take_job(job.sheet(), quote);
    if (const std::optional<DatesAnswer> dates = dates_of(job)) {
        quote.start = dates->start;
        quote.finish = dates->finish;
    }
    take_givens(job, quote);
    for (lang::LineId id = 0; id < job.sheet().lines.size(); ++id)
        if (RecordLine line; take_value(job, id, line))
            quote.lines.push_back(std::move(line));
    take_shown(job.sheet(), quote);
    take_counted(job, quote);
    for (const CostRow& row : estimate.costs)
        quote.costs.push_back({row.name, row.label, row.part, row.rate_unit, row.quantity_unit,
                               row.rate, row.quantity, row.amount, row.per_unit});
    quote.items = items_of(estimate);
    quote.price_cents = estimate.price_cents;
    quote.per = estimate.per;
    quote.per_quantity = estimate.per_quantity;
    quote.price_per_unit = estimate.line_per_unit;
    quote.cost_total = estimate.cost_total;
    for (const CautionRow& row : estimate.cautions)
        quote.cautions.push_back(row.text);
    quote.overhead = overhead_of(quote);
    return quote;
}

RecordRisk risk_of(const PricedJob& job, KeptPoints* points) {
    RiskQuestion question;
    question.points = points;
    question.matters_most = false;
    question.errors = false;
    question.names = true;
    question.trials = record_trials;
    question.within_effort = true;
    question.share_trials = 0;
    const lang::Outcome<RiskAnswer> answer = ask(job, question);
    RecordRisk risk;
    if (!answer)
        return risk;
    risk.trials = static_cast<std::int64_t>(answer->trials);
    risk.seed = static_cast<std::int64_t>(answer->seed);
    risk.without_answer = static_cast<std::int64_t>(answer->without_answer);
    risk.loss = answer->loss.value_or(no_value);
    for (const Factor& factor : answer->factors)
        risk.drawn.push_back({factor.given.name, factor.is_event() ? "event" : "swing",
                              factor.swing ? factor.swing->low : no_value,
                              factor.swing ? factor.swing->high : no_value});
    for (const Held& held : answer->held)
        risk.held.push_back({held.name, held.reason == HeldReason::Chosen  ? "chosen"
                                        : held.reason == HeldReason::Asked ? "asked"
                                                                           : "computed"});
    for (const Measured& measured : answer->measured) {
        if (measured.name != "cost" && measured.name != "contribution" && measured.name != "profit")
            continue;
        RecordSpread& spread = risk.spreads.emplace_back(
            RecordSpread{measured.name, measured.mean, measured.spread, {}});
        for (const Percentile& one : measured.percentiles)
            spread.quantiles.push_back({one.share, one.value});
    }
    return risk;
}

std::string give_number(const QuoteRecord& quote, std::map<std::string, std::int64_t>& counter) {
    const std::string year = quote.issued.substr(0, 4);
    return fmt::format("{}-{:03}", year, ++counter[year]);
}

} // namespace acre::engine
