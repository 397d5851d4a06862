#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "cli/book/book_page.h"

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
        std::string state = "offered";
        Items offered, accepted;
        Items contract; // what the work stands at, change orders and all
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
            Position& position = positions_[event.quote];
            position.issued = &event;
            move(event, "offered", position, offer_of(event), {});
            const auto before = positions_.find(event.replaces);
            if (before != positions_.end()) {
                before->second.state = "replaced";
                move(event, "replaced", before->second, {}, {});
            }
            return;
        }
        const auto found = positions_.find(event.quote);
        if (found == positions_.end())
            return;
        if (event.corrects == 0)
            lapse(event.quote, event.date);
        Position& position = found->second;
        position.state = event.state;
        const Items offer = offer_of(*position.issued, event.option);
        if (event.state == "offered")
            move(event, "corrected", position, offer, {});
        else if (event.state == "accepted" || event.state == "finished")
            move(event, event.state, position, {},
                 event.state == "finished" ? position.accepted : offer);
        else
            move(event, event.state, position, {}, {});
        const auto base = positions_.find(position.issued->changes);
        if (event.state == "accepted")
            (base == positions_.end() ? position : base->second).contract =
                base == positions_.end() ? offer : position.issued->items;
    }

    // Of a change order: what it adds to what the work stands at.
    Items offer_of(const engine::Event& issued, const std::string& option = {}) {
        Items items = issued.items;
        for (const engine::EventOption& other : issued.options)
            if (!option.empty() && other.option == option)
                items = other.items;
        if (const auto base = positions_.find(issued.changes); base != positions_.end())
            for (engine::EventItem& item : negative(base->second.contract))
                items.push_back(std::move(item));
        return items;
    }

    // An offer whose last day is over is none any more.
    void lapse(const std::string& number, const std::string& day) {
        Position& position = positions_.find(number)->second;
        if (position.state != "offered" || position.issued->valid_until >= day)
            return;
        position.state = "lapsed";
        const std::size_t first = entries_.size();
        move(*position.issued, "lapsed", position, {}, {});
        for (std::size_t i = first; i < entries_.size(); ++i) {
            entries_[i].id = fmt::format("{}.lapsed.{}", number, i - first + 1);
            entries_[i].date = position.issued->valid_until;
        }
    }

    void move(const engine::Event& event, const std::string& called, Position& position,
              const Items& offered, const Items& accepted) {
        const std::size_t first = entries_.size();
        if (!same(position.offered, offered)) {
            put(event, called, position, negative(position.offered), true);
            put(event, called, position, offered, true);
        }
        if (!same(position.accepted, accepted)) {
            put(event, called, position, negative(position.accepted), false);
            put(event, called, position, accepted, false);
        }
        if (entries_.size() == first)
            put(event, called, position, {{}}, true);
        position.offered = offered;
        position.accepted = accepted;
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
                                position.issued, offered ? item.cents : 0,
                                offered ? 0 : item.cents});
        }
    }
};

} // namespace

std::vector<Entry> entries_of(const engine::Lives& lives, const std::string& day) {
    return Entries(lives, day).all();
}

} // namespace acre::cli
