// break-even: where a line reaches a value, or another job, as one given moves.
#include <memory>
#include <string>
#include <utility>

#include "cli/break_even/break_even_page.h"
#include "cli/command.h"
#include "cli/shared/axis_words.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/quantity.h"
#include "cli/shared/words.h"
#include "engine/words/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

struct BreakEvenArguments {
    JobArguments job;
    std::string vary, until, price, against, between;
    bool names = false;
};

// A line by its name, or by the short word of a price where no line has that name.
std::string line_of_word(const lang::Sheet& sheet, const std::string& word) {
    if (sheet.find(word) != lang::none)
        return word;
    const std::pair<const char*, lang::LineId> words[] = {{"margin", sheet.profit_share},
                                                          {"profit", sheet.profit_total},
                                                          {"cost", sheet.cost_total},
                                                          {"price", sheet.price_total}};
    for (const auto& [name, line] : words)
        if (word == name && line != lang::none)
            return sheet.lines[line].name;
    return word;
}

// What is asked for, as the engine takes it; the texts live as long as it does.
struct Asked {
    std::string line;
    engine::BreakEvenQuestion question;
};

// False: said in `console`.
bool read_until(const BreakEvenArguments& arguments, const engine::PricedJob& job, Asked& asked,
                std::string& words, Console& console) {
    const lang::Sheet& sheet = job.sheet();
    std::string name;
    std::string value = arguments.price;
    if (!arguments.until.empty()) {
        const std::size_t equals = arguments.until.find('=');
        if (equals == std::string::npos || equals == 0 || equals + 1 == arguments.until.size()) {
            refuse("`--until` takes LINE=VALUE, as in --until margin=\"10 %\"; not `" +
                       arguments.until + "`",
                   console);
            return false;
        }
        name = line_of_word(sheet, arguments.until.substr(0, equals));
        value = arguments.until.substr(equals + 1);
    } else if (sheet.cost_total != lang::none) {
        name = sheet.lines[sheet.cost_total].name;
    }
    engine::Refusal refusal;
    const auto line = engine::line_named(sheet, job.compiled(), name, refusal);
    if (!line) {
        refuse(refusal, console);
        return false;
    }
    std::string reason;
    const std::string unit = engine::unit_text(sheet, sheet.lines[*line]);
    const auto wanted = read_quantity(value, unit.empty() ? "1" : unit, reason);
    if (!wanted) {
        refuse("the value of `" + std::string(arguments.until.empty() ? "--price" : "--until") +
                   "`: " + reason,
               console);
        return false;
    }
    asked.line = sheet.lines[*line].name;
    asked.question.wanted = *wanted;
    words =
        arguments.until.empty()
            ? "a price of " + shown(sheet, *line, *wanted) + " leaves no profit"
            : called_asked(sheet, *line, arguments.names) + " is " + shown(sheet, *line, *wanted);
    return true;
}

engine::Job open_other(const BreakEvenArguments& arguments, Console& console, int& code) {
    JobArguments other = arguments.job;
    lang::FileKind kind{};
    if (file_kind(arguments.against, kind))
        other.path = arguments.against;
    else
        other.option = arguments.against;
    return open_judged(other, {}, console, code);
}

std::string title_with_option(const engine::PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    return title_of(sheet) + (sheet.job.option.empty() ? "" : ", " + sheet.job.option);
}

int ask(const BreakEvenArguments& arguments, Console& console) {
    int code = exit_done;
    const auto job = open_judged(arguments.job, {}, console, code);
    if (!job)
        return code;
    const lang::Sheet& sheet = job->sheet();
    BreakEvenPage page;
    page.job = job.get();
    page.names = arguments.names;
    page.color = console.color_out;
    Asked asked;
    asked.question.given = arguments.vary;
    if (arguments.against.empty() && !read_until(arguments, *job, asked, page.asked, console))
        return exit_usage;
    engine::Refusal refusal;
    if (!arguments.between.empty()) {
        const auto axis = engine::axis_named(*job, arguments.vary, refusal);
        if (!axis)
            return refuse(refusal, console);
        std::string reason;
        const auto range = read_range(arguments.between,
                                      engine::unit_text(sheet, sheet.lines[axis->line]), reason);
        if (!range)
            return refuse("`--between`: " + reason, console);
        asked.question.between = *range;
    }
    asked.question.line = asked.line;
    engine::Job other;
    if (!arguments.against.empty()) {
        other = open_other(arguments, console, code);
        if (!other)
            return code;
        page.against = title_with_option(*other);
        page.asked = "the two cost the same";
    }
    auto answer = other == nullptr
                      ? engine::break_even(*job, asked.question, refusal)
                      : engine::break_even_against(*job, *other, asked.question, refusal);
    if (!answer)
        return refuse(refusal, console);
    page.answer = std::move(*answer);
    console.out += arguments.job.json ? break_even_json(page) : break_even_text(page);
    return exit_done;
}

} // namespace

int break_even_command(Words words, Console& console) {
    BreakEvenArguments arguments;
    Arguments line(
        "break-even",
        "Where a line reaches a value as one given moves: every place in the range, jumps told as "
        "jumps, or that there is none. "
        "--price asks where a fixed price leaves no profit, --against where another job or option "
        "costs the same.",
        "acrewright break-even examples/01-first-price.job --vary area --until margin=\"8 %\"");
    arguments.job.declare(line);
    line.option("--vary", "GIVEN", "the given that moves", arguments.vary);
    line.option("--until", "LINE=VALUE",
                "what is to be reached: a line, or margin, profit, cost, price", arguments.until);
    line.option("--price", "MONEY",
                "a price that stands, as in '$95,078': where the cost reaches it", arguments.price);
    line.option("--against", "OTHER", "a .job file, or the title of an option of this job",
                arguments.against);
    line.option("--between", "\"A..B\"", "where to look (the lawful range, else the swing)",
                arguments.between);
    line.flag("--names", "names of lines, as --set takes them, instead of their labels",
              arguments.names);
    if (const auto code = line.read(words, console))
        return *code;
    if (arguments.vary.empty())
        return refuse("`break-even` needs `--vary GIVEN`", console);
    const int aims = (arguments.until.empty() ? 0 : 1) + (arguments.price.empty() ? 0 : 1) +
                     (arguments.against.empty() ? 0 : 1);
    if (aims != 1)
        return refuse(
            "`break-even` needs one of `--until LINE=VALUE`, `--price MONEY` and `--against OTHER`",
            console);
    return ask(arguments, console);
}

} // namespace acre::cli
