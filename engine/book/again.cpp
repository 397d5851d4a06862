#include "engine/book/again.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "engine/book/canonical.h"
#include "engine/book/json.h"
#include "engine/book/members.h"
#include "engine/book/record.h"
#include "engine/book/shape.h"

namespace acre::engine {
namespace {

struct PricedNow {
    lang::Outcome<Job> job;
    lang::Outcome<Estimate> estimate;

    // What was said first of a job without a price.
    const lang::Diagnostics& said() const { return (job ? estimate.said : job.said).diagnostics; }
};

PricedNow price(const lang::Request& request, lang::Loader& loader) {
    PricedNow now;
    now.job = make_job(request, loader);
    if (now.job)
        now.estimate = estimate(**now.job);
    return now;
}

bool same(double a, double b) {
    return std::abs(a - b) <= 1e-12 * std::max({1.0, std::abs(a), std::abs(b)});
}

// By name: what a record says of each line, and what is so now.
std::map<std::string, const Json*> by_name(const Json& list) {
    std::map<std::string, const Json*> result;
    for (const Json& entry : list)
        result.emplace(text_at(entry, "name"), &entry);
    return result;
}

void compare_line(const std::string& name, const Json& a, const Json& b,
                  std::vector<std::string>& found) {
    const bool numbers = a.contains("value") && b.contains("value") && a["value"].is_number() &&
                         b["value"].is_number();
    if (numbers && !same(a["value"].get<double>(), b["value"].get<double>()))
        found.push_back(fmt::format("{}: {:.15g} {} in the record, {:.15g} {} now", name,
                                    a["value"].get<double>(), text_at(a, "unit"),
                                    b["value"].get<double>(), text_at(b, "unit")));
    else if (!numbers && text_at(a, "choice") != text_at(b, "choice"))
        found.push_back(fmt::format("{}: {} in the record, {} now", name, text_at(a, "choice"),
                                    text_at(b, "choice")));
}

void compare_lines(const Json& record, const Json& lines_now, std::vector<std::string>& found) {
    const auto before = by_name(list_at(record, "lines"));
    const auto now = by_name(lines_now);
    for (const auto& [name, entry] : before) {
        const auto other = now.find(name);
        if (other == now.end())
            found.push_back(fmt::format("{}: in the record, but has no answer now", name));
        else
            compare_line(name, *entry, *other->second, found);
    }
    for (const auto& [name, entry] : now)
        if (!before.contains(name))
            found.push_back(fmt::format("{}: not in the record", name));
}

void compare_prices(const Json& record, const Estimate& estimate, std::vector<std::string>& found) {
    const Json& price = object_at(record, "price");
    const std::int64_t cents = price.contains("cents") ? whole_at(price, "cents") : -1;
    if (cents != estimate.price_cents)
        found.push_back(
            fmt::format("price: {} cents in the record, {} now", cents, estimate.price_cents));
    Json now;
    put_estimate(estimate, now);
    const auto items_now = by_name(now["items"]);
    for (const Json& item : list_at(record, "items")) {
        const auto other = items_now.find(text_at(item, "name"));
        if (other == items_now.end() || !item.is_object() ||
            (*other->second)["cents"] != item.value("cents", Json()))
            found.push_back(fmt::format("item {}: a different amount now", text_at(item, "title")));
    }
}

} // namespace

std::vector<std::string> differences(const Json& record) {
    const auto request = request_of(record);
    if (!request)
        return {"the record lacks the texts to work the price out again"};
    const UsedTexts texts = used_texts_of(record);
    UsedTextsLoader loader(texts);
    const PricedNow now = price(*request, loader);
    if (!now.estimate) {
        std::string why = "the record's own files no longer give a price";
        if (!now.said().all().empty())
            why += fmt::format(": {} {}", lang::name_of(now.said().all()[0].code),
                               now.said().all()[0].title);
        return {why};
    }
    std::vector<std::string> found;
    compare_prices(record, *now.estimate, found);
    compare_lines(record, record_lines(**now.job), found);
    return found;
}

std::optional<PricedAgain> price_again(std::string_view bytes, std::string_view file) {
    const std::optional<Json> record = read_canonical(bytes);
    if (!record || !shape_fault(*record).empty() || text_at(*record, "kind") != "quote")
        return std::nullopt;
    return PricedAgain{text_at(*record, "quote"), std::string(file), differences(*record)};
}

lang::Outcome<lang::Loaded> SeasonLoader::load(lang::ReferenceKind kind, std::string_view reference,
                                               std::string_view from) {
    if (kind == lang::ReferenceKind::Firm && from == name_)
        return beside_.load(kind, reference, from);
    if (kind != lang::ReferenceKind::Season)
        return inner_.load(kind, reference, from);
    return lang::Loaded{name_, text_};
}

double Repriced::contribution() const {
    return static_cast<double>(quoted_cents) / 100 - today->cost;
}

double Repriced::profit() const {
    return contribution() - overhead;
}

bool Repriced::loses_money() const {
    return today && profit() < 0;
}

std::string Repriced::why_not() const {
    if (today)
        return {};
    for (const lang::Diagnostic& said : today.said.diagnostics.all())
        if (said.severity() == lang::Severity::Error) // what was only warned of is not why
            return said.title;
    return "no price";
}

lang::Diagnostic lacks_texts(std::string_view number) {
    return lang::placeless(lang::Code::R006,
                           fmt::format("the record of quote {} lacks its texts", number),
                           {"it cannot be priced again without the files it was made from"});
}

Repriced reprice(const Quote& quote, const SeasonText& season, lang::Loader& beside) {
    Repriced result;
    result.number = quote.record.number;
    result.title = quote.record.title;
    result.quoted_cents = quote.record.price_cents;
    result.cost_then = quote.record.cost_total;
    result.money = quote.record.money;
    result.overhead = quote.record.overhead;
    if (!quote.made_from) {
        result.today = lacks_texts(quote.record.number);
        return result;
    }
    UsedTextsLoader own(quote.made_from->texts);
    SeasonLoader loader(own, beside, season.name, season.text);
    lang::Request request = quote.made_from->request;
    if (request.season)
        request.season = lang::Loaded{season.name, season.text};
    const PricedNow now = price(request, loader);
    if (now.job && (*now.job)->sheet().firm.money != result.money)
        result.today =
            lang::placeless(lang::Code::U314,
                            fmt::format("it was quoted in {}, and the season is in {}",
                                        result.money.code, (*now.job)->sheet().firm.money.code),
                            {"nothing is converted"});
    else if (now.estimate)
        result.today = Today{now.estimate->cost_total, now.estimate->price_cents};
    else
        result.today = now.job ? now.estimate.said : now.job.said;
    return result;
}

} // namespace acre::engine
