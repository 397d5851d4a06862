#include "engine/book/quotes.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/book/json.h"
#include "engine/book/members.h"
#include "engine/book/record.h"
#include "engine/book/sealed.h"

namespace acre::engine {
namespace {

// What a quote in this state may become.
std::vector<std::string_view> next_states(std::string_view state) {
    if (state == "offered")
        return {"accepted", "turned down", "withdrawn", "lapsed"};
    // A lapsed offer may still be taken if the firm holds to it; a signed job may fall through.
    if (state == "lapsed")
        return {"accepted", "withdrawn"};
    if (state == "accepted")
        return {"closed", "withdrawn"};
    return {};
}

} // namespace

void QuoteLives::add_quote(const Json& record) {
    Quote& quote = quotes_.emplace_back();
    quote.record = quote_record(record);
    if (auto request = request_of(record))
        quote.made_from = MadeFrom{std::move(*request), used_texts_of(record)};
    quote.state = "offered";
    quote.state_date = quote.record.issued;
    by_number_[quote.record.number].push_back(quotes_.size() - 1);
    const auto earlier = by_number_.find(quote.record.replaces);
    if (!quote.record.replaces.empty() && earlier != by_number_.end())
        for (const std::size_t i : earlier->second)
            quotes_[i].replaced_by = quote.record.number;
}

void QuoteLives::add_word(const Json& record) {
    const auto called = by_number_.find(text_at(record, "quote"));
    if (called == by_number_.end())
        return;
    for (const std::size_t i : called->second) {
        quotes_[i].state = text_at(record, "state");
        quotes_[i].state_date = text_at(record, "date");
        quotes_[i].state_note = text_at(record, "note");
    }
}

std::optional<lang::Diagnostic> QuoteLives::add(std::string_view bytes, std::string_view file) {
    const lang::Outcome<Json> record = read_sealed(bytes, file);
    if (!record)
        return record.said.diagnostics.all().front();
    const std::string kind = text_at(*record, "kind");
    if (kind == "quote")
        add_quote(*record);
    else if (kind == "word")
        add_word(*record);
    return std::nullopt;
}

std::vector<Quote> QuoteLives::take() {
    std::stable_sort(quotes_.begin(), quotes_.end(), [](const Quote& a, const Quote& b) {
        const std::string& one = a.record.number;
        const std::string& other = b.record.number;
        return one.size() != other.size() ? one.size() < other.size() : one < other;
    });
    return std::move(quotes_);
}

lang::Outcome<const Quote*> find_quote(const std::vector<Quote>& quotes, std::string_view number) {
    const auto it = std::find_if(quotes.begin(), quotes.end(),
                                 [&](const Quote& quote) { return quote.record.number == number; });
    if (it == quotes.end())
        return lang::placeless(lang::Code::R002, fmt::format("the book has no quote `{}`", number),
                               {}, {"`acrewright book` lists the quotes of a book"});
    return &*it;
}

lang::Outcome<Json> word_record(const std::vector<Quote>& quotes, const QuoteWord& word,
                                const Json& newest) {
    const lang::Outcome<const Quote*> found = find_quote(quotes, word.quote);
    if (!found)
        return found.said;
    const std::string& state = (*found)->state;
    const std::vector<std::string_view> next = next_states(state);
    if (std::find(next.begin(), next.end(), word.state) == next.end())
        return lang::placeless(
            lang::Code::R005,
            fmt::format("quote {} is {}; it cannot become {}", word.quote, state, word.state), {},
            {next.empty() ? fmt::format("a quote that is {} stays so", state)
                          : fmt::format("from {} it can become {}", state, fmt::join(next, ", "))});
    return Json{{"kind", "word"},      {"quote", word.quote},
                {"state", word.state}, {"date", word.date},
                {"note", word.note},   {"counter", object_at(newest, "counter")}};
}

} // namespace acre::engine
