// break-even: where a line reaches a value, or another job, as one given moves.
#include <string>
#include <utility>

#include "cli/break_even/break_even_page.h"
#include "cli/break_even/market_page.h"
#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/axis_words.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "engine/questions/quantity.h"

namespace acre::cli {
namespace {

struct BreakEvenArguments {
    JobArguments job;
    std::string vary, until, price, market, against, between;
    bool names = false;
};

using Question = engine::BreakEvenQuestion;

// The line and the value of `--until` or `--price`.
lang::Outcome<Question> read_aim(const BreakEvenArguments& arguments,
                                 const engine::PricedJob& job) {
    Question question;
    if (!arguments.price.empty()) {
        if (arguments.price.find('/') != std::string::npos)
            return lang::placeless(
                lang::Code::C003,
                "`--price` takes the price of the whole job, not `" + arguments.price + "`", {},
                {"what the market pays by the acre is  --market '" + arguments.price + "'"});
        lang::Outcome<double> price =
            engine::QuantityReader(job, "$", "the value of `--price`: ").read(arguments.price);
        if (!price)
            return std::move(price.said);
        question.price = *price;
        return question;
    }
    const std::size_t equals = arguments.until.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == arguments.until.size())
        return lang::placeless(lang::Code::C003,
                               "`--until` takes LINE=VALUE, as in --until margin=\"10 %\"; not `" +
                                   arguments.until + "`");
    question.line = engine::line_of_word(job, arguments.until.substr(0, equals));
    lang::Outcome<engine::Subject> line = engine::line_named(job, question.line);
    if (!line)
        return std::move(line.said);
    lang::Outcome<double> wanted = engine::QuantityReader(job, *line, "the value of `--until`: ")
                                       .read(arguments.until.substr(equals + 1));
    if (!wanted)
        return std::move(wanted.said);
    question.wanted = *wanted;
    return question;
}

lang::Outcome<std::optional<engine::Range>> read_between(const BreakEvenArguments& arguments,
                                                         const engine::PricedJob& job) {
    if (arguments.between.empty())
        return std::optional<engine::Range>();
    lang::Outcome<engine::Subject> given = engine::given_named(job, arguments.vary);
    if (!given)
        return std::move(given.said);
    lang::Outcome<engine::Range> range =
        read_range(arguments.between, engine::QuantityReader(job, *given, "`--between`: "));
    if (!range)
        return std::move(range.said);
    return std::optional<engine::Range>(*range);
}

lang::Outcome<Question> read_question(const BreakEvenArguments& arguments,
                                      const engine::PricedJob& job) {
    lang::Outcome<Question> question =
        arguments.against.empty() ? read_aim(arguments, job) : lang::Outcome<Question>(Question{});
    if (!question)
        return question;
    question->given = arguments.vary;
    question->names = arguments.names;
    lang::Outcome<std::optional<engine::Range>> between = read_between(arguments, job);
    if (!between)
        return std::move(between.said);
    question->between = *between;
    return question;
}

lang::Outcome<engine::MarketAnswer> ask_market(const BreakEvenArguments& arguments,
                                               const engine::PricedJob& job) {
    lang::Outcome<std::string> unit = engine::market_unit(job);
    if (!unit)
        return std::move(unit.said);
    lang::Outcome<double> rate =
        engine::QuantityReader(job, *unit, "the value of `--market`: ").read(arguments.market);
    if (!rate)
        return std::move(rate.said);
    lang::Outcome<std::optional<engine::Range>> between = read_between(arguments, job);
    if (!between)
        return std::move(between.said);
    return engine::ask(job,
                       engine::MarketQuestion{arguments.vary, *rate, *between, arguments.names});
}

lang::Outcome<engine::Job> open_other(const BreakEvenArguments& arguments) {
    JobArguments other = arguments.job;
    lang::FileKind kind{};
    if (file_kind(arguments.against, kind))
        other.path = arguments.against;
    else
        other.option = arguments.against;
    return open_job(other);
}

Reply reply_of_market(const BreakEvenArguments& arguments, const engine::PricedJob& job,
                      bool color) {
    const lang::Outcome<engine::MarketAnswer> answer = ask_market(arguments, job);
    Reply reply(of_the_price(answer.said));
    if (!answer)
        return reply;
    if (arguments.job.json)
        reply.document = market_json(*answer);
    else
        reply.page = market_text(*answer, color);
    return reply;
}

Reply ask(const BreakEvenArguments& arguments, bool color) {
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    if (!job)
        return of_the_price(job.said);
    if (!arguments.market.empty())
        return reply_of_market(arguments, **job, color);
    const lang::Outcome<Question> question = read_question(arguments, **job);
    if (!question)
        return question.said;
    Reply reply;
    lang::Outcome<engine::BreakEvenAnswer> answer;
    if (arguments.against.empty()) {
        answer = engine::ask(**job, *question);
    } else {
        const lang::Outcome<engine::Job> other = open_other(arguments);
        if (!other)
            return of_the_price(other.said);
        answer = engine::ask(**job, **other, *question);
        if (answer)
            reply.said.push_back(of_the_price(engine::judged(**other, {})));
    }
    reply.said.insert(reply.said.begin(), of_the_price(answer.said));
    if (!answer)
        return reply;
    if (arguments.job.json)
        reply.document = break_even_json(*answer);
    else
        reply.page = break_even_text(*answer, color);
    return reply;
}

} // namespace

Reply break_even_command(Words words, Console& console) {
    BreakEvenArguments arguments;
    Arguments line(
        "break-even",
        "Finds where a line reaches a value as one given moves: every place in the "
        "range, with jumps marked, or that there is none. --price asks where a fixed "
        "price leaves no profit, --market how small a job is worth it at a price per acre, "
        "--against where another job or option costs the same.",
        "acrewright break-even examples/01-first-price.job --vary area --until "
        "margin=\"8 %\"");
    arguments.job.declare(line);
    line.option("--vary", "GIVEN", "the given that moves", arguments.vary);
    line.option("--until", "LINE=VALUE",
                "the value to reach, of a line or of margin, profit, cost or price",
                arguments.until);
    line.option("--price", "MONEY",
                "a fixed price, as in '$95,078': where it leaves no profit, overhead as quoted",
                arguments.price);
    line.option("--market", "MONEY/UNIT",
                "what the market pays all in, as in '$900/ac': where it covers direct cost, "
                "overhead too, and leaves the full margin",
                arguments.market);
    line.option("--against", "OTHER", "a .job file, or the title of an option of this job",
                arguments.against);
    line.option("--between", "\"A..B\"", "where to search (the allowed range, else the swing)",
                arguments.between);
    line.flag("--names", "names of lines, as --set takes them, instead of their labels",
              arguments.names);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.vary.empty())
        return lang::placeless(lang::Code::C004, "`break-even` needs `--vary GIVEN`");
    const int aims = (arguments.until.empty() ? 0 : 1) + (arguments.price.empty() ? 0 : 1) +
                     (arguments.market.empty() ? 0 : 1) + (arguments.against.empty() ? 0 : 1);
    if (aims != 1)
        return lang::placeless(lang::Code::C004, "`break-even` needs one of `--until LINE=VALUE`, "
                                                 "`--price MONEY`, `--market MONEY/UNIT` and "
                                                 "`--against OTHER`");
    return ask(arguments, console.color_out);
}

} // namespace acre::cli
