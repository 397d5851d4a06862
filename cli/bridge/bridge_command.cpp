// bridge: why one price is not the other.
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/bridge/bridge_json.h"
#include "cli/bridge/bridge_svg.h"
#include "cli/bridge/bridge_text.h"
#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "cli/shared/quote_book/reprice.h"
#include "engine/book/record.h"
#include "engine/questions/bridge/bridge.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

struct BridgeArguments {
    std::string before, after, book = "quote-book", season, old_option, new_option, svg;
    bool total = false, json = false;
};

struct Side {
    engine::UsedTexts texts;                            // of a quote
    std::vector<std::unique_ptr<lang::Loader>> loaders; // the last one answers
    lang::Request request;
    std::string name;
};

bool is_number(std::string_view text) {
    return text.size() >= 8 && text[4] == '-' &&
           text.find_first_not_of("0123456789-") == std::string_view::npos;
}

bool open_quote(const std::vector<Quote>& quotes, const std::string& number, Side& side,
                std::string& reason) {
    const Quote* quote = find_quote(quotes, number);
    if (quote == nullptr) {
        reason = "the book has no quote `" + lang::terminal_text(number) + "`";
        return false;
    }
    const auto request = engine::request_of(quote->record);
    if (!request) {
        reason = "the record of quote " + number + " lacks its texts";
        return false;
    }
    side.texts = engine::used_texts_of(quote->record);
    side.loaders.push_back(std::make_unique<engine::UsedTextsLoader>(side.texts));
    side.request = *request;
    side.name = lang::terminal_text(
        fmt::format("quote {}, {}", number, quote->record.value("issued", std::string())));
    return true;
}

bool open_file(const std::string& path, const std::string& option, Side& side,
               lang::Diagnostics& diagnostics) {
    side.request.name = path;
    side.request.option = option;
    if (!file_kind(path, side.request.kind) ||
        !read_named_file(path, side.request.text, diagnostics))
        return false;
    side.loaders.push_back(std::make_unique<FileLoader>());
    side.name =
        lang::terminal_text(path) + (option.empty() ? "" : ", " + lang::terminal_text(option));
    return true;
}

} // namespace

int bridge_command(Words words, Console& console) {
    BridgeArguments arguments;
    Arguments line("bridge",
                   "Why one price is not the other: the difference divided among the values and "
                   "formulas that changed, adding up exactly. "
                   "Each side is a job file or the number of a quote; `again` is the same quote "
                   "priced with the season of today.",
                   "acrewright bridge examples/01-first-price.job examples/02-closer-pulls.job");
    line.positional("OLD", "a job file or a quote's number", arguments.before);
    line.positional("NEW", "a job file, a quote's number, or `again`", arguments.after);
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.option("--season", "FILE", "the season of today, for `again`", arguments.season);
    line.option("--old-option", "TITLE", "takes one of the old job's options",
                arguments.old_option);
    line.option("--new-option", "TITLE", "takes one of the new job's options",
                arguments.new_option);
    line.option("--svg", "FILE", "writes the steps as a picture", arguments.svg);
    line.flag("--total", "the whole price instead of the price per unit", arguments.total);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (const auto code = line.read(words, console))
        return *code;
    const auto fail = [&](const std::string& what, int code) {
        console.err += "acrewright: " + what + "\n";
        return code;
    };
    if ((arguments.after == "again") != !arguments.season.empty())
        return fail("`again` and `--season FILE` go together", exit_usage);

    std::vector<Quote> quotes;
    std::string reason;
    if ((is_number(arguments.before) || is_number(arguments.after)) &&
        !read_quotes(Book(arguments.book), quotes, reason))
        return fail("the book `" + lang::terminal_text(arguments.book) + "`: " + reason, exit_file);
    Side before;
    Side after;
    lang::Diagnostics diagnostics;
    const lang::SourceMap no_sources;
    const auto open = [&](const std::string& what, const std::string& option, Side& side) {
        if (is_number(what))
            return open_quote(quotes, what, side, reason);
        return open_file(what, option, side, diagnostics);
    };
    const bool again = arguments.after == "again";
    if (!open(arguments.before, arguments.old_option, before) ||
        !open(again ? arguments.before : arguments.after, arguments.new_option, after)) {
        if (!reason.empty())
            return fail(reason, exit_usage);
        if (diagnostics.has_errors())
            return report(diagnostics, no_sources, console);
        return fail("each side is a .job or .rate file or a quote's number, as in 2027-003",
                    exit_usage);
    }
    if (again) {
        std::string text;
        if (!read_named_file(arguments.season, text, diagnostics))
            return report(diagnostics, no_sources, console);
        after.loaders.push_back(std::make_unique<SeasonLoader>(*after.loaders.back(),
                                                               arguments.season, std::move(text)));
        after.name = "the same with " + lang::terminal_text(arguments.season);
    }
    const lang::Outcome<engine::Job> old_job =
        engine::make_job(before.request, *before.loaders.back());
    if (!old_job)
        return report(old_job.said, console);
    const lang::Outcome<engine::Job> new_job =
        engine::make_job(after.request, *after.loaders.back());
    if (!new_job)
        return report(new_job.said, console);
    const lang::Outcome<engine::Bridge> result =
        engine::bridge(**old_job, **new_job, arguments.total);
    if (!result)
        return report(result.said, console);
    if (!arguments.svg.empty() &&
        !save(arguments.svg, bridge_svg(*result, before.name, after.name), console))
        return exit_file;
    console.out += arguments.json
                       ? bridge_json(*result, before.name, after.name)
                       : bridge_text(*result, {before.name, after.name}, console.color_out);
    return exit_done;
}

} // namespace acre::cli
