// season: all jobs of a folder against the machines.
#include <algorithm>
#include <charconv>
#include <map>
#include <string>
#include <vector>

#include <dirent.h>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/season/job_facts.h"
#include "cli/season/report.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/write_file.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

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

bool read_fleet(const std::vector<std::string>& words, std::map<std::string, int>& fleet) {
    for (const std::string& word : words) {
        const std::size_t equals = word.find('=');
        int count = 0;
        if (equals == std::string::npos ||
            std::from_chars(word.data() + equals + 1, word.data() + word.size(), count).ec !=
                std::errc() ||
            count < 1)
            return false;
        fleet[word.substr(0, equals)] = count;
    }
    return true;
}

} // namespace

int season_command(Words words, Console& console) {
    std::string folder;
    std::string models;
    std::string page;
    std::vector<std::string> fleet_words;
    std::uint32_t net_days = 20;
    bool json = false;
    Arguments line("season",
                   "All jobs of a folder against the machines: hours, days and money by month, who "
                   "is booked twice, what owning costs at the hours "
                   "booked, which job leaves least for a day, and the acres that carry the year.",
                   "acrewright season examples --fleet crawler=2");
    line.positional("FOLDER", "whose .job files are the season; each needs a date", folder);
    line.option("--fleet", "MACHINE=COUNT", "how many of a machine there are (1); may be repeated",
                fleet_words);
    line.option("--net", "DAYS", "from the last day of a job to its payment (20)", net_days);
    line.option("--models", "FOLDER", "one more folder to look for models in", models);
    line.option("--page", "FILE", "writes a page with charts, as HTML", page);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (const auto code = line.read(words, console))
        return *code;
    const auto fail = [&](const std::string& what, int code) {
        console.err += "acrewright: " + what + "\n";
        return code;
    };
    std::map<std::string, int> fleet;
    if (!read_fleet(fleet_words, fleet))
        return fail("`--fleet` takes MACHINE=COUNT, as in crawler=2", exit_usage);
    std::vector<std::string> files;
    while (folder.size() > 1 && folder.back() == '/')
        folder.pop_back();
    if (!job_files(folder, files))
        return fail("the folder `" + lang::terminal_text(folder) + "` cannot be read", exit_file);
    if (files.empty())
        return fail("the folder `" + lang::terminal_text(folder) + "` holds no .job file",
                    exit_at_fault);
    if (files.size() > max_season_jobs)
        return fail("a season holds at most " + lang::number_text(max_season_jobs) + " jobs",
                    exit_at_fault);
    SeasonReader reader(models);
    std::vector<engine::SeasonJob> jobs;
    int worst = exit_done;
    std::size_t not_shown = 0;
    for (const std::string& file : files) {
        int code = exit_done;
        const std::size_t said = console.err.size();
        if (!reader.read(file, jobs.emplace_back(), console, code)) {
            jobs.pop_back();
            worst = std::max(worst, code);
        }
        if (console.err.size() > max_season_messages) {
            console.err.resize(said);
            ++not_shown;
        }
        if (reader.steps() > max_season_steps)
            return fail("the jobs of the season come to more than " +
                            lang::number_text(static_cast<double>(max_season_steps)) +
                            " steps of calculation",
                        exit_at_fault);
        if (reader.machines().size() > max_season_machines)
            return fail("the jobs of the season use more than " +
                            lang::number_text(max_season_machines) + " machines",
                        exit_at_fault);
    }
    if (not_shown > 0)
        console.err += "acrewright: what is to say of " +
                       lang::number_text(static_cast<double>(not_shown)) +
                       " more jobs is not shown\n";
    if (worst != exit_done)
        return fail("a season is only as whole as its jobs: mend those above, or take them out of "
                    "the folder",
                    worst);
    std::vector<engine::SeasonMachine> machines;
    for (const auto& [name, machine] : reader.machines())
        machines.push_back(machine);
    const engine::Season season = engine::season(std::move(jobs), machines, fleet, net_days);
    const SeasonNames names{folder, net_days};
    if (!page.empty() && !save(page, season_html(season, names), console))
        return exit_file;
    console.out += json ? season_json(season) : season_text(season, names, console.color_out);
    return exit_done;
}

} // namespace acre::cli
