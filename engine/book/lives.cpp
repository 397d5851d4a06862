#include "engine/book/lives.h"

#include <algorithm>
#include <charconv>
#include <tuple>

#include <fmt/format.h>

#include "lang/units/calendar.h"

namespace acre::engine {
namespace {

constexpr std::int64_t a_day = 86'400; // seconds

// A stranger's cents may be more than can be counted.
bool add_up(const std::vector<EventItem>& items, std::int64_t wanted) {
    std::int64_t sum = 0;
    for (const EventItem& item : items)
        if (__builtin_add_overflow(sum, item.cents, &sum))
            return false;
    return sum == wanted;
}

bool is_day(const std::string& date) {
    return lang::day_number(date).has_value();
}

// The clocks of several machines differ, but not by more than a day.
std::string why_not_written(const Event& event, const Event* newest) {
    const auto written = seconds_of(event.written);
    if (!written)
        return "has no time of writing";
    if (event.program.empty())
        return "does not name the version of its program";
    const auto before = newest == nullptr ? std::nullopt : seconds_of(newest->written);
    if (before && *written < *before - a_day)
        return fmt::format("was written at {}, more than a day before the record before it",
                           event.written);
    return {};
}

std::string replaced_text(const Life& life, const Event& event) {
    return fmt::format("quote {} is replaced by {}; it cannot become {}", event.quote,
                       life.replaced_by, event.state);
}

} // namespace

bool is_quote_number(std::string_view text) {
    if (const std::size_t change = text.find("-C"); change != std::string_view::npos) {
        const std::string_view order = text.substr(change + 2);
        if (order.empty() || order.find_first_not_of("0123456789") != order.npos)
            return false;
        text = text.substr(0, change);
    }
    return text.size() >= 8 && text[4] == '-' &&
           text.find_first_not_of("0123456789-") == std::string_view::npos;
}

std::vector<std::string_view> next_states(std::string_view state) {
    if (state == "offered")
        return {"accepted", "turned down", "withdrawn", "lapsed"};
    // A lapsed offer may still be taken if the firm holds to it; a signed job may fall through.
    if (state == "lapsed")
        return {"accepted", "withdrawn"};
    if (state == "accepted")
        return {"finished", "withdrawn"};
    return {};
}

std::optional<std::int64_t> seconds_of(std::string_view time) {
    if (time.size() != 20 || time[10] != 'T' || time[13] != ':' || time[16] != ':' ||
        time[19] != 'Z')
        return std::nullopt;
    const auto day = lang::day_number(time.substr(0, 10));
    const auto two = [&](std::size_t at, int most) {
        int value = -1;
        const char* const end = time.data() + at + 2;
        const auto [rest, error] = std::from_chars(time.data() + at, end, value);
        return error == std::errc() && rest == end && value <= most ? value : -1;
    };
    const int hour = two(11, 23), minute = two(14, 59), second = two(17, 59);
    if (!day || hour < 0 || minute < 0 || second < 0)
        return std::nullopt;
    return *day * a_day + hour * 3600 + minute * 60 + second;
}

std::string Lives::why_not_number(const Event& event) const {
    if (by_number_.contains(event.quote))
        return fmt::format("has the number {}, which an earlier quote has", event.quote);
    auto counter = newest() == nullptr ? std::map<std::string, std::int64_t>() : newest()->counter;
    std::string wanted;
    if (event.changes.empty()) {
        const std::string year = event.date.substr(0, 4);
        wanted = fmt::format("{}-{:03}", year, ++counter[year]);
    } else if (const Life* base = find(event.changes)) {
        wanted = fmt::format("{}-C{}", event.changes, base->change_orders.size() + 1);
    }
    if (event.quote != wanted)
        return fmt::format("has the number {}; the next one is {}", event.quote, wanted);
    if (event.counter != counter)
        return "counts the quotes wrongly";
    return {};
}

std::string Lives::why_not_change(const Event& event) const {
    const Life* base = find(event.changes);
    if (base == nullptr)
        return fmt::format("changes quote {}, which the book does not have", event.changes);
    if (!base->quote.changes.empty())
        return fmt::format("changes {}, which is a change order itself", event.changes);
    const std::string state = standing(*base, no_day).state;
    if (state != "accepted")
        return fmt::format("changes quote {}, which is {} and not accepted", event.changes, state);
    if (event.money != base->quote.money)
        return "changes a quote in other money";
    if (!is_before(event.before_cents, *base))
        return "does not start from what the work stood at";
    return {};
}

std::string Lives::why_not_replaced(const Event& event) const {
    const Life* before = find(event.replaces);
    if (before == nullptr)
        return fmt::format("replaces quote {}, which the book does not have", event.replaces);
    if (event.version == 1)
        return {};
    const std::string state = standing(*before, no_day).state;
    if (state == "accepted" || state == "finished")
        return fmt::format("replaces quote {}, which is {}: a change order changes it",
                           event.replaces, state);
    if (!before->replaced_by.empty())
        return fmt::format("replaces quote {}, which {} replaces already", event.replaces,
                           before->replaced_by);
    if (event.date < before->quote.date)
        return fmt::format("is of a day before quote {}, which it replaces", event.replaces);
    return {};
}

std::string Lives::why_not_quote(const Event& event) const {
    if (!is_day(event.date) || !is_day(event.valid_until))
        return "has a date that is none";
    if (event.valid_until < event.date)
        return "is valid until a day before it was issued";
    if (!event.changes.empty() && !event.replaces.empty())
        return "changes one quote and replaces another";
    if (!event.replaces.empty())
        if (std::string why = why_not_replaced(event); !why.empty())
            return why;
    if (!event.changes.empty())
        if (std::string why = why_not_change(event); !why.empty())
            return why;
    if (!add_up(event.items, event.cents))
        return "has items that do not add up to its price";
    return why_not_number(event);
}

// Earlier programs took the own price of the last change order, whatever option of it was taken.
bool Lives::is_before(std::int64_t cents, const Life& base) const {
    const Life* order = last_order(base, no_day);
    return cents == contract_cents(base) || (order != nullptr && cents == order->quote.cents);
}

std::string Lives::why_not_accepted(const Life& life, const Event& event) const {
    if (!life.replaced_by.empty())
        return replaced_text(life, event);
    const Event& quote = life.quote;
    const auto named = [&](const EventOption& option) { return option.option == event.option; };
    if (event.option.empty() && !quote.options.empty())
        return fmt::format("quote {} offers several options, and it is not said which is accepted",
                           event.quote);
    if (const std::string taken = option_taken(quote, event);
        !taken.empty() && taken != quote.own_option &&
        std::none_of(quote.options.begin(), quote.options.end(), named))
        return fmt::format("quote {} does not offer the option `{}`", event.quote, event.option);
    if (quote.changes.empty())
        return {};
    const Life* known = find(quote.changes);
    if (known == nullptr)
        return fmt::format("quote {} changes {}, which the book does not have", event.quote,
                           quote.changes);
    const Life& base = *known;
    if (const std::string state = standing(base, no_day).state; state != "accepted")
        return fmt::format("quote {} is {}, so its change order cannot become accepted",
                           quote.changes, state);
    if (!is_before(quote.before_cents, base))
        return fmt::format("another change order was accepted since {} was issued", event.quote);
    return {};
}

std::string Lives::why_not_word(const Event& event) const {
    const Life* life = find(event.quote);
    if (life == nullptr)
        return fmt::format("speaks of quote {}, which the book does not have", event.quote);
    std::vector<Event> words = life->words;
    if (event.corrects != 0) {
        if (words.empty() || words.back().record != event.corrects)
            return fmt::format("record {} is not the last word on quote {}, so it cannot be put "
                               "right",
                               event.corrects, event.quote);
        words.pop_back();
    }
    const std::string state = words.empty() ? "offered" : words.back().state;
    const bool taken_back = event.corrects != 0 && event.state == state;
    const auto next = next_states(state);
    if (!taken_back && std::find(next.begin(), next.end(), event.state) == next.end())
        return fmt::format("quote {} is {}; it cannot become {}", event.quote, state, event.state);
    if (event.version == 1)
        return {};
    if (!is_day(event.date))
        return "has a date that is none";
    const std::string& since = words.empty() ? life->quote.date : words.back().date;
    if (event.date < since)
        return fmt::format("quote {} is {} since {}; it cannot become {} on {}, before that",
                           event.quote, state, since, event.state, event.date);
    if (!event.option.empty() && event.state != "accepted")
        return "names an option, and only an accepted quote has one";
    if (event.state != "accepted")
        return {};
    if (!taken_back)
        return why_not_accepted(*life, event);
    if (!event.option.empty())
        return "takes a word back, and names an option";
    return life->replaced_by.empty() ? std::string() : replaced_text(*life, event);
}

std::string Lives::why_not_bill(const Event& event) const {
    if (event.bill.empty() || bills_.contains(event.bill))
        return "has the number of another bill, or none";
    return add_up(event.items, event.cents) ? "" : "has items that do not add up";
}

std::string Lives::why_not(const Event& event) const {
    const bool old = event.version == 1;
    if (old && newest() != nullptr && newest()->version != 1)
        return "is of version 1, and comes after one of version 2";
    if (std::string why = old ? "" : why_not_written(event, newest()); !why.empty())
        return why;
    if (event.kind == "quote")
        return why_not_quote(event);
    if (newest() != nullptr ? event.counter != newest()->counter : !event.counter.empty())
        return "counts the quotes wrongly";
    if (event.kind == "word")
        return why_not_word(event);
    const bool of_quote = event.kind == "log" || event.kind == "bill";
    if (of_quote && find(event.quote) == nullptr)
        return fmt::format("speaks of quote {}, which the book does not have", event.quote);
    if ((of_quote || event.kind == "key") && !is_day(event.date))
        return "has a date that is none";
    return event.kind == "bill" ? why_not_bill(event) : std::string();
}

std::string Lives::add(const Event& event) {
    std::string broken = why_not(event);
    if (event.kind == "quote" && !by_number_.contains(event.quote)) {
        if (const auto before = by_number_.find(event.replaces); before != by_number_.end()) {
            lives_[before->second].replaced_by = event.quote;
            lives_[before->second].replaced_on = event.date;
        }
        if (const auto base = by_number_.find(event.changes); base != by_number_.end())
            lives_[base->second].change_orders.push_back(event.quote);
        by_number_.emplace(event.quote, lives_.size());
        lives_.push_back({event, {}, {}, {}, {}, {}});
    } else if (event.kind == "word") {
        if (const auto known = by_number_.find(event.quote); known != by_number_.end()) {
            Life& life = lives_[known->second];
            for (Event& gone : hold(life.words, event))
                life.gone.push_back(std::move(gone));
        }
    } else if (event.kind == "bill") {
        bills_.insert(event.bill);
    }
    events_.push_back(event);
    return broken;
}

const Life* Lives::find(std::string_view number) const {
    const auto found = by_number_.find(std::string(number));
    return found == by_number_.end() ? nullptr : &lives_[found->second];
}

std::vector<const Life*> Lives::all() const {
    std::vector<const Life*> all;
    for (const Life& life : lives_)
        all.push_back(&life);
    // The year, the number in it, and then the change orders.
    const auto key = [](const Life* life) {
        const std::string& number = life->quote.quote;
        const std::size_t change = number.find("-C");
        const std::string base = number.substr(0, change);
        return std::tuple(number.substr(0, 4), base.size(), base, number.size(), number);
    };
    std::stable_sort(all.begin(), all.end(),
                     [&](const Life* a, const Life* b) { return key(a) < key(b); });
    return all;
}

std::vector<const Event*> words_held(const Life& life, std::string_view day) {
    std::vector<const Event*> all, held;
    for (const std::vector<Event>* words : {&life.words, &life.gone})
        for (const Event& word : *words)
            if (word.date <= day)
                all.push_back(&word);
    std::sort(all.begin(), all.end(),
              [](const Event* a, const Event* b) { return a->record < b->record; });
    for (const Event* word : all)
        hold(held, word);
    return held;
}

Standing Lives::standing(const Life& life, std::string_view day) const {
    Standing standing{"offered", life.quote.date, {}, {}, {}, false};
    for (const Event* word : words_held(life, day))
        standing = {word->state,
                    word->date,
                    word->note,
                    word->state == "accepted" ? option_taken(life.quote, *word) : standing.option,
                    {},
                    false};
    if (!life.replaced_by.empty() && life.replaced_on <= day)
        standing.replaced_by = life.replaced_by;
    // A change order that is open goes with its quote.
    if (const Life* base = standing.state == "offered" ? find(life.quote.changes) : nullptr)
        if (const Standing now = this->standing(*base, day);
            now.state == "withdrawn" && now.date <= life.quote.valid_until) {
            standing.state = now.state;
            standing.date = now.date;
            standing.note = fmt::format("with quote {}", life.quote.changes);
        }
    if (standing.state == "offered" && standing.replaced_by.empty() && day != no_day &&
        life.quote.valid_until < day) {
        standing.state = "lapsed";
        standing.by_date = true;
        standing.date = lang::date_after(life.quote.valid_until, 1).value_or("");
    }
    return standing;
}

lang::Outcome<const Life*> find_quote(const Lives& lives, std::string_view number) {
    if (const Life* life = lives.find(number))
        return life;
    return lang::placeless(lang::Code::R002, fmt::format("the book has no quote `{}`", number), {},
                           {"`acrewright book` lists the quotes of a book"});
}

} // namespace acre::engine
