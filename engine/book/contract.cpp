// What the work of an accepted quote stands at.
#include "engine/book/lives.h"

namespace acre::engine {

std::string option_taken(const Event& quote, const Event& word) {
    const bool own = word.option == own_offer && quote.own_option.empty() && !quote.options.empty();
    return own ? std::string() : word.option;
}

std::int64_t cents_of_option(const Event& quote, const std::string& option) {
    for (const EventOption& other : quote.options)
        if (other.option == option)
            return other.cents;
    return quote.cents;
}

// The change order that was accepted last: each starts from what the work stood at.
const Life* Lives::last_order(const Life& life, std::string_view day) const {
    const Life* found = nullptr;
    std::int64_t last = 0;
    for (const std::string& number : life.change_orders) {
        const Life& order = *find(number);
        for (const Event* word : words_held(order, day))
            if (word->state == "accepted" && word->record > last &&
                standing(order, day).state != "withdrawn") {
                last = word->record;
                found = &order;
            }
    }
    return found;
}

std::int64_t Lives::contract_cents(const Life& life, std::string_view day) const {
    const Life* order = last_order(life, day);
    const Life& work = order == nullptr ? life : *order;
    return cents_of_option(work.quote, standing(work, day).option);
}

} // namespace acre::engine
