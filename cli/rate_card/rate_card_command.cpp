// rate-card: the season's price list over two or three givens.
#include <string>

#include "cli/command.h"
#include "cli/rate_card/card.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

int rate_card_command(Words words, Console& console) {
    JobArguments job_arguments;
    CardRequest request;
    std::string date;
    std::string page;
    bool csv = false;
    bool earns = false;
    Arguments line("rate-card",
                   "The season's price list: the rate of a price item over two or three givens, "
                   "with the minimum, the move by distance, and what "
                   "each cell leaves over its cost.",
                   "acrewright rate-card examples/01-first-price.job --rows \"depth=4 ft,5 ft,6 "
                   "ft,7 ft\" --columns \"spacing=5 ft,6 ft,7 ft,8 ft\" "
                   "--bands \"site.miles=10 mi,25 mi,50 mi\" --date 2027-01-15");
    job_arguments.declare(line);
    line.option("--rows", "GIVEN=PLACES",
                "down the card: \"depth=4 ft,5 ft\" or \"run=300 ft..1,500 ft by 300 ft\"",
                request.rows);
    line.option("--columns", "GIVEN=PLACES", "across the card", request.columns);
    line.option("--pages", "GIVEN=PLACES", "one table for each, as in \"method=one_way,crossed\"",
                request.pages);
    line.option("--item", "NAME", "the price item (the first that is per unit)", request.item);
    line.option("--round", "MONEY", "up to whole multiples, as in \"$5/ac\"", request.round);
    line.option("--bands", "GIVEN=PLACES",
                "the lump item over a given, as in \"site.miles=10 mi,25 mi\"", request.bands);
    line.option("--date", "DATE", "from when the card holds (today)", date);
    line.option("--page", "FILE", "writes the page to hand out, as HTML", page);
    line.flag("--earns", "what each cell leaves over its cost, below it", earns);
    line.flag("--csv", "the card as CSV", csv);
    if (const auto code = line.read(words, console))
        return *code;
    const auto fail = [&](const std::string& what, int code) {
        console.err += "acrewright: " + what + "\n";
        return code;
    };
    if (request.rows.empty() || request.columns.empty())
        return fail("a card needs `--rows GIVEN=PLACES` and `--columns GIVEN=PLACES`", exit_usage);
    if (date.empty())
        date = today();
    if (!day_number(date))
        return fail("`--date` takes a day of the calendar, as in 2027-01-15", exit_usage);
    int code = exit_done;
    const auto job = open_job(job_arguments, console, code);
    if (!job)
        return code;
    RateCard card;
    std::string reason;
    if (!make_card(*job, request, date, card, reason))
        return fail(lang::terminal_text(reason), exit_usage);
    if (!page.empty() && !save(page, card_html(card), console))
        return exit_file;
    console.out += job_arguments.json ? card_json(card)
                   : csv              ? card_csv(card)
                                      : card_text(card, earns, console.color_out);
    return exit_done;
}

} // namespace acre::cli
