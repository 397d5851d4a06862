// bridge: why one price is not the other.
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "cli/bridge/bridge_json.h"
#include "cli/bridge/bridge_svg.h"
#include "cli/bridge/bridge_text.h"
#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/book.h"
#include "engine/book/again.h"
#include "engine/questions/bridge/bridge.h"
#include "lang/units/calendar.h"

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
    std::string what, label; // label: empty when the job has its own
};

using Failure = std::optional<lang::Said>;

Failure failed(lang::Diagnostic diagnostic) {
    lang::Said said;
    said.diagnostics.add(std::move(diagnostic));
    return said;
}

Failure open_quote(const Book& book, const std::string& number, Side& side) {
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    const lang::Outcome<engine::Record> record = book.quote(*state, number);
    if (!record)
        return record.said;
    const engine::QuoteRecord& quote = *record->quote();
    std::optional<engine::MadeFrom> made_from = engine::made_from(quote);
    if (!made_from)
        return failed(engine::lacks_texts(number));
    side.texts = std::move(made_from->texts);
    side.loaders.push_back(std::make_unique<engine::UsedTextsLoader>(side.texts));
    side.request = std::move(made_from->request);
    side.what = fmt::format("quote {}, {}", number, quote.issued);
    side.label = fmt::format("quote {}, {}", number, lang::day_text(quote.issued));
    return std::nullopt;
}

Failure open_file(const std::string& path, const std::string& option, Side& side) {
    side.request.name = path;
    side.request.option = option;
    if (!file_kind(path, side.request.kind))
        return failed(lang::placeless(
            lang::Code::C002, "`" + path + "` is neither a .job or .rate file nor a quote's number",
            {}, {"a quote's number is written like 2027-003"}));
    lang::Outcome<std::string> text = read_named_file(path);
    if (!text)
        return std::move(text.said);
    side.request.text = std::move(*text);
    side.loaders.push_back(std::make_unique<FileLoader>());
    side.what = path + (option.empty() ? "" : ", " + option);
    return std::nullopt;
}

// The old side once more, with the season of today.
Failure take_season(const std::string& season, Side& side) {
    lang::Outcome<std::string> text = read_named_file(season);
    if (!text)
        return std::move(text.said);
    lang::Loader& own = *side.loaders.back();
    side.loaders.push_back(std::make_unique<FileLoader>());
    lang::Loader& beside = *side.loaders.back();
    side.loaders.push_back(
        std::make_unique<engine::SeasonLoader>(own, beside, season, std::move(*text)));
    side.what = "the same with " + season;
    const std::string_view file = std::string_view(season).substr(season.rfind('/') + 1);
    side.label = fmt::format("the same with season {}", file.substr(0, file.rfind('.')));
    return std::nullopt;
}

Failure open_sides(const BridgeArguments& arguments, Side& before, Side& after) {
    const Book book(arguments.book);
    const auto open = [&](const std::string& what, const std::string& option, Side& side) {
        return engine::is_quote_number(what) ? open_quote(book, what, side)
                                             : open_file(what, option, side);
    };
    if (Failure failure = open(arguments.before, arguments.old_option, before))
        return failure;
    const bool again = arguments.after == "again";
    if (Failure failure =
            open(again ? arguments.before : arguments.after, arguments.new_option, after))
        return failure;
    return again ? take_season(arguments.season, after) : std::nullopt;
}

lang::Outcome<engine::Job> make(const Side& side, const char* which) {
    lang::Outcome<engine::Job> job = engine::make_job(side.request, *side.loaders.back());
    if (!job)
        job.said = engine::of_side(std::move(job.said), which, side.what);
    return job;
}

Reply answer(const BridgeArguments& arguments, bool color) {
    if ((arguments.after == "again") != !arguments.season.empty())
        return lang::placeless(lang::Code::C004, "`again` and `--season FILE` go together");
    Side before;
    Side after;
    if (Failure failure = open_sides(arguments, before, after))
        return std::move(*failure);
    lang::Outcome<engine::Job> old_job = make(before, "old");
    if (!old_job)
        return std::move(old_job.said);
    lang::Outcome<engine::Job> new_job = make(after, "new");
    if (!new_job)
        return std::move(new_job.said);
    const lang::Outcome<engine::BridgeAnswer> bridge =
        engine::ask(**old_job, **new_job,
                    {before.what, after.what, before.label, after.label, arguments.total});
    Reply reply(bridge.said);
    if (!bridge)
        return reply;
    reply.said.push_back(
        engine::of_side(of_the_price(std::move(old_job.said)), "old", before.what));
    reply.said.push_back(engine::of_side(of_the_price(std::move(new_job.said)), "new", after.what));
    if (!arguments.svg.empty() && !save(arguments.svg, bridge_svg(*bridge), reply))
        return reply;
    if (arguments.json)
        reply.document = bridge_json(*bridge);
    else
        reply.page = bridge_text(*bridge, color);
    return reply;
}

} // namespace

Reply bridge_command(Words words, Console& console) {
    BridgeArguments arguments;
    Arguments line("bridge",
                   "Explains why one price differs from another: divides the difference among the "
                   "values and formulas that changed, to the cent. Each side is a job file or the "
                   "number of a quote; `again` is the same quote with another season.",
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
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
