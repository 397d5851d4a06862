#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "cli/book/book_page.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

using Items = std::vector<engine::EventItem>;

Items negative(Items items) {
    for (engine::EventItem& item : items)
        item.cents = -item.cents;
    return items;
}

bool same(const Items& a, const Items& b) {
    return std::equal(
        a.begin(), a.end(), b.begin(), b.end(),
        [](const auto& one, const auto& two) {
            return one.name == two.name && one.cents == two.cents;
        });
}

// What of a quote is offered and what is accepted, item by item; each event moves it, and what it
// moved are the entries.
class Entries {
  public:
    Entries(const engine::Lives& lives, const std::string& day) : lives_(lives), day_(day) {}

    std::vector<Entry> all() {
        for (const engine::Event& event : lives_.events()) {
            const bool told = event.kind == "quote" || event.kind == "word";
            if (told && event.date <= day_)
                take(event);
        }
        for (const engine::Life* life : lives_.all())
            if (life->quote.date <= day_)
                lapse(life->quote.quote, day_);
        return std::move(entries_);
    }

  private:
    struct Position {
        const engine::Event* issued = nullptr;
        std::string state = "offered", since;    // since: the day of the word that says so
        std::vector<const engine::Event*> words; // that hold
        std::vector<Position*> orders;           // its change orders
        bool replaced = false;
        bool gone = false;       // a change order that is open no more, as its quote is withdrawn
        std::size_t lapsed = 0;  // entries of lapsing so far: an offer that a word takes up again
                                 // may lapse again
        Items offered, accepted; // as the entries so far have it
        std::string option;      // whose items are accepted
        // What is accepted of it: these, over those that a change order changes; null: nothing.
        const Items *stands = nullptr, *over = nullptr;
    };
    const engine::Lives& lives_;
    const std::string& day_;
    std::map<std::string, Position> positions_;
    std::vector<Entry> entries_;
    std::int64_t record_ = 0, line_ = 0; // of the newest entry

    void take(const engine::Event& event) {
        if (event.kind == "quote") {
            if (event.quote.empty() || positions_.contains(event.quote))
                return;
            // What had lapsed by then was told so until then.
            if (positions_.contains(event.replaces))
                lapse(event.replaces, event.date);
            Position& position = positions_[event.quote];
            position.issued = &event;
            if (const auto base = positions_.find(event.changes); base != positions_.end())
                base->second.orders.push_back(&position);
            offer(event, "offered", position, offer_of(event));
            const auto before = positions_.find(event.replaces);
            if (before != positions_.end()) {
                before->second.state = "replaced";
                before->second.replaced = true;
                offer(event, "replaced", before->second, {});
            }
            return;
        }
        const auto found = positions_.find(event.quote);
        if (found == positions_.end())
            return;
        if (event.corrects == 0)
            lapse(event.quote, event.date);
        Position& position = found->second;
        if (event.state == "withdrawn")
            for (const Position* order : position.orders)
                lapse(order->issued->quote, event.date);
        position.state = event.state;
        position.since = event.date;
        engine::hold(position.words, &event);
        const std::size_t first = entries_.size();
        const std::string called = event.state == "offered" ? "corrected" : event.state;
        const bool open = event.state == "offered" && !position.replaced;
        put_offered(event, called, position, open ? offer_of(*position.issued) : Items());
        settle(event, called, position);
        if (entries_.size() == first)
            put(event, called, position, {{}}, true);
    }

    // The word by which it was accepted, if that holds.
    static const engine::Event* acceptance(const Position& position) {
        if (position.state != "accepted" && position.state != "finished")
            return nullptr;
        const engine::Event* found = nullptr;
        for (const engine::Event* word : position.words)
            if (word->state == "accepted")
                found = word;
        return found;
    }

    static const Items* items_of(const Position& position) {
        const engine::Event* accepted = acceptance(position);
        if (accepted == nullptr)
            return nullptr;
        const std::string option = option_taken(*position.issued, *accepted);
        for (const engine::EventOption& other : position.issued->options)
            if (other.option == option)
                return &other.items;
        return &position.issued->items;
    }

    // The change orders that hold, in the order in which they were accepted; none of a quote that
    // is not accepted itself.
    static std::vector<Position*> orders_held(const Position& base) {
        std::map<std::int64_t, Position*> held;
        if (acceptance(base) != nullptr)
            for (Position* order : base.orders)
                if (const engine::Event* word = acceptance(*order))
                    held.emplace(word->record, order);
        std::vector<Position*> orders;
        for (const auto& [record, order] : held)
            orders.push_back(order);
        return orders;
    }

    static Items less(Items items, const Items& before) {
        for (engine::EventItem& item : negative(before))
            items.push_back(std::move(item));
        return items;
    }

    // Of a change order: what it adds to what the work stands at.
    Items offer_of(const engine::Event& issued) {
        const auto base = positions_.find(issued.changes);
        if (base == positions_.end())
            return issued.items;
        const std::vector<Position*> orders = orders_held(base->second);
        const Items* stands = items_of(orders.empty() ? base->second : *orders.back());
        return stands == nullptr ? issued.items : less(issued.items, *stands);
    }

    // What is accepted of a quote and of all its change orders: each adds to the one before it, and
    // none adds anything to work that is no longer to be done.
    void settle(const engine::Event& event, const std::string& called, Position& position) {
        const auto found = positions_.find(position.issued->changes);
        Position& base = found == positions_.end() ? position : found->second;
        const Items* before = items_of(base);
        accept(event, called, base, before, nullptr);
        std::set<const Position*> held;
        for (Position* order : orders_held(base)) {
            const Items* items = items_of(*order);
            accept(event, called, *order, items, before);
            before = items;
            held.insert(order);
        }
        for (Position* order : base.orders)
            if (!held.contains(order))
                accept(event, called, *order, nullptr, nullptr);
        for (Position* order : base.orders)
            go_with(event, called, base, *order);
    }
    // What is open of a change order when its quote is withdrawn, and when that is taken back.
    void go_with(const engine::Event& event, const std::string& called, const Position& base,
                 Position& order) {
        const bool gone = base.state == "withdrawn" && order.state == "offered";
        if (gone == order.gone)
            return;
        order.gone = gone;
        if (order.state == "offered")
            put_offered(event, called, order, gone ? Items() : offer_of(*order.issued));
    }
    void accept(const engine::Event& event, const std::string& called, Position& position,
                const Items* stands, const Items* over) {
        if (position.stands == stands && position.over == over)
            return;
        position.stands = stands;
        position.over = over;
        Items accepted = stands == nullptr ? Items() : *stands;
        if (over != nullptr)
            accepted = less(std::move(accepted), *over);
        if (same(position.accepted, accepted))
            return;
        put(event, called, position, negative(position.accepted), false);
        const engine::Event* const taken = acceptance(position);
        position.option = taken == nullptr ? "" : option_taken(*position.issued, *taken);
        if (position.option.empty())
            position.option = position.issued->own_option;
        put(event, called, position, accepted, false);
        position.accepted = std::move(accepted);
    }

    // An offer whose last day is over is none any more.
    void lapse(const std::string& number, const std::string& day) {
        Position& position = positions_.find(number)->second;
        if (position.state != "offered" || position.gone || position.issued->valid_until >= day)
            return;
        position.state = "lapsed";
        const std::size_t first = entries_.size();
        offer(*position.issued, "lapsed", position, {});
        const std::string after = lang::date_after(position.issued->valid_until, 1).value_or(day);
        for (std::size_t i = first; i < entries_.size(); ++i) {
            entries_[i].id = fmt::format("{}.lapsed.{}", number, ++position.lapsed);
            entries_[i].date = std::max(after, position.since);
        }
    }

    void offer(const engine::Event& event, const std::string& called, Position& position,
               const Items& offered) {
        const std::size_t first = entries_.size();
        put_offered(event, called, position, offered);
        if (entries_.size() == first)
            put(event, called, position, {{}}, true);
    }
    void put_offered(const engine::Event& event, const std::string& called, Position& position,
                     const Items& offered) {
        if (same(position.offered, offered))
            return;
        put(event, called, position, negative(position.offered), true);
        put(event, called, position, offered, true);
        position.offered = offered;
    }
    void put(const engine::Event& event, const std::string& called, const Position& position,
             const Items& items, bool offered) {
        for (const engine::EventItem& item : items) {
            if (item.cents == 0 && !item.name.empty()) // nothing of it on this job
                continue;
            // A replaced quote moves in the record of the one that replaces it.
            line_ = event.record == record_ ? line_ + 1 : 1;
            record_ = event.record;
            entries_.push_back({fmt::format("{:06}.{}", event.record, line_), event.record,
                                event.date, called, position.issued->quote, item.name, item.title,
                                position.issued,
                                offered ? position.issued->own_option : position.option,
                                offered ? item.cents : 0, offered ? 0 : item.cents});
        }
    }
};

} // namespace

std::vector<Entry> entries_of(const engine::Lives& lives, const std::string& day) {
    return Entries(lives, day).all();
}

} // namespace acre::cli
