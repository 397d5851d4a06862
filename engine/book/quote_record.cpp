#include "engine/book/quote_record.h"

#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/book/json.h"
#include "engine/book/members.h"
#include "engine/book/record.h"

namespace acre::engine {
namespace {

std::vector<std::string> texts_at(const Json& record, const char* member) {
    std::vector<std::string> texts;
    for (const Json& text : list_at(record, member))
        if (text.is_string())
            texts.push_back(text.get<std::string>());
    return texts;
}

void read_lists(const Json& record, QuoteRecord& to) {
    for (const Json& line : list_at(record, "lines"))
        to.lines.push_back({text_at(line, "name"), text_at(line, "unit"), text_at(line, "choice"),
                            number_at(line, "value", std::numeric_limits<double>::quiet_NaN())});
    for (const Json& cost : list_at(record, "costs"))
        to.costs.push_back({text_at(cost, "name"), text_at(cost, "label"), text_at(cost, "part"),
                            text_at(cost, "rate_unit"), text_at(cost, "quantity_unit"),
                            number_at(cost, "rate"), number_at(cost, "quantity"),
                            number_at(cost, "amount")});
    for (const Json& item : list_at(record, "items"))
        to.items.push_back({text_at(item, "title"), text_at(item, "name"), text_at(item, "per"),
                            number_at(item, "quantity"), number_at(item, "rate"),
                            whole_at(item, "cents")});
    for (const Json& picture : list_at(record, "pictures"))
        to.pictures.push_back({text_at(picture, "block"), text_at(picture, "svg")});
    for (const Json& block : list_at(record, "blocks"))
        to.blocks.push_back({text_at(block, "label"), text_at(block, "acres"),
                             text_at(block, "depth"), text_at(block, "soil"),
                             whole_at(block, "cents")});
}

// Before models said what a log counts, it was the hours of one machine, acres, gallons and days,
// by the names that their lines had in most models.
void count_as_before(QuoteRecord& to) {
    const auto line = [&to](std::string_view name) -> const RecordLine* {
        for (const RecordLine& each : to.lines)
            if (each.name == name)
                return &each;
        return nullptr;
    };
    const auto value = [&](std::string_view name) {
        return line(name) == nullptr ? 0 : line(name)->value;
    };
    if (const RecordLine* hours = line("machine_hours"))
        to.counted.push_back({hours->name,
                              "h",
                              Counting::Meter,
                              line("crawler.burn") == nullptr ? "" : "crawler",
                              hours->value,
                              {}});
    const RecordLine* acres = line("acres") != nullptr ? line("acres") : line("area");
    if (acres != nullptr)
        to.counted.push_back({"acres", "ac", Counting::Work, "", acres->value, {}});
    to.counted.push_back({"gallons", "gal", Counting::Fuel, "", value("gallons"), {}});
    to.counted.push_back({"days", "day", Counting::Days, "", value("days"), {}});
}

void read_counted(const Json& record, QuoteRecord& to) {
    if (!record.contains("counted"))
        return count_as_before(to);
    for (const Json& each : list_at(record, "counted")) {
        CountedLine line{
            text_at(each, "name"),    text_at(each, "unit"),    {},
            text_at(each, "machine"), number_at(each, "value"), texts_at(each, "costs")};
        line.how = how_counted(line.unit, !line.machine.empty());
        to.counted.push_back(std::move(line));
    }
}

// What records say of their firm; those that say nothing are in dollars.
void read_firm(const Json& record, QuoteRecord& to) {
    const Json& firm = object_at(record, "firm");
    to.firm = text_at(firm, "name");
    for (const Json& word : list_at(firm, "words"))
        to.firm_words.emplace_back(text_at(word, "name"), text_at(word, "text"));
    const Json& money = object_at(record, "money");
    if (money.contains("code"))
        to.money = {text_at(money, "code"), text_at(money, "sign"), whole_at(money, "step")};
}

// "overhead", "overhead_2", "round_up", …: what a step of a price is called after its price.
bool is_step(std::string_view name) {
    for (const char* step : {"overhead", "contingency", "reserve", "markup", "margin", "at_least",
                             "round_up", "round_to"}) {
        if (!name.starts_with(step))
            continue;
        const std::string_view rest = name.substr(std::string_view(step).size());
        if (rest.empty() || (rest.size() > 1 && rest[0] == '_' &&
                             rest.find_first_not_of("0123456789", 1) == rest.npos))
            return true;
    }
    return false;
}

double item_cost(const QuoteRecord& record, const RecordItem& item) {
    for (const RecordLine& line : record.lines)
        if (line.name == item.name + ".cost")
            return line.value;
    return 0;
}

// Of a record that has no line for it, from before there was one: the lines of a price stand in the
// order of its steps, so the line before says what the subtotal was.
double overhead_in_steps(const QuoteRecord& record, const RecordItem& item) {
    double overhead = 0, before = item_cost(record, item);
    for (const RecordLine& line : record.lines) {
        if (!line.name.starts_with(item.name + "."))
            continue;
        const std::string_view rest = std::string_view(line.name).substr(item.name.size() + 1);
        if (!is_step(rest))
            continue;
        overhead += rest.starts_with("overhead") ? line.value - before : 0;
        before = line.value;
    }
    return overhead;
}

double overhead_in(const QuoteRecord& record) {
    double overhead = 0;
    for (const RecordLine& line : record.lines)
        if (line.name == "overhead.total")
            return line.value;
    for (const RecordItem& item : record.items)
        overhead += overhead_in_steps(record, item);
    return overhead;
}

} // namespace

QuoteRecord quote_record(const Json& record) {
    QuoteRecord to;
    to.number = text_at(record, "quote");
    to.issued = text_at(record, "issued");
    to.valid_until = text_at(record, "valid_until");
    to.by = text_at(record, "by");
    to.replaces = text_at(record, "replaces");
    const Json& job = object_at(record, "job");
    to.title = text_at(job, "title");
    to.who = text_at(job, "for");
    to.option = text_at(job, "option");
    to.start = text_at(job, "start");
    to.finish = text_at(job, "finish");
    read_lists(record, to);
    read_firm(record, to);
    to.inner = texts_at(record, "inner");
    if (record.contains("shown"))
        to.shown = texts_at(record, "shown");
    to.cautions = texts_at(record, "cautions");
    to.accepted = texts_at(record, "accepted");
    read_counted(record, to);
    const Json& price = object_at(record, "price");
    to.price_cents = whole_at(price, "cents");
    to.per = text_at(price, "per");
    to.per_quantity = number_at(price, "quantity");
    to.price_per_unit = number_at(price, "per_unit");
    to.cost_total = number_at(price, "cost");
    to.overhead = overhead_in(to);
    to.notation = notation_of(record);
    return to;
}

bool is_billed_exactly(const QuoteRecord& record) {
    return lang::rules_of(static_cast<std::uint32_t>(record.notation)).quantities_are_rounded;
}

Quoted quoted_of(const QuoteRecord& record) {
    Quoted quoted;
    quoted.quote = record.number;
    quoted.job = record.title;
    quoted.price = static_cast<double>(record.price_cents) / 100;
    quoted.overhead = record.overhead;
    quoted.counted = record.counted;
    for (const RecordCost& cost : record.costs)
        quoted.costs.push_back({cost.name, cost.label, cost.part, cost.rate_unit,
                                cost.quantity_unit, cost.rate, cost.quantity});
    for (const RecordLine& line : record.lines)
        if (!std::isnan(line.value))
            quoted.lines.emplace(line.name, line.value);
    return quoted;
}

Json draft_record(const PricedJob& job, const Estimate& estimate, const QuoteTerms& terms,
                  std::string_view program_version) {
    Json body = record_of(job, estimate, program_version);
    body["kind"] = "quote";
    for (const RecordPicture& picture : terms.pictures)
        body["pictures"].push_back({{"block", picture.block}, {"svg", picture.svg}});
    for (const RecordBlock& block : terms.blocks)
        body["blocks"].push_back({{"label", block.label},
                                  {"acres", block.acres},
                                  {"depth", block.depth},
                                  {"soil", block.soil},
                                  {"cents", block.cents}});
    body["issued"] = terms.issued;
    body["valid_until"] = terms.valid_until;
    body["by"] = terms.by;
    body["replaces"] = terms.replaces;
    body["accepted"] = terms.accepted;
    body["quote"] = "draft";
    return body;
}

std::string give_number(Json& draft, const Json* newest) {
    const std::string year = text_at(draft, "issued").substr(0, 4);
    Json counter = newest != nullptr ? object_at(*newest, "counter") : Json::object();
    const std::int64_t number = whole_at(counter, year.c_str()) + 1;
    counter[year] = number;
    std::string called = fmt::format("{}-{:03}", year, number);
    draft["quote"] = called;
    draft["counter"] = std::move(counter);
    return called;
}

} // namespace acre::engine
