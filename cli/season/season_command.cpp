// season: jobs against the machines.
#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/command.h"
#include "cli/season/asked.h"
#include "cli/season/book_jobs.h"
#include "cli/season/kept_messages.h"
#include "cli/season/report.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/kept_loader.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "engine/questions/season/by_road.h"
#include "engine/questions/season/season_jobs.h"
#include "lang/kept_trees.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

// Reads jobs until they are too much. What is said of them goes into the reply.
void read_jobs(const std::vector<std::string>& files, engine::SeasonJobs& jobs, Reply& reply) {
    KeptMessages messages(reply);
    for (const std::string& file : files) {
        lang::Outcome<std::string> text = read_text(file, false);
        messages.keep(of_the_price(text ? jobs.add(file, *text) : std::move(text.said)));
        if (jobs.too_much())
            break;
    }
    if (messages.not_shown() > 0)
        reply.note += "There are messages about " +
                      lang::number_text(static_cast<double>(messages.not_shown())) +
                      " more jobs, which are not shown.\n";
    if (reply.failed())
        reply.note += "A season needs all of its jobs: fix those above, or leave them out.\n";
}

std::optional<Reply> read_quotes(const SeasonArguments& arguments, std::optional<double> offered,
                                 engine::SeasonJobs& jobs, BookedWorks& works, Reply& reply) {
    if (!arguments.paths.empty() || !arguments.without.empty())
        return lang::placeless(lang::Code::C003, "`--book` counts the quotes of the book: leave "
                                                 "jobs and `--without` out");
    const std::string day = arguments.as_of.empty() ? today() : arguments.as_of;
    if (!lang::day_number(day))
        return lang::placeless(lang::Code::C003,
                               "`--as-of` takes a date, as in 2027-03-14; not `" + day + "`");
    KeptMessages messages(reply);
    return read_book({arguments.book, day, offered}, jobs, works, messages);
}

// Prices a job of the season again, from its file or from its record.
class PricesAgain {
  public:
    PricesAgain(const SeasonArguments& arguments, const BookedWorks& works)
        : arguments_(arguments),
          works_(works),
          beside_(arguments.models) {
        beside_.know(arguments.roads);
    }

    std::optional<engine::MoveMoney> price(const std::string& file, const engine::GivenSets& sets) {
        const engine::RoadsFile roads{arguments_.roads, beside_};
        if (const auto work = works_.find(file); work != works_.end())
            return price_again(arguments_.book, work->second, sets, roads);
        lang::Outcome<std::string> text = read_text(file, false);
        if (!text)
            return std::nullopt;
        FileLoader loader(arguments_.models);
        loader.know(file);
        lang::Request request;
        request.every_function = false;
        request.name = file;
        request.text = std::move(*text);
        return engine::price_by_road(std::move(request), loader, sets, roads);
    }

  private:
    const SeasonArguments& arguments_;
    const BookedWorks& works_;
    FileLoader beside_;
};

std::optional<Reply> chain_moves(const SeasonArguments& arguments, const BookedWorks& works,
                                 engine::Season& season, SeasonNames& names) {
    lang::Outcome<std::string> text = read_text(arguments.roads, true, max_data_bytes);
    if (!text)
        return Reply(std::move(text.said));
    lang::Outcome<std::vector<engine::Road>> roads = engine::read_roads(*text, arguments.roads);
    if (!roads)
        return Reply(std::move(roads.said));
    PricesAgain again(arguments, works);
    lang::Outcome<std::vector<engine::PricedRoad>> priced = engine::price_roads(
        season.jobs, *roads, arguments.moves, [&](std::size_t job, const engine::GivenSets& sets) {
            return again.price(season.jobs[job].file, sets);
        });
    if (!priced)
        return Reply(std::move(priced.said));
    names.chain = engine::chain(season, season.fleet, *priced);
    return std::nullopt;
}

Reply answer(const SeasonArguments& arguments, bool color) {
    lang::Outcome<engine::SeasonQuestion> question = question_of(arguments);
    if (!question)
        return std::move(question.said);
    const lang::Outcome<std::optional<double>> offered = chance_of_offers(arguments);
    if (!offered)
        return offered.said;
    lang::Outcome<SeasonFiles> files = arguments.book.empty()
                                           ? files_of_season(arguments)
                                           : SeasonFiles{{}, arguments.book, Counted::Book, {}};
    if (!files)
        return std::move(files.said);
    // The jobs of a folder share what is read of it, and all of them the trees of their models.
    lang::KeptTrees trees;
    struct Shared {
        FileLoader loader;
        KeptTexts texts;
    };
    std::map<std::string, Shared> shared;
    using Undated = engine::SeasonJobs::Undated;
    const auto loader_of = [&](const std::string& path) {
        Shared& folder =
            shared.try_emplace(folder_of(path), Shared{FileLoader(arguments.models), {}})
                .first->second;
        folder.loader.know(path);
        folder.loader.share(trees);
        return std::make_unique<KeptLoader>(folder.loader, folder.texts);
    };
    engine::SeasonJobs jobs(loader_of, files->counted == Counted::Folder ? Undated::LeftOut
                                                                         : Undated::Refused);
    Reply reply;
    BookedWorks works;
    if (arguments.book.empty())
        read_jobs(files->files, jobs, reply);
    else if (auto failure = read_quotes(arguments, *offered, jobs, works, reply))
        return std::move(*failure);
    if (reply.failed())
        return reply;
    lang::Outcome<engine::Season> season = engine::ask(jobs, *question);
    if (!season) {
        reply.said.push_back(std::move(season.said));
        return reply;
    }
    if (jobs.jobs().empty() && !jobs.left_out().empty())
        return lang::placeless(lang::Code::I603, "no job of `" + files->title + "` has a `date`",
                               {"a season needs the day on which each job starts"},
                               {"give the jobs a line such as `date 2027-06-21`"});
    SeasonNames names{files->title,    files->counted,     files->without,
                      jobs.left_out(), question->net_days, {}};
    if (!arguments.roads.empty())
        if (auto failure = chain_moves(arguments, works, *season, names))
            return std::move(*failure);
    if (!arguments.page.empty() && !save(arguments.page, season_html(*season, names), reply))
        return reply;
    if (arguments.json)
        reply.document = season_json(*season, names);
    else
        reply.page = season_text(*season, names, color);
    return reply;
}

} // namespace

Reply season_command(Words words, Console& console) {
    SeasonArguments arguments;
    Arguments line("season",
                   "Puts jobs against the machines of the firm: who is where, which machines are "
                   "wanted twice, a plan that fits, hours and money by month, what owning costs at "
                   "the hours booked, and what covers the year.",
                   "acrewright season examples --without 02-closer-pulls");
    line.positionals("JOB", "jobs that count as work, or a folder: all its dated jobs",
                     arguments.paths, false);
    line.option("--book", "FOLDER",
                "a quote book, whose accepted quotes count in the place of jobs", arguments.book);
    line.option("--offered", "CHANCE %", "with --book: counts what is still offered, by its chance",
                arguments.offered);
    line.option("--as-of", "DATE", "the book as it was on that day (today)", arguments.as_of);
    line.option("--without", "JOB", "leaves a job of the folder out; may be repeated",
                arguments.without);
    line.option("--fleet", "MACHINE=COUNT",
                "how many of a machine are owned (1; 0: it is hired), or their names: "
                "crawler=Hazel,Dora; may be repeated",
                arguments.fleet);
    line.option("--another", "MACHINE", "does one more of it pay: the season with and without it",
                arguments.another);
    line.option("--overhead", "MONEY", "what the office costs in a year (what the jobs carry)",
                arguments.overhead);
    line.option(
        "--until", "DATE",
        "by which a job is done that says no latest day (the last day of the jobs as dated)",
        arguments.until);
    line.option("--roads", "FILE",
                "the roads from job to job, as CSV: what moving on saves, by the plan",
                arguments.roads);
    line.option("--moves", "GIVEN", "which says how many moves a job pays (haul.moves)",
                arguments.moves);
    line.option("--net", "DAYS", "from the last day of a job to its payment (20)",
                arguments.net_days);
    line.option("--models", "FOLDER", "one more folder to look for models in", arguments.models);
    line.option("--page", "FILE", "writes a page with pictures, as HTML", arguments.page);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
