// rate-card: the season's price list over two or three givens.
#include <string>
#include <utility>

#include "cli/command.h"
#include "cli/rate_card/card.h"
#include "cli/shared/axis_words.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "engine/questions/quantity.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

struct CardArguments {
    JobArguments job;
    std::string rows, columns, pages, bands; // as on the command line; pages and bands may be empty
    std::string item, round, date, page, firm;
    bool csv = false, earns = false;
};

lang::Outcome<engine::CardAlong> along(const std::string& words, const char* option,
                                       const engine::PricedJob& job) {
    lang::Outcome<AxisWords> axis = read_axis(words, job, std::string("`") + option + "`: ");
    if (!axis)
        return std::move(axis.said);
    return engine::CardAlong{axis->given.name, std::move(axis->at)};
}

lang::Outcome<double> round_to(const CardArguments& arguments, const engine::PricedJob& job) {
    lang::Outcome<std::string> unit = engine::card_unit(job, arguments.item);
    if (!unit)
        return std::move(unit.said);
    lang::Outcome<double> step =
        engine::QuantityReader(job, std::move(*unit), "`--round`: ").read(arguments.round);
    if (!step)
        return std::move(step.said);
    if (*step <= 0)
        return lang::placeless(lang::Code::C003, "`--round` takes money above zero");
    return *step;
}

lang::Outcome<engine::CardQuestion> question_of(const CardArguments& arguments,
                                                const engine::PricedJob& job) {
    engine::CardQuestion question;
    question.item = arguments.item;
    const auto read = [&](const char* option, const std::string& words, auto& to) -> lang::Said {
        if (words.empty())
            return {};
        lang::Outcome<engine::CardAlong> one = along(words, option, job);
        if (one)
            to = std::move(*one);
        return std::move(one.said);
    };
    for (lang::Said said : {read("--rows", arguments.rows, question.rows),
                            read("--columns", arguments.columns, question.columns),
                            read("--pages", arguments.pages, question.pages),
                            read("--bands", arguments.bands, question.bands)})
        if (said.diagnostics.has_errors())
            return said;
    if (arguments.round.empty())
        return question;
    lang::Outcome<double> step = round_to(arguments, job);
    if (!step)
        return std::move(step.said);
    question.round = *step;
    return question;
}

Reply answer(const CardArguments& arguments, bool color) {
    if (arguments.rows.empty() || arguments.columns.empty())
        return lang::placeless(
            lang::Code::C004, "a card needs `--rows GIVEN=PLACES` and `--columns GIVEN=PLACES`", {},
            {"for example  --rows \"depth=4 ft,5 ft,6 ft\" --columns "
             "\"spacing=6 ft,7 ft,8 ft\""});
    DatedCard dated;
    dated.date = arguments.date.empty() ? today() : arguments.date;
    if (!lang::day_number(dated.date))
        return lang::placeless(lang::Code::C003, "`--date` takes a date, as in 2027-01-15");
    lang::Outcome<engine::Job> job = open_job(arguments.job);
    if (!job)
        return of_the_price(job.said);
    lang::Outcome<engine::CardQuestion> question = question_of(arguments, **job);
    if (!question)
        return std::move(question.said);
    lang::Outcome<engine::RateCard> card = engine::ask(**job, *question);
    Reply reply(card.said);
    if (!card)
        return reply;
    reply.said.push_back(of_the_price(job.said));
    dated.card = std::move(*card);
    dated.firm = arguments.firm;
    if (!arguments.page.empty() && !save(arguments.page, card_html(dated), reply))
        return reply;
    reply.exact = arguments.csv;
    if (arguments.job.json)
        reply.document = card_json(dated);
    else
        reply.page = arguments.csv ? card_csv(dated) : card_text(dated, arguments.earns, color);
    return reply;
}

} // namespace

Reply rate_card_command(Words words, Console& console) {
    CardArguments arguments;
    Arguments line(
        "rate-card",
        "Makes the season's price list: the rate of a price item over two or three givens, with "
        "the minimum, the move by distance, and what each rate leaves after cost.",
        "acrewright rate-card examples/01-first-price.job --rows \"depth=4 ft,5 ft,6 "
        "ft,7 ft\" --columns \"spacing=5 ft,6 ft,7 ft,8 ft\" "
        "--bands \"site.miles=10 mi,25 mi,50 mi\" --date 2027-01-15");
    arguments.job.declare(line);
    line.option("--rows", "GIVEN=PLACES",
                "down the card: \"depth=4 ft,5 ft\" or \"run=300 ft..1,500 ft by 300 ft\"",
                arguments.rows);
    line.option("--columns", "GIVEN=PLACES", "across the card", arguments.columns);
    line.option("--pages", "GIVEN=PLACES", "one table for each, as in \"method=one_way,crossed\"",
                arguments.pages);
    line.option("--item", "NAME", "the price item (the first that is per unit)", arguments.item);
    line.option("--firm", "NAME", "whose card it is, above the title", arguments.firm);
    line.option("--round", "MONEY", "rounds rates up to whole multiples, as in \"$5/ac\"",
                arguments.round);
    line.option("--bands", "GIVEN=PLACES",
                "the lump sum over a given, as in \"site.miles=10 mi,25 mi\"", arguments.bands);
    line.option("--date", "DATE", "the first day the card is valid, as in 2027-01-15 (today)",
                arguments.date);
    line.option("--page", "FILE", "writes the page to hand out, as HTML", arguments.page);
    line.flag("--earns", "shows under each rate its margin: profit over price", arguments.earns);
    line.flag("--csv", "the card as CSV", arguments.csv);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
