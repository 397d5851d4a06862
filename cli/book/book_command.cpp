// book: the quotes of a book and what became of them; as CSV for the books; and which open ones are
// under water today.
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/arguments.h"
#include "cli/shared/legacy.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "cli/shared/quote_book/reprice.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

std::string text_at(const Json& object, const char* outer, const char* inner) {
    const Json member = object.value(outer, Json::object());
    return member.is_object() ? member.value(inner, std::string()) : std::string();
}
std::int64_t cents_of(const Quote& quote) {
    return quote.record.value("price", Json::object()).value("cents", std::int64_t{0});
}
std::string state_of(const Quote& quote) {
    return quote.replaced_by.empty() ? quote.state : "replaced by " + quote.replaced_by;
}

std::string quotes_csv(const std::vector<Quote>& quotes) {
    std::string out =
        "quote,issued,valid_until,for,job,option,state,state_date,price,per,per_unit\r\n";
    for (const Quote& quote : quotes) {
        const Json& record = quote.record;
        const Json price = record.value("price", Json::object());
        out += fmt::format(
            "{},{},{},{},{},{},{},{},{:.2f},{},{:.2f}\r\n", csv_field(quote.number),
            csv_field(record.value("issued", std::string())),
            csv_field(record.value("valid_until", std::string())),
            csv_field(text_at(record, "job", "for")), csv_field(text_at(record, "job", "title")),
            csv_field(text_at(record, "job", "option")), csv_field(state_of(quote)),
            csv_field(quote.state_date), static_cast<double>(cents_of(quote)) / 100,
            csv_field(price.value("per", std::string())), price.value("per_unit", 0.0));
    }
    return out;
}

std::string costs_csv(const std::vector<Quote>& quotes) {
    std::string out = "quote,part,cost,label,rate,rate_unit,quantity,quantity_unit,amount\r\n";
    for (const Quote& quote : quotes)
        for (const Json& cost : quote.record.value("costs", Json::array()))
            out += fmt::format(
                "{},{},{},{},{},{},{},{},{:.2f}\r\n", csv_field(quote.number),
                csv_field(cost.value("part", std::string())),
                csv_field(cost.value("name", std::string())),
                csv_field(cost.value("label", std::string())), cost.value("rate", 0.0),
                csv_field(cost.value("rate_unit", std::string())), cost.value("quantity", 0.0),
                csv_field(cost.value("quantity_unit", std::string())), cost.value("amount", 0.0));
    return out;
}

std::string list_text(const std::vector<Quote>& quotes, bool color) {
    if (quotes.empty())
        return "no quotes yet\n";
    Table table({{"quote", Align::Left},
                 {"issued", Align::Left},
                 {"job", Align::Left, true},
                 {"price"},
                 {"state", Align::Left}});
    for (const Quote& quote : quotes)
        table.row({lang::terminal_text(quote.number),
                   lang::terminal_text(quote.record.value("issued", std::string())),
                   lang::terminal_text(text_at(quote.record, "job", "title")),
                   lang::cents_text(cents_of(quote)), lang::terminal_text(state_of(quote))});
    return table.text(color);
}

// The open quotes, priced with the season of today: what they would cost, and what would be left.
std::string water_text(const std::vector<Repriced>& rows, bool color) {
    Table table({{"open quote", Align::Left},
                 {"job", Align::Left, true},
                 {"quoted"},
                 {"cost then"},
                 {"cost now"},
                 {"left over"},
                 {"", Align::Left}});
    for (const Repriced& row : rows) {
        const auto quoted = static_cast<double>(row.quoted_cents) / 100;
        if (!row.why_not.empty())
            table.row({lang::terminal_text(row.number), lang::terminal_text(row.title),
                       lang::cents_text(row.quoted_cents), lang::money_text(row.cost_then),
                       "no price", "", lang::terminal_text(row.why_not)});
        else
            table.row({lang::terminal_text(row.number), lang::terminal_text(row.title),
                       lang::cents_text(row.quoted_cents), lang::money_text(row.cost_then),
                       lang::money_text(row.cost_now), lang::money_text(quoted - row.cost_now),
                       row.cost_now > quoted ? "under water" : ""});
    }
    return table.empty() ? "no open quotes\n" : table.text(color);
}

} // namespace

int book_command(Words words, Console& console) {
    std::string folder = "quote-book";
    std::string season;
    bool quotes_as_csv = false;
    bool costs_as_csv = false;
    bool json = false;
    Arguments line("book",
                   "The quotes of a book and what became of them. With --season: the open ones "
                   "priced with today's season, and which of them "
                   "would lose money.",
                   "acrewright book examples/quote-book");
    line.positional("BOOK", "the folder (quote-book)", folder, false);
    line.option("--season", "FILE", "today's season", season);
    line.flag("--csv", "the quotes as CSV, for the books", quotes_as_csv);
    line.flag("--cost-csv", "every cost line of every quote as CSV", costs_as_csv);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (const auto code = line.read(words, console))
        return *code;
    std::vector<Quote> quotes;
    std::string reason;
    if (!read_quotes(Book(folder), quotes, reason)) {
        console.err +=
            "acrewright: the book `" + lang::terminal_text(folder) + "`: " + reason + "\n";
        return exit_file;
    }
    std::vector<Repriced> rows;
    if (!season.empty()) {
        lang::Diagnostics diagnostics;
        std::string text;
        if (!read_named_file(season, text, diagnostics))
            return report(diagnostics, lang::SourceMap(), console);
        for (const Quote& quote : quotes)
            if (quote.is_open())
                rows.push_back(reprice_with_season(quote, season, text));
    }
    if (json)
        console.out += book_json(quotes, rows, !season.empty());
    else if (quotes_as_csv)
        console.out += quotes_csv(quotes);
    else if (costs_as_csv)
        console.out += costs_csv(quotes);
    else
        console.out += season.empty() ? list_text(quotes, console.color_out)
                                      : water_text(rows, console.color_out);
    return exit_done;
}

} // namespace acre::cli
