// A quote with the season of today.
#include "engine/book/again.h"

#include <fmt/format.h>

#include "engine/book/price_of.h"

namespace acre::engine {

lang::Outcome<lang::Loaded> SeasonLoader::load(lang::ReferenceKind kind, std::string_view reference,
                                               std::string_view from) {
    if (kind == lang::ReferenceKind::Firm && from == name_)
        return beside_.load(kind, reference, from);
    if (kind != lang::ReferenceKind::Season)
        return inner_.load(kind, reference, from);
    return lang::Loaded{name_, text_};
}

double Repriced::contribution() const {
    return static_cast<double>(quoted_cents) / 100 - today->cost;
}

double Repriced::profit() const {
    return contribution() - overhead;
}

bool Repriced::loses_money() const {
    return today && profit() < 0;
}

std::string Repriced::why_not() const {
    if (today)
        return {};
    for (const lang::Diagnostic& said : today.said.diagnostics.all())
        if (said.severity() == lang::Severity::Error) // what was only warned of is not why
            return said.title;
    return "no price";
}

lang::Outcome<Job> job_with_season(const QuoteRecord& quote, const SeasonText& season,
                                   lang::Loader& beside) {
    const std::optional<MadeFrom> made = made_from(quote);
    if (!made)
        return lacks_texts(quote.number);
    UsedTextsLoader own(made->texts, beside.kept_trees());
    SeasonLoader loader(own, beside, season.name, season.text);
    lang::Request request = made->request;
    if (request.season)
        request.season = lang::Loaded{season.name, season.text};
    lang::Outcome<Job> job = make_job(request, loader);
    if (job && (*job)->sheet().firm.money != quote.money)
        return lang::placeless(lang::Code::U314,
                               fmt::format("it was quoted in {}, and the season is in {}",
                                           quote.money.code, (*job)->sheet().firm.money.code),
                               {"nothing is converted"});
    return job;
}

Repriced reprice(const QuoteRecord& quote, const SeasonText& season, lang::Loader& beside) {
    Repriced result;
    result.number = quote.number;
    result.title = quote.title;
    result.quoted_cents = quote.price_cents;
    result.cost_then = quote.cost_total;
    result.money = quote.money;
    result.overhead = quote.overhead;
    const lang::Outcome<Job> job = job_with_season(quote, season, beside);
    if (!job) {
        result.today = job.said;
        return result;
    }
    const lang::Outcome<Estimate> now = estimate(**job);
    if (now)
        result.today = Today{now->cost_total, now->price_cents};
    else
        result.today = now.said;
    return result;
}

} // namespace acre::engine
