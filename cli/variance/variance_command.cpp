// variance: what a job cost against its quote, cost by cost, and what it tells us.
#include <string>

#include "cli/command.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/book.h"
#include "cli/variance/variance_page.h"
#include "engine/book/quoted.h"
#include "engine/questions/variance.h"

namespace acre::cli {
namespace {

struct VarianceArguments {
    std::string number, log, book = "quote-book", propose;
    bool json = false;
};

void declare(VarianceArguments& arguments, Arguments& line) {
    line.positional("QUOTE", "the quote's number", arguments.number);
    line.positional("LOG", "the daily log of the job, as CSV", arguments.log);
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.option("--propose", "FILE",
                "writes what the job tells us as a season file, for people to read first",
                arguments.propose);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
}

lang::Outcome<engine::VarianceAnswer> ask(const VarianceArguments& arguments) {
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    const lang::Outcome<engine::Record> record = book.quote(*state, arguments.number);
    if (!record)
        return record.said;
    const engine::QuoteRecord& quote = *record->quote();
    lang::Outcome<std::string> text = read_named_file(arguments.log, max_data_bytes);
    if (!text)
        return std::move(text.said);
    const lang::Outcome<engine::JobLog> log =
        engine::read_job_log(arguments.log, std::move(*text), quote.counted);
    if (!log)
        return log.said;
    lang::show_money(quote.money);
    return engine::ask(engine::quoted_of(quote), *log);
}

} // namespace

Reply variance_command(Words words, Console& console) {
    VarianceArguments arguments;
    Arguments line(
        "variance",
        "Compares what a job cost with its quote: the difference of each cost divided into "
        "quantity and rate (fuel into hours, burn and price), to the cent; what the job tells us, "
        "with its uncertainty; and lines for the season that you can copy.",
        "acrewright variance 2027-001 examples/logs/2027-001.csv --book "
        "examples/quote-book");
    declare(arguments, line);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const lang::Outcome<engine::VarianceAnswer> answer = ask(arguments);
    if (!answer)
        return answer.said;
    Reply reply;
    if (!arguments.propose.empty() && !save(arguments.propose, season_proposal(*answer), reply))
        return reply;
    if (arguments.json)
        reply.document = variance_json(*answer);
    else
        reply.page = variance_text(*answer, console.color_out);
    return reply;
}

} // namespace acre::cli
