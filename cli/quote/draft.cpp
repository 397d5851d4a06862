#include <algorithm>

#include "cli/field/report.h"
#include "cli/quote/acceptance.h"
#include "cli/quote/quote.h"
#include "engine/book/canonical.h"
#include "engine/book/make_record.h"
#include "engine/book/past_plan.h"
#include "engine/book/texts.h"
#include "engine/questions/estimate.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

// Other options of the same job, each priced as the job with it is; what is said of them goes to
// `said`, and is shown where it stops the quote.
bool take_options(const QuoteArguments& arguments, engine::QuoteRecord& quote,
                  std::vector<lang::Said>& said, Reply& reply) {
    for (const std::string& name : arguments.also) {
        JobArguments other = arguments.job;
        other.option = name;
        const lang::Outcome<engine::Job> job = open_job(other);
        if (!job) {
            reply.said.push_back(of_the_price(job.said));
            return false;
        }
        const lang::Outcome<engine::Estimate> estimate = engine::estimate(**job);
        said.push_back(of_the_price(estimate.said));
        if (!estimate || !all_accepted(said.back(), arguments.accepted))
            reply.said.push_back(said.back());
        if (!estimate)
            return false;
        quote.options.push_back({name, estimate->price_cents, engine::items_of(*estimate)});
    }
    return true;
}

void take_terms(const QuoteArguments& arguments, engine::QuoteRecord& quote) {
    quote.number = "draft";
    quote.issued = arguments.date;
    quote.valid_until = *lang::date_after(arguments.date, arguments.valid_days);
    quote.by = engine::utf8_text(arguments.by);
    if (quote.by.empty()) // the firm says who quotes, unless the command does
        for (const auto& [name, text] : quote.firm_words)
            quote.by = name == "quoted_by" ? text : quote.by;
    quote.replaces = arguments.replaces;
    quote.changes = arguments.changes;
    quote.accepted = arguments.accepted;
    quote.page_layout = engine::current_page_layout;
}

} // namespace

std::optional<QuoteDraft> draft_quote(const QuoteArguments& arguments, Reply& reply) {
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    if (!job) {
        reply.said.push_back(of_the_price(job.said));
        return std::nullopt;
    }
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(**job);
    reply.said.push_back(of_the_price(estimate.said));
    if (!estimate || reply.failed())
        return std::nullopt;
    engine::QuoteRecord quote = engine::quote_of(**job, *estimate);
    std::vector<lang::Said> said = {of_the_price(estimate.said)};
    if (auto past = engine::planned_before(**job, *lang::day_number(arguments.date));
        past && arguments.changes.empty()) {
        lang::Said of_the_day{{}, (*job)->shared_sources()};
        of_the_day.diagnostics.add(std::move(*past));
        reply.said.push_back(of_the_day);
        said.push_back(std::move(of_the_day));
    }
    if (!take_options(arguments, quote, said, reply))
        return std::nullopt;
    // Of a draft too: its page can be handed over as well as any other.
    if (auto fault = not_accepted(said, arguments.accepted)) {
        reply.fail(std::move(*fault));
        return std::nullopt;
    }
    lang::Outcome<Wording> wording = read_wording(arguments.wording);
    if (!wording) {
        reply.said.push_back(wording.said);
        return std::nullopt;
    }
    QuoteDraft draft{{}, std::move(*wording)};
    take_terms(arguments, quote);
    for (const engine::JobField& field : (*job)->fields())
        quote.pictures.push_back(
            {field.entry, engine::carry(quote, field_svg(engine::field_answer(field.field)))});
    if (arguments.by_block)
        quote.blocks = engine::record_blocks(**job, *estimate);
    quote.risk = engine::risk_of(**job);
    quote.wording = draft.wording.name;
    quote.wording_text = engine::carry(quote, draft.wording.text);
    draft.record.body = std::move(quote);
    return draft;
}

} // namespace acre::cli
