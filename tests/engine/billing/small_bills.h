// A small quote, its log and its bill, for sums worked out by hand.
#pragma once

#include <optional>
#include <string>

#include <doctest/doctest.h>

#include "engine/billing/bill.h"

namespace small_bills {

using namespace acre;
using namespace acre::engine;

// Ripping of 40 acres at $100, counted by the acre, and the terms that it is billed by.
inline QuoteRecord quote() {
    QuoteRecord out;
    out.items = {{"Ripping", "ripping", "ac", 40, 100, 3'000, 400'000, {}}};
    out.counted = {{"acres", "ac", Counting::Work, "", 40, {}, false}};
    out.lines = {{"acre_tolerance", "%", "", 5}};
    return out;
}

inline void add_fuel(QuoteRecord& quote, const std::string& way, std::optional<double> floor = {}) {
    quote.lines.push_back({"fuel_base", "$/gal", "", 4.20});
    quote.lines.push_back({"fuel_step", "$/gal", "", 0.10});
    quote.lines.push_back({"gallons_per_acre", "gal/ac", "", 20});
    quote.lines.push_back({"fuel_way", "", way, no_value});
    if (floor)
        quote.lines.push_back({"fuel_floor", "$/gal", "", *floor});
}

inline JobLog log_of(const QuoteRecord& quote, const std::string& rows,
                     const std::string& head = "date,acres\n") {
    lang::Outcome<JobLog> log = read_job_log("log.csv", head + rows, quote.counted);
    REQUIRE(log);
    return std::move(*log);
}

inline lang::Outcome<BillAnswer> asked(const QuoteRecord& quote, const JobLog& log,
                                       BillQuestion question = {}) {
    question.quote = &quote;
    question.log = &log;
    if (question.date.empty())
        question.date = "2027-07-20";
    return ask(question);
}

inline BillAnswer billed(const QuoteRecord& quote, const JobLog& log, BillQuestion question = {}) {
    lang::Outcome<BillAnswer> answer = asked(quote, log, std::move(question));
    REQUIRE(answer);
    return std::move(*answer);
}

inline PostedPrices posted(const std::string& rows) {
    lang::Outcome<PostedPrices> prices =
        read_posted("posted.csv", "week,product,price,source\n" + rows);
    REQUIRE(prices);
    return std::move(*prices);
}

inline std::string refusal(const lang::Outcome<BillAnswer>& answer) {
    REQUIRE(!answer);
    const lang::Diagnostic& said = answer.said.diagnostics.all().at(0);
    CHECK(said.code == lang::Code::R010);
    return said.title;
}

inline bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace small_bills
