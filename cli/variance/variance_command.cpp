// variance: what a job cost against its quote, cost by cost, and what it tells us.
#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/command.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/work.h"
#include "cli/variance/results_page.h"
#include "cli/variance/variance_page.h"
#include "engine/billing/bill.h"
#include "engine/book/quoted.h"
#include "engine/log/log_cells.h"
#include "engine/questions/variance.h"

namespace acre::cli {
namespace {

struct VarianceArguments {
    std::string number, log, book = "quote-book", posted, product;
    bool json = false;
};

void declare(VarianceArguments& arguments, Arguments& line) {
    line.positional("QUOTE", "the quote's number (all finished jobs side by side)",
                    arguments.number, false);
    line.positional("LOG", "the daily log of the job, as CSV (the one sealed with the quote)",
                    arguments.log, false);
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.option("--posted", "FILE",
                "posted fuel prices, so that the income has the fuel steps of the bill",
                arguments.posted);
    line.option("--product", "NAME", "which of their products the quote goes by (the only one)",
                arguments.product);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
}

// What the customer is billed for the work in the log: by the newest bill of the book, else by the
// quote's terms. Of a job that is not done, what was agreed.
lang::Outcome<Income> income_of(const VarianceArguments& arguments, const BookState& state,
                                const Work& work, const engine::JobLog& log) {
    const double agreed = static_cast<double>(work.contract.steps.back().cents) / 100;
    const auto bill_so_far = engine::billed_before(state.lives, work.contract.life->quote.quote);
    const double billed = bill_so_far ? static_cast<double>(bill_so_far->cents) / 100 : 0;
    // What is billed of a part of the work does not stand beside the cost of all of it.
    if (work.contract.standing.state != "finished")
        return Income{agreed, "agreed", bill_so_far ? bill_so_far->bill : "", {}, billed};
    if (bill_so_far)
        return Income{billed, "bill", bill_so_far->bill, {}, billed};
    engine::BillQuestion question;
    question.quote = &work.quote;
    question.log = &log;
    question.product = engine::plain_word(arguments.product);
    question.date = std::max(work.contract.standing.date, engine::totals(log).last);
    question.without_fuel = true;
    std::optional<engine::PostedPrices> posted;
    if (!arguments.posted.empty()) {
        lang::Outcome<std::string> text = read_named_file(arguments.posted, max_data_bytes);
        if (!text)
            return std::move(text.said);
        lang::Outcome<engine::PostedPrices> prices =
            engine::read_posted(arguments.posted, std::move(*text));
        if (!prices)
            return std::move(prices.said);
        posted = std::move(*prices);
        question.posted = &*posted;
    }
    const lang::Outcome<engine::BillAnswer> bill = engine::ask(question);
    if (bill)
        return Income{static_cast<double>(bill->work_cents) / 100,
                      bill->lacks_fuel ? "terms without fuel steps" : "terms",
                      "",
                      {},
                      0};
    return Income{agreed, "agreed", "", bill.said.diagnostics.all()[0].title, 0};
}

lang::Outcome<VariancePage> ask(const VarianceArguments& arguments) {
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    const lang::Outcome<Work> work = work_of(book, *state, arguments.number);
    if (!work)
        return work.said;
    lang::Outcome<WorkLog> log = log_of(book, *state, *work, arguments.log);
    if (!log)
        return std::move(log.said);
    lang::Outcome<Income> income = income_of(arguments, *state, *work, log->log);
    if (!income)
        return std::move(income.said);
    engine::Quoted quoted = engine::quoted_of(work->quote);
    quoted.income = income->amount;
    quoted.finished = work->contract.standing.state == "finished";
    lang::Outcome<engine::VarianceAnswer> answer = engine::ask(quoted, log->log);
    if (!answer)
        return std::move(answer.said);
    return {VariancePage{std::move(*answer), std::move(*income)}, std::move(log.said)};
}

// What all finished jobs made, each by the log that was sealed with it.
lang::Outcome<ResultsPage> ask_all(const VarianceArguments& arguments) {
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    ResultsPage page;
    std::vector<engine::VarianceAnswer> jobs;
    std::vector<LeftOut> refused;
    lang::Currency money;
    const auto take = [&](const Finished& finished) -> std::optional<lang::Said> {
        if (!jobs.empty() && finished.work.quote.money != money) {
            refused.push_back({finished.number, "it is in " + finished.work.quote.money.code +
                                                    ", the jobs before it in " + money.code});
            return std::nullopt;
        }
        lang::Outcome<Income> income = income_of(arguments, *state, finished.work, finished.log);
        if (!income)
            return std::move(income.said);
        engine::Quoted quoted = engine::quoted_of(finished.work.quote);
        quoted.quote = finished.number;
        quoted.income = income->amount;
        lang::Outcome<engine::VarianceAnswer> answer = engine::ask(quoted, finished.log);
        if (!answer) {
            refused.push_back({finished.number, answer.said.diagnostics.all().front().title});
            return std::nullopt;
        }
        money = finished.work.quote.money;
        page.income.emplace(finished.number, std::move(*income));
        jobs.push_back(std::move(*answer));
        return std::nullopt;
    };
    lang::Outcome<std::vector<LeftOut>> left_out = each_finished(book, *state, take);
    if (!left_out)
        return std::move(left_out.said);
    lang::show_money(money);
    page.left_out = std::move(*left_out);
    page.left_out.insert(page.left_out.end(), refused.begin(), refused.end());
    page.results = engine::results(std::move(jobs));
    for (const engine::Life* life : state->lives.all())
        if (life->quote.changes.empty() &&
            state->lives.standing(*life, engine::no_day).state == "accepted")
            page.unfinished.push_back(life->quote.quote);
    return page;
}

Reply show_all(const VarianceArguments& arguments, bool color) {
    const lang::Outcome<ResultsPage> page = ask_all(arguments);
    if (!page)
        return page.said;
    Reply reply;
    if (arguments.json)
        reply.document = results_json(*page);
    else
        reply.page = results_text(*page, color);
    return reply;
}

} // namespace

Reply variance_command(Words words, Console& console) {
    VarianceArguments arguments;
    Arguments line(
        "variance",
        "Compares what a job cost with its quote: the difference of each cost divided into "
        "quantity and rate (fuel into hours, burn and price), to the cent; what it earned by its "
        "bill; and what the job tells us, with its uncertainty. Without QUOTE: what all finished "
        "jobs made, and where their costs went. `learn` makes a season of many jobs.",
        "acrewright variance 2027-001 examples/logs/2027-001.csv --book "
        "examples/quote-book");
    declare(arguments, line);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.number.empty())
        return show_all(arguments, console.color_out);
    const lang::Outcome<VariancePage> page = ask(arguments);
    if (!page)
        return page.said;
    Reply reply;
    if (!page.said.diagnostics.all().empty())
        reply.said.push_back(page.said);
    if (arguments.json)
        reply.document = variance_json(*page);
    else
        reply.page = variance_text(*page, console.color_out);
    return reply;
}

} // namespace acre::cli
