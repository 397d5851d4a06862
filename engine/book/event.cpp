#include "engine/book/event.h"

#include "engine/book/canonical.h"
#include "engine/book/reader.h"
#include "engine/book/writer.h"

namespace acre::engine {

template <class F> void fields(F& f, EventItem& r) {
    f("title", r.title);
    f("name", r.name);
    f.cents("cents", r.cents);
}
template <class F> void fields(F& f, EventOption& r) {
    f("option", r.option);
    f("items", r.items);
    f.cents("cents", r.cents);
}
template <class F> void fields(F& f, Event& r) {
    f.count("record", r.record);
    f.count("version", r.version);
    f("kind", r.kind);
    f("program", r.program);
    f("written", r.written);
    f("seal", r.seal);
    f("signer", r.signer);
    f("counter", r.counter);
    f("quote", r.quote);
    f("date", r.date);
    f("title", r.title);
    f("for", r.who);
    f("by", r.by);
    f("valid_until", r.valid_until);
    f("replaces", r.replaces);
    f("changes", r.changes);
    f("own_option", r.own_option);
    f("per", r.per);
    f.cents("cents", r.cents);
    f.cents("before_cents", r.before_cents);
    f("per_unit", r.per_unit);
    f.money("money", r.money);
    f("items", r.items);
    f("options", r.options);
    f("state", r.state);
    f("option", r.option);
    f("note", r.note);
    f.count("corrects", r.corrects);
    f("action", r.action);
    f("key", r.key);
    f("name", r.name);
    f("bill", r.bill);
}

namespace {

template <class Item> std::vector<EventItem> items_in(const std::vector<Item>& items) {
    std::vector<EventItem> all;
    for (const Item& item : items)
        all.push_back({item.title, item.name, item.cents});
    return all;
}

void take(const OtherRecord&, Event&) {}

void take(const QuoteRecord& quote, Event& event) {
    event.quote = quote.number;
    event.date = quote.issued;
    event.title = quote.title;
    event.who = quote.who;
    event.by = quote.by;
    event.valid_until = quote.valid_until;
    event.replaces = quote.replaces;
    event.changes = quote.changes;
    event.own_option = quote.option;
    event.per = quote.per;
    event.cents = quote.price_cents;
    event.before_cents = quote.before_cents;
    event.per_unit = quote.price_per_unit;
    event.money = quote.money;
    event.items = items_in(quote.items);
    for (const RecordOption& option : quote.options)
        event.options.push_back({option.option, items_in(option.items), option.cents});
}

void take(const WordRecord& word, Event& event) {
    event.quote = word.quote;
    event.date = word.date;
    event.state = word.state;
    event.option = word.option;
    event.note = word.note;
    event.corrects = word.corrects;
}

void take(const KeyRecord& key, Event& event) {
    event.action = key.action;
    event.key = key.key;
    event.name = key.name;
    event.date = key.date;
}

void take(const LogRecord& log, Event& event) {
    event.quote = log.quote;
    event.date = log.date;
    event.name = log.name;
}

void take(const BillRecord& bill, Event& event) {
    event.quote = bill.quote;
    event.bill = bill.bill;
    event.date = bill.date;
    event.note = bill.note;
    event.items = items_in(bill.items);
    event.cents = bill.cents;
}

} // namespace

Event event_of(const Record& record) {
    Event event;
    event.record = record.index;
    event.version = record.version;
    event.kind = record.kind;
    event.program = record.program;
    event.written = record.written;
    event.seal = record.seal;
    event.signer = record.signer;
    event.counter = record.counter;
    std::visit([&](const auto& body) { take(body, event); }, record.body);
    return event;
}

std::string event_line(const Event& event) {
    Event copy = event;
    RecordWriter writer;
    fields(writer, copy);
    return canonical(writer.json);
}

std::optional<Event> event_in(std::string_view line) {
    const std::optional<CanonicalText> text = CanonicalText::read(line);
    if (!text || !text->root().is(JsonValue::Kind::Object))
        return std::nullopt;
    Event event;
    std::string fault;
    RecordReader reader(text->root(), fault);
    fields(reader, event);
    if (!fault.empty())
        return std::nullopt;
    return event;
}

} // namespace acre::engine
