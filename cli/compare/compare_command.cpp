// compare: a job's options, or several jobs, side by side; where two of them cost the same; and
// each over a given.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "cli/command.h"
#include "cli/compare/compare_page.h"
#include "cli/shared/axis_words.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"

namespace acre::cli {
namespace {

struct CompareArguments {
    std::vector<std::string> paths, options, sets, with;
    std::string models, flip, over, svg;
    bool json = false, by_block = false;
};

// What one column sets besides the others: "a=1; b=2".
std::vector<std::string> sets_of(const std::string& with) {
    std::vector<std::string> sets;
    for (std::size_t at = 0; at <= with.size();) {
        const std::size_t end = std::min(with.find(';', at), with.size());
        const std::size_t first = with.find_first_not_of(' ', at);
        if (first < end)
            sets.push_back(with.substr(first, with.find_last_not_of(' ', end - 1) + 1 - first));
        at = end + 1;
    }
    return sets;
}

// Opens a column. The errors where the words or a file are wrong rather than the job, or there is
// too much side by side: then nothing is compared.
std::optional<lang::Said> open_column(const CompareArguments& arguments, const std::string& path,
                                      const std::string& option, const std::string& with,
                                      std::vector<engine::CompareSide>& sides) {
    JobArguments job;
    job.path = path;
    job.option = option;
    job.sets = arguments.sets;
    job.models = arguments.models;
    for (std::string& set : sets_of(with))
        job.sets.push_back(std::move(set));
    std::string name = !with.empty() ? with : option.empty() ? "this job" : option;
    if (arguments.paths.size() > 1)
        name.clear();
    sides.push_back({std::move(name), path, open_job(job)});
    const lang::Outcome<engine::Job>& opened = sides.back().job;
    if (!opened && exit_code_of(Reply(opened.said)) != exit_at_fault)
        return opened.said;
    if (auto too_much = engine::too_much_side_by_side(sides))
        return lang::Outcome<int>(std::move(*too_much)).said;
    return std::nullopt;
}

lang::Outcome<std::vector<engine::CompareSide>> open_all(const CompareArguments& arguments) {
    std::vector<engine::CompareSide> sides;
    for (const std::string& path : arguments.paths)
        if (auto failed = open_column(arguments, path, "", "", sides))
            return std::move(*failed);
    if (arguments.paths.size() > 1)
        return sides;
    const bool all_options = arguments.options.empty() && arguments.with.empty();
    const std::vector<std::string> options = !all_options   ? arguments.options
                                             : sides[0].job ? engine::options_of(**sides[0].job)
                                                            : std::vector<std::string>();
    if (auto too_many = engine::too_many_side_by_side(1 + options.size() + arguments.with.size()))
        return std::move(*too_many);
    for (const std::string& option : options)
        if (auto failed = open_column(arguments, arguments.paths[0], option, "", sides))
            return std::move(*failed);
    for (const std::string& with : arguments.with)
        if (auto failed = open_column(arguments, arguments.paths[0], "", with, sides))
            return std::move(*failed);
    return sides;
}

// "run 300 ft..2,600 ft", in the unit of the given.
lang::Outcome<engine::CompareQuestion::Over>
read_over(const std::string& over, const std::vector<engine::CompareSide>& sides) {
    const std::size_t space = over.find(' ');
    const std::size_t dots = over.find("..");
    if (space == std::string::npos || dots == std::string::npos || dots < space)
        return lang::placeless(
            lang::Code::C003, "`--over` takes a given and a range, as in \"run 300 ft..2,600 ft\"");
    engine::CompareQuestion::Over read;
    read.given = over.substr(0, space);
    for (const engine::CompareSide& side : sides) {
        if (!side.job)
            continue;
        lang::Outcome<std::string> unit = engine::unit_of_given(**side.job, read.given);
        if (!unit)
            return std::move(unit.said);
        lang::Outcome<engine::Range> ends = read_range(
            over.substr(space), engine::QuantityReader(**side.job, std::move(*unit), "`--over`: "));
        if (!ends)
            return std::move(ends.said);
        read.ends = *ends;
        break;
    }
    return read;
}

Reply show(const CompareArguments& arguments, const engine::CompareAnswer& comparison, bool color) {
    Reply reply;
    for (const lang::Said& said : comparison.told)
        reply.said.push_back(of_the_price(said));
    if (comparison.columns.empty())
        return reply;
    if (!arguments.svg.empty() && !save(arguments.svg, over_svg(comparison), reply))
        return reply;
    if (arguments.json) {
        reply.document = compare_json(comparison);
        return reply;
    }
    reply.page = compare_text(comparison, color);
    if (comparison.flips)
        reply.page += flips_text(comparison);
    if (comparison.over)
        reply.page += over_text(comparison);
    return reply;
}

Reply answer(const CompareArguments& arguments, bool color) {
    if (auto too_many = engine::too_many_side_by_side(arguments.paths.size()))
        return std::move(*too_many);
    if (!arguments.with.empty() && arguments.paths.size() > 1)
        return lang::placeless(lang::Code::C004, "`--with` asks of one job, not of several");
    if (!arguments.svg.empty() && arguments.over.empty())
        return lang::placeless(lang::Code::C004, "`--svg` draws what `--over` shows, and needs it");
    lang::Outcome<std::vector<engine::CompareSide>> sides = open_all(arguments);
    if (!sides)
        return std::move(sides.said);
    engine::CompareQuestion question;
    question.flip = arguments.flip;
    question.by_block = arguments.by_block;
    if (!arguments.over.empty()) {
        lang::Outcome<engine::CompareQuestion::Over> over = read_over(arguments.over, *sides);
        if (!over)
            return std::move(over.said);
        question.over = std::move(*over);
    }
    lang::Outcome<engine::CompareAnswer> comparison = engine::ask(std::move(*sides), question);
    return comparison ? show(arguments, *comparison, color) : Reply(std::move(comparison.said));
}

} // namespace

Reply compare_command(Words words, Console& console) {
    CompareArguments arguments;
    Arguments line("compare",
                   "Shows a job with its options, or several jobs, side by side: prices, every "
                   "cost, quantities, what differs and what each difference adds. --flip finds "
                   "where two of them cost the same; --over draws each price over a given.",
                   "acrewright compare examples/03-rows-or-field.job --flip row_width");
    line.positionals("JOB", "one job for its options, or several jobs", arguments.paths);
    line.option("--option", "TITLE", "only these options of the job; may be repeated",
                arguments.options);
    line.option("--with", "\"NAME=VALUE; ...\"",
                "one more column: what if these were so, with the reason in dollars; may be "
                "repeated",
                arguments.with);
    line.option("--set", "NAME=VALUE", "sets a given in all columns; may be repeated",
                arguments.sets);
    line.option("--models", "FOLDER", "one more folder to look for models in", arguments.models);
    line.option("--flip", "GIVEN",
                "the value of a given at which a column costs the same as the first",
                arguments.flip);
    line.option("--over", "\"GIVEN A..B\"",
                "the price of each column over a given, as in \"run 300 ft..2,600 ft\"",
                arguments.over);
    line.option("--svg", "FILE", "writes what --over shows as a picture", arguments.svg);
    line.flag("--by-block", "also the price of each block", arguments.by_block);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
