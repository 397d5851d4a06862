// season: all jobs of a folder against the machines.
#include <algorithm>
#include <charconv>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <dirent.h>

#include "cli/command.h"
#include "cli/season/kept_messages.h"
#include "cli/season/report.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "engine/questions/season/season_jobs.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

struct SeasonArguments {
    std::string folder, models, page;
    std::vector<std::string> fleet;
    std::uint32_t net_days = 20;
    bool json = false;
};

bool job_files(const std::string& folder, std::vector<std::string>& files) {
    DIR* open = ::opendir(folder.c_str());
    if (open == nullptr)
        return false;
    while (const dirent* entry = ::readdir(open))
        if (const std::string_view name = entry->d_name;
            name.ends_with(".job") && !name.starts_with('.'))
            files.push_back(joined(folder, name));
    ::closedir(open);
    std::sort(files.begin(), files.end());
    return true;
}

lang::Outcome<std::map<std::string, int>> read_fleet(const std::vector<std::string>& words) {
    std::map<std::string, int> fleet;
    for (const std::string& word : words) {
        const std::size_t equals = word.find('=');
        int count = 0;
        const char* const end = word.data() + word.size();
        if (equals != std::string::npos) {
            const auto read = std::from_chars(word.data() + equals + 1, end, count);
            count = read.ec == std::errc() && read.ptr == end ? count : 0;
        }
        if (count < 1)
            return lang::placeless(lang::Code::C003,
                                   "`--fleet` takes MACHINE=COUNT, as in crawler=2; not `" + word +
                                       "`");
        fleet[word.substr(0, equals)] = count;
    }
    return fleet;
}

lang::Outcome<std::vector<std::string>> files_in(std::string folder) {
    while (folder.size() > 1 && folder.back() == '/')
        folder.pop_back();
    std::vector<std::string> files;
    if (!job_files(folder, files))
        return lang::placeless(lang::Code::F702, "the folder `" + folder + "` cannot be read");
    if (files.empty())
        return lang::placeless(lang::Code::F701, "the folder `" + folder + "` has no .job file");
    if (files.size() > engine::max_season_jobs)
        return lang::placeless(lang::Code::Q006, "a season takes at most " +
                                                     lang::number_text(engine::max_season_jobs) +
                                                     " jobs");
    return files;
}

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
        reply.note += "A season needs all of its jobs: fix those above, or take them out of the "
                      "folder.\n";
}

Reply answer(const SeasonArguments& arguments, bool color) {
    constexpr std::uint32_t longest_wait = 3'660; // days, ten years
    if (arguments.net_days > longest_wait)
        return lang::placeless(lang::Code::C003,
                               "`--net` takes at most " + lang::number_text(longest_wait) + " days",
                               {}, {"`--net 20` is the usual"});
    lang::Outcome<std::map<std::string, int>> fleet = read_fleet(arguments.fleet);
    if (!fleet)
        return std::move(fleet.said);
    lang::Outcome<std::vector<std::string>> files = files_in(arguments.folder);
    if (!files)
        return std::move(files.said);
    engine::SeasonJobs jobs([&](const std::string& path) {
        auto loader = std::make_unique<FileLoader>(arguments.models);
        loader->know(path);
        return loader;
    });
    Reply reply;
    read_jobs(*files, jobs, reply);
    if (reply.failed())
        return reply;
    lang::Outcome<engine::Season> season =
        engine::ask(jobs, {std::move(*fleet), static_cast<long>(arguments.net_days)});
    if (!season) {
        reply.said.push_back(std::move(season.said));
        return reply;
    }
    const SeasonNames names{arguments.folder, arguments.net_days};
    if (!arguments.page.empty() && !save(arguments.page, season_html(*season, names), reply))
        return reply;
    if (arguments.json)
        reply.document = season_json(*season);
    else
        reply.page = season_text(*season, names, color);
    return reply;
}

} // namespace

Reply season_command(Words words, Console& console) {
    SeasonArguments arguments;
    Arguments line(
        "season",
        "Puts all jobs of a folder against the machines: hours, days and money by "
        "month, which machines are booked twice, what the fixed cost comes to at the hours booked, "
        "which job leaves the least a day, and the acres needed to cover the year.",
        "acrewright season examples --fleet crawler=2");
    line.positional("FOLDER", "whose .job files are the season; each needs a date",
                    arguments.folder);
    line.option("--fleet", "MACHINE=COUNT", "how many of a machine there are (1); may be repeated",
                arguments.fleet);
    line.option("--net", "DAYS", "from the last day of a job to its payment (20)",
                arguments.net_days);
    line.option("--models", "FOLDER", "one more folder to look for models in", arguments.models);
    line.option("--page", "FILE", "writes a page with charts, as HTML", arguments.page);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
