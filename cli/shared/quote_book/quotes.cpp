#include "cli/shared/quote_book/quotes.h"

#include <algorithm>
#include <charconv>
#include <string>
#include <unordered_map>
#include <vector>

#include <fmt/format.h>

#include "engine/book/canonical.h"
#include "engine/book/shape.h"

namespace acre::cli {

using Json = nlohmann::json;

std::string next_number(const Json* newest, std::string_view date, Json& counter) {
    const std::string year(date.substr(0, 4));
    counter = newest != nullptr ? newest->value("counter", Json::object()) : Json::object();
    const std::int64_t number = counter.value(year, std::int64_t{0}) + 1;
    counter[year] = number;
    return fmt::format("{}-{:03}", year, number);
}

bool read_quotes(const Book& book, std::vector<Quote>& quotes, std::string& reason) {
    std::unordered_map<std::string, std::vector<std::size_t>> by_number;
    const auto called = [&](const std::string& number) -> const std::vector<std::size_t>& {
        static const std::vector<std::size_t> none;
        const auto it = by_number.find(number);
        return it == by_number.end() ? none : it->second;
    };
    const auto visit = [&](const BookEntry& entry) {
        std::optional<Json> record = engine::read_canonical(entry.bytes);
        if (!record || !record->is_object() || !record->contains("seal") ||
            (*record)["seal"] != seal_of(*record)) {
            reason = Book::file_name(entry.index) +
                     " is not as it was written; `acrewright verify` tells more";
            return false;
        }
        if (const std::string fault = engine::shape_fault(*record); !fault.empty()) {
            reason = Book::file_name(entry.index) + " is no record of this program: " + fault;
            return false;
        }
        const std::string kind = record->value("kind", std::string());
        if (kind == "quote") {
            Quote& quote = quotes.emplace_back();
            quote.number = record->value("quote", std::string());
            quote.state = "offered";
            quote.state_date = record->value("issued", std::string());
            const std::string replaces = record->value("replaces", std::string());
            by_number[quote.number].push_back(quotes.size() - 1);
            if (!replaces.empty())
                for (const std::size_t earlier : called(replaces))
                    quotes[earlier].replaced_by = quote.number;
            quote.record = std::move(*record);
        } else if (kind == "word") {
            const std::string number = record->value("quote", std::string());
            for (const std::size_t i : called(number)) {
                quotes[i].state = record->value("state", std::string());
                quotes[i].state_date = record->value("date", std::string());
                quotes[i].state_note = record->value("note", std::string());
            }
        }
        return true;
    };
    if (!book.each(visit, reason))
        return false;
    std::stable_sort(quotes.begin(), quotes.end(), [](const Quote& a, const Quote& b) {
        return a.number.size() != b.number.size() ? a.number.size() < b.number.size()
                                                  : a.number < b.number;
    });
    return true;
}

const Quote* find_quote(const std::vector<Quote>& quotes, std::string_view number) {
    const auto it = std::find_if(quotes.begin(), quotes.end(),
                                 [&](const Quote& quote) { return quote.number == number; });
    return it == quotes.end() ? nullptr : &*it;
}

bool may_become(std::string_view state, std::string_view next) {
    if (state == "offered")
        return next == "accepted" || next == "turned down" || next == "withdrawn" ||
               next == "lapsed";
    // A lapsed offer may still be taken if the firm stands by it; a signed job may fall through.
    if (state == "lapsed")
        return next == "accepted" || next == "withdrawn";
    return state == "accepted" && (next == "closed" || next == "withdrawn");
}

} // namespace acre::cli
