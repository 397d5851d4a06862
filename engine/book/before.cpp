#include "engine/book/before.h"

#include "lang/earlier/rules.h"

namespace acre::engine {
namespace {

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

// Of a record that has no line for it, from before there was one: the lines of a price stand in the
// order of its steps, so the line before says what the subtotal was.
double overhead_in_steps(const QuoteRecord& quote, const RecordItem& item) {
    double overhead = 0, before = 0;
    for (const RecordLine& line : quote.lines)
        if (line.name == item.name + ".cost")
            before = line.value;
    for (const RecordLine& line : quote.lines) {
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

const RecordLine* line_named(const QuoteRecord& quote, std::string_view name) {
    for (const RecordLine& line : quote.lines)
        if (line.name == name)
            return &line;
    return nullptr;
}

} // namespace

double overhead_of(const QuoteRecord& quote) {
    for (const RecordLine& line : quote.lines)
        if (line.name == "overhead.total")
            return line.value;
    double overhead = 0;
    for (const RecordItem& item : quote.items)
        overhead += overhead_in_steps(quote, item);
    return overhead;
}

bool is_billed_exactly(const QuoteRecord& quote) {
    return lang::rules_of(static_cast<std::uint32_t>(quote.request.notation))
        .quantities_are_rounded;
}

void count_as_before(QuoteRecord& quote) {
    const auto line = [&](std::string_view name) { return line_named(quote, name); };
    const auto value = [&](std::string_view name) {
        return line(name) == nullptr ? 0 : line(name)->value;
    };
    if (const RecordLine* hours = line("machine_hours"))
        quote.counted.push_back({hours->name,
                                 "h",
                                 Counting::Meter,
                                 line("crawler.burn") == nullptr ? "" : "crawler",
                                 hours->value,
                                 {}});
    const RecordLine* acres = line("acres") != nullptr ? line("acres") : line("area");
    if (acres != nullptr)
        quote.counted.push_back({"acres", "ac", Counting::Work, "", acres->value, {}});
    quote.counted.push_back({"gallons", "gal", Counting::Fuel, "", value("gallons"), {}});
    quote.counted.push_back({"days", "day", Counting::Days, "", value("days"), {}});
}

} // namespace acre::engine
