#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/crew/crew.h"
#include "cli/field/report.h"
#include "cli/shared/quote_page/wording.h"
#include "engine/billing/accepted.h"
#include "engine/billing/bill_items.h"
#include "engine/book/make_record.h"
#include "engine/book/texts.h"
#include "engine/driver.h"
#include "engine/questions/field.h"
#include "engine/questions/shown.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t least_log_rows = 6, most_log_rows = 24;

lang::Diagnostic no_work(const std::string& number, const engine::Standing& standing) {
    const std::string state =
        standing.replaced_by.empty() ? standing.state : "replaced by " + standing.replaced_by;
    lang::Diagnostic fault = lang::placeless(
        lang::Code::R005,
        fmt::format("quote {} is {}: there is no work to send a crew to", number, state));
    if (standing.is_open())
        fault.helps.push_back(
            {fmt::format("when the customer has signed:  acrewright mark {} accepted", number),
             {}});
    return fault;
}

// Figures that the model shows the customer, without those in money.
Grid figures_of(const engine::PricedJob& job, const engine::QuoteRecord& quote) {
    Grid grid{{"", ""}, {}, 0};
    for (const engine::ShownFigure& figure : engine::ask(job, engine::ShownQuestion{}).figures) {
        const auto line = std::find_if(quote.lines.begin(), quote.lines.end(),
                                       [&](const auto& one) { return one.name == figure.name; });
        if (line == quote.lines.end() || lang::money_in(line->unit) > 0)
            continue;
        grid.rows.push_back(
            {figure.label.empty() ? figure.name : figure.label,
             line->choice.empty() ? lang::spoken_text(line->value, line->unit) : figure.text});
    }
    return grid;
}

Grid days_of(const engine::CalendarAnswer& calendar) {
    Grid grid{{"Day", "Work"}, {}, 0};
    for (const engine::DayRow& day : calendar.days) {
        std::string work;
        for (const std::size_t i : day.work) {
            const engine::StageRow& stage = calendar.dates.stages[i];
            work += (work.empty() ? "" : ", ") + stage.label;
            if (stage.begin_by && day.date == stage.first)
                work += fmt::format(": {} {}, or it moves on {}", stage.begin_by_label,
                                    stage.begin_by_text, lang::short_day_text(stage.else_on));
        }
        if (!day.closed.empty())
            work += (work.empty() ? "closed" : "; closed") +
                    (day.closed == "closed" ? std::string() : ": " + day.closed);
        grid.rows.push_back(
            {fmt::format("{} {}", lang::short_weekday(day.weekday), lang::short_day_text(day.date)),
             work});
    }
    return grid;
}

Grid blocks_of(const std::vector<engine::RecordBlock>& blocks) {
    Grid grid{{"Block", "Acres", "Depth", "Soil"}, {}, 0};
    for (const engine::RecordBlock& block : blocks)
        grid.rows.push_back({block.label, block.acres, block.depth, block.soil});
    return grid;
}

// A sheet to fill in by hand, with the columns that the log of this job has, and a row for each
// day of work and two to spare.
Grid log_of(const engine::QuoteRecord& quote,
            const std::optional<engine::CalendarAnswer>& calendar) {
    Grid grid{{"Date", "Machine", "Operator", "Start", "Stop"}, {}, least_log_rows};
    bool fuel = false;
    for (const engine::CountedLine& line : quote.counted) {
        // The work of the job's own model, and what its items are billed by: what its move counts
        // is the hauler's to write down.
        const bool billed = std::any_of(
            quote.items.begin(), quote.items.end(), [&](const engine::RecordItem& item) {
                return !item.per.empty() && engine::measured_by(quote, item) == &line;
            });
        if (line.how == engine::Counting::Work &&
            (billed || line.name.find('.') == std::string::npos))
            grid.head.push_back(line.name);
        fuel = fuel || line.how == engine::Counting::Fuel;
    }
    if (fuel)
        grid.head.emplace_back("Fuel");
    for (const char* more : {"Lost", "Why, by whom"})
        grid.head.emplace_back(more);
    if (calendar)
        grid.blank_rows =
            std::clamp(static_cast<std::size_t>(std::min(calendar->dates.work_days, 1000.0)) + 2,
                       least_log_rows, most_log_rows);
    return grid;
}

// How its fields are driven, with the maps of the option taken, and what is left alone there; that
// also among what to mind, for the page may be read where its maps are not. A record has what a
// boundary came to, so that it is laid out again here.
void take_fields(const engine::QuoteRecord& sealed, engine::MadeFrom made, CrewPage& page) {
    if (!engine::has_boundary(sealed))
        return;
    made.request.field_sets.reset();
    engine::UsedTextsLoader loader(made.texts);
    const lang::Outcome<engine::Job> job = engine::make_job(made.request, loader);
    if (!job) {
        page.parts.notes.push_back("Heading, and what to keep off, are not known: " +
                                   job.said.diagnostics.all().front().title);
        return;
    }
    page.quote.pictures.clear();
    for (const engine::JobField& field : (*job)->fields()) {
        const engine::FieldAnswer is = engine::field_answer(field.field);
        page.headings.push_back(is.heading);
        page.quote.pictures.push_back({field.entry, engine::carry(page.quote, field_svg(is))});
        for (const std::string& one : is.kept_off)
            if (std::find(page.kept_off.begin(), page.kept_off.end(), one) == page.kept_off.end())
                page.kept_off.push_back(one);
    }
    if (!page.kept_off.empty())
        page.parts.notes.push_back(engine::not_ripped_text(page.kept_off) +
                                   ": mark it on the ground before the work begins");
}

} // namespace

lang::Outcome<CrewPage> crew_page(const Book& book, const std::string& number) {
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    const lang::Outcome<const engine::Life*> life = engine::find_quote(state->lives, number);
    if (!life)
        return life.said;
    const engine::Standing standing = state->lives.standing(**life, engine::no_day);
    if (standing.state != "accepted" && standing.state != "finished")
        return no_work(number, standing);
    const lang::Outcome<engine::Contract> contract = engine::contract_of(state->lives, number);
    if (!contract)
        return contract.said;
    const engine::ContractStep& work = contract->steps.back();
    lang::Outcome<engine::Record> record = book.record(static_cast<std::uint64_t>(work.record));
    if (!record)
        return record.said;
    const engine::QuoteRecord sealed = *record->quote();
    const std::optional<engine::MadeFrom> made = engine::made_from(sealed, work.option);
    if (!made)
        return engine::lacks_texts(sealed.number);
    engine::UsedTextsLoader loader(made->texts);
    const lang::Outcome<engine::Job> job = engine::make_job(made->request, loader);
    if (!job)
        return job.said;
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(**job);
    if (!estimate)
        return estimate.said;
    CrewPage page{engine::quote_of(**job, *estimate),
                  contract->life->quote.quote,
                  contract->steps.front().accepted,
                  engine::head_of(**job),
                  {},
                  {},
                  {},
                  {}};
    page.quote.number = work.quote;
    page.quote.by = sealed.by;
    page.quote.pictures = sealed.pictures;
    page.quote.carried = sealed.carried;
    if (lang::Outcome<engine::CalendarAnswer> days = engine::ask(**job, engine::CalendarQuestion{}))
        page.calendar = std::move(*days);
    page.parts = {page.job.notes, figures_of(**job, page.quote),
                  page.calendar ? days_of(*page.calendar) : Grid{},
                  blocks_of(engine::record_blocks(**job, *estimate)),
                  log_of(page.quote, page.calendar)};
    take_fields(sealed, *made, page);
    return page;
}

} // namespace acre::cli
