#include "engine/learning/wins.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <utility>

#include "engine/learning/binomial.h"
#include "engine/learning/outcomes.h"

namespace acre::engine {
namespace {

struct Point {
    double value;
    bool won;
};

// Whatever unit most of them are in.
template <class Unit> std::string common_unit(const std::vector<DecidedQuote>& quotes, Unit unit) {
    std::map<std::string, std::size_t> count;
    for (const DecidedQuote& quote : quotes)
        if (!unit(quote).empty())
            ++count[unit(quote)];
    const auto most =
        std::max_element(count.begin(), count.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == count.end() ? std::string() : most->first;
}

// Bands of about as many quotes, none parting quotes of the same figure.
std::vector<WinBand> bands_of(std::vector<Point> points) {
    std::vector<WinBand> bands;
    const std::size_t count = std::min(most_bands, points.size() / least_in_a_band);
    if (count < 2)
        return bands;
    std::sort(points.begin(), points.end(),
              [](const Point& a, const Point& b) { return a.value < b.value; });
    std::size_t from = 0;
    for (std::size_t band = 1; band <= count && from < points.size(); ++band) {
        std::size_t to = std::max(points.size() * band / count, from + 1);
        while (to < points.size() && points[to].value == points[to - 1].value)
            ++to;
        WinBand& next = bands.emplace_back();
        next.low = points[from].value;
        next.high = points[to - 1].value;
        next.quotes = to - from;
        for (std::size_t i = from; i < to; ++i)
            next.won += points[i].won ? 1 : 0;
        next.share = score_share(next.won, next.quotes, outcome_level);
        from = to;
    }
    if (bands.size() < 2)
        bands.clear();
    return bands;
}

template <class Value>
WinTable table_of(std::string what, std::string unit, const std::vector<DecidedQuote>& quotes,
                  Value value) {
    WinTable table;
    table.what = std::move(what);
    table.unit = std::move(unit);
    std::vector<Point> points;
    for (const DecidedQuote& quote : quotes)
        if (const double x = value(quote); std::isfinite(x))
            points.push_back({x, quote.won});
    table.without = quotes.size() - points.size();
    table.bands = bands_of(std::move(points));
    if (table.bands.empty())
        return table;
    const WinBand &first = table.bands.front(), &last = table.bands.back();
    table.difference =
        share_difference(first.won, first.quotes, last.won, last.quotes, outcome_level);
    table.says_something = table.difference.low > 0 || table.difference.high < 0;
    return table;
}

} // namespace

DecidedQuote decided_quote(const QuoteRecord& quote, bool won, const std::string& option) {
    DecidedQuote decided{quote.number, won, no_value, quote.per,  no_value,
                         no_value,     {},  no_value, quote.model};
    const auto taken = std::find_if(quote.options.begin(), quote.options.end(),
                                    [&](const RecordOption& one) { return one.option == option; });
    const bool own = option.empty() || taken == quote.options.end();
    const double price = static_cast<double>(own ? quote.price_cents : taken->cents) / 100;
    double quantity = own ? quote.per_quantity : 0;
    if (!own) // of its first item by the unit, as for the quote itself
        for (const RecordItem& item : taken->items)
            quantity = quantity > 0 || item.per != quote.per ? quantity : item.quantity;
    if (!quote.per.empty() && quantity > 0) {
        decided.price = price / quantity;
        decided.size = quantity;
    }
    if (own && price > 0)
        decided.margin = (price - quote.cost_total - quote.overhead) / price;
    for (const RecordLine& line : quote.lines)
        if (line.name == "site.way") { // what the library's models call it
            decided.distance = line.value;
            decided.distance_unit = line.unit;
        }
    return decided;
}

WinsAnswer wins(const std::vector<DecidedQuote>& quotes) {
    WinsAnswer answer;
    answer.quotes = quotes.size();
    for (const DecidedQuote& quote : quotes)
        answer.won += quote.won ? 1 : 0;
    answer.share = score_share(answer.won, answer.quotes, outcome_level);
    answer.work = common_unit(quotes, [](const DecidedQuote& q) { return q.work; });
    std::vector<DecidedQuote> alike;
    std::copy_if(quotes.begin(), quotes.end(), std::back_inserter(alike),
                 [&](const DecidedQuote& q) { return q.work == answer.work; });
    answer.quotes_of_it = alike.size();
    const std::string per = common_unit(
        alike, [](const DecidedQuote& q) { return q.per; });
    const std::string way =
        common_unit(quotes, [](const DecidedQuote& q) { return q.distance_unit; });
    // Of the work and in the unit that most are.
    const auto of_it = [&](double value, const DecidedQuote& q) {
        return q.work == answer.work && q.per == per ? value : no_value;
    };
    answer.tables.push_back(table_of(
        "price", "$/" + per, quotes, [&](const DecidedQuote& q) { return of_it(q.price, q); }));
    answer.tables.push_back(table_of(
        "margin", "%", quotes, [](const DecidedQuote& q) { return q.margin * 100; }));
    answer.tables.push_back(table_of(
        "distance", way, quotes,
        [&](const DecidedQuote& q) { return q.distance_unit == way ? q.distance : no_value; }));
    answer.tables.push_back(
        table_of("size", per, quotes, [&](const DecidedQuote& q) { return of_it(q.size, q); }));
    answer.tables[0].of = answer.tables[3].of = answer.work;
    return answer;
}

} // namespace acre::engine
