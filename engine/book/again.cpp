#include "engine/book/again.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "engine/book/make_record.h"
#include "engine/book/price_of.h"
#include "engine/book/same.h"
#include "engine/book/writer.h"

namespace acre::engine {
namespace {

constexpr std::size_t max_differences = 200; // told of one quote

// Two values of JSON side by side, member by member.
class Comparison {
  public:
    // `old`: of version 1, where what the record does not have is not missed.
    Comparison(bool old, std::vector<std::string>& found) : old_(old), found_(found) {}

    void compare(const Json& before, const Json& now, const std::string& where) {
        if (found_.size() >= max_differences)
            return;
        if (before.is_object() && now.is_object())
            objects(before, now, where);
        else if (before.is_array() && now.is_array())
            lists(before, now, where);
        else if (before.is_number() && now.is_number())
            numbers(before, now, where);
        else if (before != now)
            differ(where, shown(before), shown(now));
    }

  private:
    bool old_;
    std::vector<std::string>& found_;

    // Before models said what is shown and counted, the program did, by rules of its own.
    bool of_its_time(const std::string& where, const std::string& name) const {
        return old_ && where.empty() && (name == "inner" || name == "shown" || name == "counted");
    }
    static std::string shown(const Json& value) {
        return value.is_string()   ? value.get<std::string>()
               : value.is_number() ? fmt::format("{:.15g}", value.get<double>())
                                   : value.dump(-1, ' ', true);
    }
    void differ(const std::string& where, const std::string& before, const std::string& now) {
        found_.push_back(fmt::format("{}: {} in the record, {} now", where, before, now));
    }
    static std::string below(const std::string& where, const std::string& name) {
        return where.empty() ? name : where + "." + name;
    }
    void objects(const Json& before, const Json& now, const std::string& where) {
        for (const auto& [name, value] : now.items()) {
            if (of_its_time(where, name))
                continue;
            const auto found = before.find(name);
            if (found != before.end())
                compare(*found, value, below(where, name));
            else if (!old_)
                found_.push_back(below(where, name) + ": not in the record");
        }
        for (const auto& [name, value] : before.items())
            if (!now.contains(name) && !of_its_time(where, name))
                found_.push_back(below(where, name) + ": in the record, but has no answer now");
    }
    // Entries with a name are compared with the entry of that name, and their order too.
    void lists(const Json& before, const Json& now, const std::string& where) {
        const auto named = [](const Json& entry) {
            return entry.is_object() && entry.contains("name") && entry["name"].is_string()
                       ? entry["name"].get<std::string>()
                       : std::string();
        };
        std::map<std::string, const Json*> by_name;
        for (const Json& entry : now)
            if (!named(entry).empty())
                by_name.emplace(named(entry), &entry);
        std::set<std::string> seen;
        for (std::size_t i = 0; i < before.size(); ++i) {
            const std::string name = named(before[i]);
            const auto found = by_name.find(name);
            const std::string here = below(where, name.empty() ? std::to_string(i + 1) : name);
            if (name.empty() && i < now.size())
                compare(before[i], now[i], here);
            else if (name.empty() || found == by_name.end())
                found_.push_back(here + ": in the record, but has no answer now");
            else if (!seen.insert(name).second)
                found_.push_back(here + ": twice in the record");
            else
                compare(before[i], *found->second, here);
        }
        if (by_name.empty() && before.size() < now.size())
            found_.push_back(
                fmt::format("{}: {} in the record, {} now", where, before.size(), now.size()));
        for (const auto& [name, entry] : by_name)
            if (!seen.contains(name))
                found_.push_back(below(where, name) + ": not in the record");
    }
    void numbers(const Json& before, const Json& now, const std::string& where) {
        const auto a = before.get<double>();
        const auto b = now.get<double>();
        const bool cents = where.ends_with("cents");
        if (cents ? a != b : !is_same_number(a, b))
            differ(where, shown(before), shown(now));
    }
};

// The first line in the order of the plan whose value differs, and the functions that its formula
// calls: what it rests on does not differ, so they are why.
std::string first_cause(const PricedJob& job, const QuoteRecord& before, const QuoteRecord& now) {
    std::map<std::string, double> values;
    for (const RecordLine& line : before.lines)
        values.emplace(line.name, line.value);
    const lang::Sheet& sheet = job.sheet();
    Slot first = no_slot;
    lang::LineId cause = lang::none;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const Slot slot = job.plan().line_slot[id];
        const auto known = values.find(sheet.lines[id].name);
        if (slot == no_slot || known == values.end() || std::isnan(known->second) ||
            (first != no_slot && slot >= first))
            continue;
        const double value = job.values().slot[slot];
        if (!(std::abs(value - known->second) <= 1e-9 * std::max(1.0, std::abs(value)))) {
            first = slot;
            cause = id;
        }
    }
    if (cause == lang::none)
        return now.price_cents == before.price_cents ? "what is kept of a line"
                                                     : "how money is rounded";
    std::set<std::string> functions;
    std::vector<lang::NodeId> rest = {sheet.lines[cause].value};
    while (!rest.empty()) {
        const lang::NodeId next = rest.back();
        rest.pop_back();
        if (next == lang::none)
            continue;
        const lang::Node& node = sheet.nodes[next];
        if (node.op == lang::Op::Define)
            functions.insert(sheet.functions[node.index].name);
        for_each_child(sheet, node, [&](lang::NodeId child) { rest.push_back(child); });
    }
    const std::string line = fmt::format("`{}`", sheet.lines[cause].name);
    return functions.empty() ? "the formula of " + line
                             : fmt::format("{}, in {}", fmt::join(functions, ", "), line);
}

void compare_options(const QuoteRecord& quote, lang::KeptTrees* trees,
                     std::vector<std::string>& found) {
    for (const RecordOption& option : quote.options) {
        const std::optional<MadeFrom> made = made_from(quote, option.option);
        lang::Request request = made->request; // its texts are there: those of the quote itself
        request.every_function = false;
        UsedTextsLoader loader(made->texts, trees);
        const PricedNow now = price_of(request, loader);
        QuoteRecord before, after;
        before.items = option.items;
        before.price_cents = option.cents;
        if (now.estimate) {
            after.items = items_of(*now.estimate);
            after.price_cents = now.estimate->price_cents;
        }
        Comparison(false, found)
            .compare(priced_json(before), priced_json(after), "options." + option.option);
    }
}

// Boundaries that are sealed are laid out again; else their values stand in the request. Of the
// functions those are read in full that are called, as when it was quoted.
lang::Request as_first_asked(const QuoteRecord& quote, const MadeFrom& made) {
    lang::Request request = made.request;
    request.every_function = false;
    if (has_boundary(quote))
        request.field_sets.reset();
    return request;
}

Json json_of_risk(RecordRisk risk) {
    RecordWriter writer;
    fields(writer, risk);
    return std::move(writer.json);
}

Json json_of_blocks(const std::vector<RecordBlock>& blocks) {
    RecordWriter writer;
    writer("blocks", blocks);
    return std::move(writer.json);
}

} // namespace

PricedAgain price_again(const Record& record, KeptBetween* kept, bool spread) {
    PricedAgain again;
    const QuoteRecord& quote = *record.quote();
    const std::optional<MadeFrom> made = made_from(quote);
    if (!made) {
        again.differences = {"the record lacks the texts to work the price out again"};
        return again;
    }
    lang::KeptTrees* const trees = kept != nullptr ? &kept->trees : nullptr;
    UsedTextsLoader loader(made->texts, trees);
    PricedNow now = price_of(as_first_asked(quote, *made), loader);
    if (!now.estimate) {
        std::string why = "the record's own files no longer give a price";
        if (!now.said().all().empty())
            why += fmt::format(": {} {}", lang::name_of(now.said().all()[0].code),
                               now.said().all()[0].title);
        again.differences = {why};
        again.because = "a rule of the notation";
        return again;
    }
    const QuoteRecord after = quote_of(**now.job, *now.estimate, &quote);
    const bool old = record.version == 1;
    Comparison comparison(old, again.differences);
    if (old || !are_priced_alike(quote, after))
        comparison.compare(priced_json(quote), priced_json(after), "");
    if (!old) {
        if (spread) {
            const RecordRisk risk = risk_of(**now.job, kept != nullptr ? &kept->points : nullptr);
            if (!are_alike(quote.risk, risk))
                comparison.compare(json_of_risk(quote.risk), json_of_risk(risk), "risk");
        }
        if (!quote.blocks.empty())
            comparison.compare(json_of_blocks(quote.blocks),
                               json_of_blocks(record_blocks(**now.job, *now.estimate)), "");
        compare_options(quote, trees, again.differences);
        if (after.texts != quote.texts)
            again.differences.emplace_back("texts: others are used now");
        if (after.request.field_sets != quote.request.field_sets)
            again.differences.emplace_back("request.field_sets: the boundary gives other values");
    }
    if (!again.differences.empty())
        again.because = first_cause(**now.job, quote, after);
    again.job = std::move(now.job);
    again.estimate = std::move(now.estimate);
    return again;
}

} // namespace acre::engine
