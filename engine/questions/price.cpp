#include "engine/questions/price.h"

#include <cmath>
#include <unordered_set>
#include <utility>

#include <fmt/format.h>

#include "engine/words/choice_label.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {

namespace {

// A price is only made when all of them are met.
std::vector<std::string> conditions_met(const PricedJob& job) {
    std::vector<std::string> texts;
    std::unordered_set<std::string> seen;
    for (const lang::Condition& condition : job.sheet().requires_) {
        if (condition.condition == lang::none)
            continue;
        std::string text = source_text(job.sources(), job.sheet().nodes[condition.condition].span);
        if (seen.insert(text).second)
            texts.push_back(std::move(text));
    }
    return texts;
}

LineEntry line_entry(const PricedJob& job, lang::LineId id) {
    const lang::Sheet& sheet = job.sheet();
    const lang::Line& line = sheet.lines[id];
    LineEntry entry;
    entry.name = line.name;
    entry.label = line.label;
    entry.part = line.part == lang::none ? "" : sheet.parts[line.part].title;
    entry.value = job.value(id);
    entry.is_choice = line.type.kind == lang::Type::Kind::Choice;
    if (entry.is_choice) {
        entry.choice = choice_text(sheet, line.type, entry.value);
        entry.text = entry.choice.empty() ? "no answer" : choice_label(entry.choice);
    } else {
        entry.unit = unit_text(sheet, line);
        entry.text = value_text(sheet, id, entry.value);
    }
    if (line.given != lang::none && !sheet.givens[line.given].settings.empty()) {
        const lang::Setting& setting = sheet.givens[line.given].settings.back();
        entry.set_by = layer_text(setting.layer);
        entry.place = place_text(job.sources(), setting.span);
        entry.because = setting.because;
    }
    return entry;
}

} // namespace

JobHead head_of(const PricedJob& job) {
    const lang::JobInfo& info = job.sheet().job;
    JobHead head{info.title,        info.who,           {},
                 info.option,       info.options,       info.model_title,
                 info.season_title, info.season_unused, info.model_file,
                 info.season_file,  info.words,         info.notes};
    if (info.date)
        head.date = fmt::format("{:04}-{:02}-{:02}", info.date->year % 10000,
                                info.date->month % 100, info.date->day % 100);
    return head;
}

lang::Outcome<PriceAnswer> ask(const PricedJob& job, const PriceQuestion& question) {
    const bool has_price = !job.sheet().prices.empty();
    lang::Outcome<Estimate> estimated =
        has_price || job.sheet().lines.empty() ? estimate(job) : estimate_without_price(job);
    lang::Outcome<PriceAnswer> outcome(std::move(estimated.said));
    if (!estimated)
        return outcome;
    PriceAnswer& answer = outcome.value.emplace();
    answer.job = head_of(job);
    answer.by_hour = hourly_costs(job, *estimated);
    if (question.by_block && has_price)
        answer.blocks = block_prices(job, *estimated);
    answer.estimate = std::move(*estimated);
    answer.conditions = conditions_met(job);
    answer.has_price = has_price;
    answer.dates = dates_of(job);
    if (question.every_line || !has_price) {
        answer.lines.reserve(job.sheet().lines.size());
        for (lang::LineId id = 0; id < job.sheet().lines.size(); ++id)
            answer.lines.push_back(line_entry(job, id));
    }
    return outcome;
}

} // namespace acre::engine
