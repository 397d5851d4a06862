#include "cli/season/book_jobs.h"

#include <cstdint>
#include <utility>

#include "cli/shared/quote_book/book.h"
#include "engine/book/texts.h"
#include "lang/kept_trees.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

bool is_agreed(const std::string& state) {
    return state == "accepted" || state == "finished";
}

// The work of an accepted quote is as its last accepted change order has it.
const engine::Life& work_of(const engine::Lives& lives, const engine::Life& life,
                            const std::string& day) {
    const engine::Life* work = &life;
    for (const std::string& number : life.change_orders)
        if (const engine::Life* change = lives.find(number);
            change != nullptr && is_agreed(lives.standing(*change, day).state))
            work = change;
    return *work;
}

lang::Outcome<engine::MadeFrom> made_from(const Book& book, const BookedWork& work) {
    lang::Outcome<engine::Record> record = book.record(work.record);
    if (!record)
        return std::move(record.said);
    std::optional<engine::MadeFrom> made = engine::made_from(*record->quote(), work.option);
    if (!made)
        return engine::lacks_texts(record->quote()->number);
    return std::move(*made);
}

lang::Said add(const Book& book, const BookedWork& work, engine::QuotedJob quoted,
               engine::SeasonJobs& jobs, lang::KeptTrees& trees) {
    lang::Outcome<engine::MadeFrom> made = made_from(book, work);
    if (!made)
        return std::move(made.said);
    engine::UsedTextsLoader loader(made->texts, &trees);
    return jobs.add(made->request, loader, std::move(quoted));
}

} // namespace

std::optional<Reply> read_book(const BookOfSeason& from, engine::SeasonJobs& jobs,
                               BookedWorks& works, KeptMessages& messages) {
    const Book book(from.folder);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return Reply(state.said);
    const engine::Lives& lives = state->lives;
    lang::KeptTrees trees;
    std::size_t accepted = 0, offered = 0;
    bool later = false; // that any is accepted, on whatever day
    for (const engine::Life* life : lives.all()) {
        later = later || is_agreed(lives.standing(*life, engine::no_day).state);
        if (life->quote.date > from.day || !life->quote.changes.empty())
            continue;
        const engine::Standing standing = lives.standing(*life, from.day);
        const bool counts = is_agreed(standing.state);
        offered += standing.is_open() ? 1 : 0;
        if (!counts && !(standing.is_open() && from.offered))
            continue;
        accepted += counts ? 1 : 0;
        const engine::Life& work = counts ? work_of(lives, *life, from.day) : *life;
        const std::int64_t cents =
            counts ? lives.contract_cents(*life, from.day) : life->quote.cents;
        const std::string name = "quote " + life->quote.quote;
        const BookedWork& booked =
            works[name] = {static_cast<std::uint64_t>(work.quote.record),
                           (&work == life ? standing : lives.standing(work, from.day)).option};
        messages.keep(of_the_price(add(
            book, booked, {name, static_cast<double>(cents) / 100, counts ? 1.0 : *from.offered},
            jobs, trees)));
        if (jobs.too_much())
            return std::nullopt;
    }
    if (accepted > 0 || (offered > 0 && from.offered))
        return std::nullopt;
    std::vector<std::string> helps;
    if (later)
        helps.emplace_back("after " + lang::day_text(from.day) +
                           " there is accepted work: `--as-of DATE` is the book as it was then");
    if (offered > 0)
        helps.emplace_back("`--offered '40 %'` counts those that are still offered, by the chance "
                           "that they come");
    return lang::placeless(lang::Code::R002,
                           "no quote of the book `" + from.folder + "` is accepted", {},
                           std::move(helps));
}

std::optional<engine::MoveMoney> price_again(const std::string& book, const BookedWork& work,
                                             const engine::GivenSets& sets,
                                             const engine::RoadsFile& roads) {
    lang::Outcome<engine::MadeFrom> made = made_from(Book(book), work);
    if (!made)
        return std::nullopt;
    engine::UsedTextsLoader loader(made->texts);
    return engine::price_by_road(std::move(made->request), loader, sets, roads);
}

} // namespace acre::cli
