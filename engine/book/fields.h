// Every member of a record by its name, once: what reads, what writes and what compares all walk
// these functions. `f(name, member)` is a member of its own kind; `f.inside` a group of members;
// `f.cents`, `f.count`, `f.version` whole numbers of their ranges.
#pragma once

#include "engine/book/record.h"

namespace acre::engine {

template <class F> void fields(F& f, RecordLine& r) {
    f("name", r.name);
    f("unit", r.unit);
    f("choice", r.choice);
    f("value", r.value);
}
template <class F> void fields(F& f, RecordGiven& r) {
    f("name", r.name);
    f("label", r.label);
    f("unit", r.unit);
    f("choice", r.choice);
    f("set_by", r.set_by);
    f("place", r.place);
    f("because", r.because);
    f("value", r.value);
}
template <class F> void fields(F& f, RecordCost& r) {
    f("name", r.name);
    f("label", r.label);
    f("part", r.part);
    f("rate", r.rate);
    f("rate_unit", r.rate_unit);
    f("quantity", r.quantity);
    f("quantity_unit", r.quantity_unit);
    f("amount", r.amount);
    f("per_unit", r.per_unit);
}
template <class F> void fields(F& f, CountedLine& r) {
    f("name", r.name);
    f("unit", r.unit);
    f("machine", r.machine);
    f("value", r.quoted);
    f("costs", r.costs);
}
template <class F> void fields(F& f, RecordStep& r) {
    f("text", r.text);
    f("added", r.added);
    f("sum", r.sum);
}
template <class F> void fields(F& f, RecordItem& r) {
    f("title", r.title);
    f("name", r.name);
    f("per", r.per);
    f("quantity", r.quantity);
    f("rate", r.rate);
    f("cost", r.cost);
    f.cents("cents", r.cents);
    f("steps", r.steps);
}
template <class F> void fields(F& f, RecordPicture& r) {
    f("block", r.entry); // as version 1 has it
    f("svg", r.svg);
}
template <class F> void fields(F& f, RecordBlock& r) {
    f("label", r.label);
    f("acres", r.acres);
    f("depth", r.depth);
    f("soil", r.soil);
    f.cents("cents", r.cents);
}
template <class F> void fields(F& f, RecordReference& r) {
    f("kind", r.kind);
    f("reference", r.reference);
    f("from", r.from);
    f("name", r.name);
}
template <class F> void fields(F& f, RecordRequest& r) {
    f("name", r.name);
    f("kind", r.kind);
    f("option", r.option);
    f("sets", r.sets);
    f("field_sets", r.field_sets);
    f("season", r.season);
    f.count("notation", r.notation);
}
template <class F> void fields(F& f, RecordOption& r) {
    f("option", r.option);
    f.cents("cents", r.cents);
    f("items", r.items);
}
template <class F> void fields(F& f, RecordDrawn& r) {
    f("name", r.name);
    f("kind", r.kind);
    f("low", r.low);
    f("high", r.high);
}
template <class F> void fields(F& f, RecordHeld& r) {
    f("name", r.name);
    f("reason", r.reason);
}
template <class F> void fields(F& f, RecordQuantile& r) {
    f("share", r.share);
    f("value", r.value);
}
template <class F> void fields(F& f, RecordSpread& r) {
    f("of", r.of);
    f("mean", r.mean);
    f("spread", r.spread);
    f("quantiles", r.quantiles);
}
template <class F> void fields(F& f, RecordRisk& r) {
    f.count("trials", r.trials);
    f.count("seed", r.seed);
    f.count("without_answer", r.without_answer);
    f("loss", r.loss);
    f("drawn", r.drawn);
    f("held", r.held);
    f("spreads", r.spreads);
}

// What follows from the texts of a quote alone, and is compared when it is priced again.
template <class F> void priced_fields(F& f, QuoteRecord& r) {
    f.inside("job", [&](F& g) {
        g("title", r.title);
        g("for", r.who);
        g("option", r.option);
        g("model", r.model);
        g("season", r.season);
        g("date", r.date);
        g("start", r.start);
        g("finish", r.finish);
        g.named("words", r.job_words);
    });
    f("givens", r.givens);
    f("lines", r.lines);
    f("inner", r.inner);
    f.maybe("shown", r.shown);
    f("counted", r.counted);
    f("costs", r.costs);
    f("items", r.items);
    f("cautions", r.cautions);
    f.inside("price", [&](F& g) {
        g.cents("cents", r.price_cents);
        g("per", r.per);
        g("quantity", r.per_quantity);
        g("per_unit", r.price_per_unit);
        g("cost", r.cost_total);
    });
    f.inside("firm", [&](F& g) {
        g("name", r.firm);
        g.named("words", r.firm_words);
    });
    f.money("money", r.money);
}
template <class F> void fields(F& f, QuoteRecord& r) {
    f("quote", r.number);
    f("issued", r.issued);
    f("valid_until", r.valid_until);
    f("by", r.by);
    f("replaces", r.replaces);
    f("changes", r.changes);
    f.cents("before_cents", r.before_cents);
    f.object("request", r.request);
    f("texts", r.texts);
    f("references", r.references);
    priced_fields(f, r);
    f("options", r.options);
    f("pictures", r.pictures);
    f("blocks", r.blocks);
    f("accepted", r.accepted);
    f.object("risk", r.risk);
    f.inside("wording", [&](F& g) {
        g("name", r.wording);
        g("text", r.wording_text);
    });
    f.inside("pages", [&](F& g) {
        g("html", r.page_html);
        g("text", r.page_text);
        g.count("layout", r.page_layout);
    });
}
template <class F> void fields(F& f, WordRecord& r) {
    f("quote", r.quote);
    f("state", r.state);
    f("option", r.option);
    f("date", r.date);
    f("note", r.note);
    f.count("corrects", r.corrects);
    f("log", r.log);
}
template <class F> void fields(F& f, KeyRecord& r) {
    f("action", r.action);
    f("key", r.key);
    f("name", r.name);
    f("date", r.date);
}
template <class F> void fields(F& f, LogRecord& r) {
    f("quote", r.quote);
    f("name", r.name);
    f("text", r.text);
    f("date", r.date);
}
template <class F> void fields(F& f, RecordBilled& r) {
    f("title", r.title);
    f("name", r.name);
    f("kind", r.kind);
    f("per", r.per);
    f("clause", r.clause);
    f("quantity", r.quantity);
    f("rate", r.rate);
    f.cents("cents", r.cents);
    f("terms", r.terms);
}
template <class F> void fields(F& f, BillRecord& r) {
    f("quote", r.quote);
    f("bill", r.bill);
    f("date", r.date);
    f("due", r.due);
    f("note", r.note);
    f("terms_of", r.terms_of);
    f("log", r.log);
    f("posted", r.posted);
    f("product", r.product);
    f("page", r.page);
    f("items", r.items);
    f.cents("cents", r.cents);
}
template <class F> void fields(F&, OtherRecord&) {}

// What every record has, whatever its kind.
template <class F> void header_fields(F& f, Record& r) {
    f("kind", r.kind);
    f("program", r.program);
    f("written", r.written);
    f.count("record", r.index);
    f("previous", r.previous);
    f("seal", r.seal);
    f("signer", r.signer);
    f("signature", r.signature);
    f("counter", r.counter);
}

} // namespace acre::engine
