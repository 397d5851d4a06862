// variance: what a job cost against its quote, cost by cost, and what it teaches.
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "cli/variance/variance_json.h"
#include "cli/variance/variance_text.h"
#include "engine/questions/variance.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

// The value of the first of these lines that the record has; 0: none.
double line_value(const Json& record, const std::vector<std::string>& names) {
    for (const std::string& name : names)
        for (const Json& line : record.value("lines", Json::array()))
            if (line.value("name", std::string()) == name && line.contains("value"))
                return line["value"].get<double>();
    return 0;
}

engine::Quoted quoted_of(const Json& record, const std::string& hours, const std::string& acres) {
    engine::Quoted quoted;
    for (const Json& cost : record.value("costs", Json::array()))
        quoted.costs.push_back(
            {cost.value("name", std::string()), cost.value("label", std::string()),
             cost.value("part", std::string()), cost.value("rate_unit", std::string()),
             cost.value("quantity_unit", std::string()), cost.value("rate", 0.0),
             cost.value("quantity", 0.0)});
    quoted.hours = line_value(record, {hours});
    quoted.acres = line_value(record, {acres, "area"});
    quoted.price =
        static_cast<double>(record.value("price", Json::object()).value("cents", std::int64_t{0})) /
        100;
    return quoted;
}

} // namespace

int variance_command(Words words, Console& console) {
    std::string number;
    std::string log_path;
    std::string folder = "quote-book";
    std::string hours = "machine_hours";
    std::string acres = "acres";
    std::string propose;
    bool json = false;
    Arguments line(
        "variance",
        "What a job cost against its quote: each cost's difference divided into quantity and rate "
        "(fuel into hours, burn and price), "
        "adding up exactly; what the job teaches, with its uncertainty; and lines for the season "
        "that somebody may take over.",
        "acrewright variance 2027-001 examples/logs/2027-001.csv --book examples/quote-book");
    line.positional("QUOTE", "the quote's number", number);
    line.positional("LOG", "the daily log of the job, as CSV", log_path);
    line.option("--book", "FOLDER", "the quote book (quote-book)", folder);
    line.option("--hours", "LINE", "the job's line of machine hours (machine_hours)", hours);
    line.option("--acres", "LINE", "the job's line of acres (acres, or area)", acres);
    line.option("--propose", "FILE",
                "writes what was learned as a season file, to be read by people first", propose);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (const auto code = line.read(words, console))
        return *code;
    const auto fail = [&](const std::string& what, int code) {
        console.err += "acrewright: " + what + "\n";
        return code;
    };
    std::vector<Quote> quotes;
    std::string reason;
    if (!read_quotes(Book(folder), quotes, reason))
        return fail("the book `" + lang::terminal_text(folder) + "`: " + reason, exit_file);
    const Quote* quote = find_quote(quotes, number);
    if (quote == nullptr)
        return fail("the book has no quote `" + lang::terminal_text(number) + "`", exit_usage);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    std::string text;
    if (!read_named_file(log_path, text, diagnostics, max_data_bytes))
        return report(diagnostics, sources, console);
    const lang::FileId file = sources.add(log_path, std::move(text));
    const auto log = engine::read_job_log(sources, file, diagnostics);
    if (!log)
        return report(diagnostics, sources, console);
    const engine::Quoted quoted = quoted_of(quote->record, hours, acres);
    if (quoted.hours <= 0)
        return fail("the quote has no line `" + lang::terminal_text(hours) +
                        "`: name its line of machine hours with --hours",
                    exit_usage);
    const engine::Variance result = engine::variance(quoted, *log);
    const VarianceNames names{
        number, quote->record.value("job", Json::object()).value("title", std::string())};
    if (!propose.empty() && !save(propose, season_proposal(result, names), console))
        return exit_file;
    console.out +=
        json ? variance_json(result, number) : variance_text(result, names, console.color_out);
    return exit_done;
}

} // namespace acre::cli
