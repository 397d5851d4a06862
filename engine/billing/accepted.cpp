#include "engine/billing/accepted.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/book/make_record.h"
#include "engine/book/price_of.h"
#include "engine/book/texts.h"

namespace acre::engine {
namespace {

// The word by which a quote was accepted, if it still holds.
const Event* accepted_word(const Lives& lives, const Life& life) {
    const std::string state = lives.standing(life, no_day).state;
    if (state != "accepted" && state != "finished")
        return nullptr;
    const Event* found = nullptr;
    for (const Event& word : life.words)
        if (word.state == "accepted")
            found = &word;
    return found;
}

} // namespace

lang::Outcome<Contract> contract_of(const Lives& lives, const std::string& number) {
    const lang::Outcome<const Life*> named = find_quote(lives, number);
    if (!named)
        return named.said;
    const Life* life = *named;
    if (!life->quote.changes.empty())
        life = lives.find(life->quote.changes);
    Contract contract;
    contract.life = life;
    const Event* word = life == nullptr ? nullptr : accepted_word(lives, *life);
    if (word == nullptr) {
        const std::string state =
            life == nullptr ? "of no quote" : lives.standing(*life, no_day).state;
        return lang::placeless(
            lang::Code::R010,
            fmt::format("quote {} is {}: there is no accepted work", number, state), {},
            {state == "withdrawn" && !life->words.empty()
                 ? fmt::format("work that was done before it was called off is billed of a quote "
                               "that is finished with its log: `acrewright mark {} accepted "
                               "--corrects {}`, then finished",
                               life->quote.quote, life->words.back().record)
                 : "`acrewright mark` records what happened to a quote"});
    }
    contract.standing = lives.standing(*life, no_day);
    const auto step_of = [](const Event& quote, const Event& accepted) {
        const std::string option = option_taken(quote, accepted);
        return ContractStep{quote.quote, option, accepted.date, quote.record,
                            cents_of_option(quote, option)};
    };
    contract.steps.push_back(step_of(life->quote, *word));
    std::vector<std::pair<std::int64_t, ContractStep>> orders;
    for (const std::string& name : life->change_orders) {
        const Life& order = *lives.find(name);
        if (const Event* of_order = accepted_word(lives, order))
            orders.push_back({of_order->record, step_of(order.quote, *of_order)});
    }
    std::sort(orders.begin(), orders.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [record, step] : orders)
        contract.steps.push_back(std::move(step));
    return contract;
}

std::optional<BilledBefore> billed_before(const Lives& lives, const std::string& quote) {
    std::optional<BilledBefore> before;
    for (const Event& event : lives.events()) {
        if (event.kind != "bill" || event.quote != quote)
            continue;
        if (!before)
            before.emplace();
        before->bill = event.bill;
        before->date = event.date;
        before->cents = 0;
        for (const EventItem& item : event.items)
            if (item.name == "deposit")
                before->deposits.emplace_back(event.bill, -item.cents);
            else if (item.name != "billed_before")
                before->cents += item.cents;
    }
    return before;
}

lang::Outcome<QuoteRecord> as_option(const QuoteRecord& quote, const std::string& option) {
    if (option.empty() || option == quote.option)
        return quote;
    const auto sealed = std::find_if(quote.options.begin(), quote.options.end(),
                                     [&](const RecordOption& one) { return one.option == option; });
    if (sealed == quote.options.end())
        return lang::placeless(lang::Code::R010, fmt::format("quote {} does not offer the option "
                                                             "`{}`",
                                                             quote.number, option));
    const std::optional<MadeFrom> made = made_from(quote, option);
    if (!made)
        return lacks_texts(quote.number);
    UsedTextsLoader loader(made->texts);
    const PricedNow now = price_of(made->request, loader);
    const bool same = now.estimate && now.estimate->price_cents == sealed->cents;
    if (!same)
        return lang::placeless(
            lang::Code::R010,
            fmt::format("option `{}` of quote {} does not come out as it was quoted", option,
                        quote.number),
            {"its terms are worked out from the texts in the record, by this version of the "
             "program"},
            {"`acrewright verify` says what differs"});
    const QuoteRecord priced = quote_of(**now.job, *now.estimate);
    QuoteRecord as = quote;
    as.option = option;
    as.start = priced.start;
    as.finish = priced.finish;
    as.givens = priced.givens;
    as.lines = priced.lines;
    as.inner = priced.inner;
    as.shown = priced.shown;
    as.counted = priced.counted;
    as.costs = priced.costs;
    as.items = sealed->items;
    as.price_cents = sealed->cents;
    as.per = priced.per;
    as.per_quantity = priced.per_quantity;
    as.price_per_unit = priced.price_per_unit;
    as.cost_total = priced.cost_total;
    as.overhead = priced.overhead;
    return as;
}

} // namespace acre::engine
