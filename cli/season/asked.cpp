#include "cli/season/asked.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>
#include <string_view>
#include <utility>

#include <dirent.h>
#include <sys/stat.h>

#include "cli/shared/files/confined.h"
#include "engine/questions/quantity.h"
#include "engine/questions/season/season_jobs.h"
#include "lang/diag/suggest.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

lang::Diagnostic slip(std::string title, std::vector<std::string> helps = {}) {
    return lang::placeless(lang::Code::C003, std::move(title), {}, std::move(helps));
}

// Names of units, parted by commas. Empty: one of them is no name, or stands there twice.
std::vector<std::string> unit_names(std::string_view text) {
    constexpr std::size_t longest = 40;
    std::vector<std::string> names;
    while (true) {
        const std::size_t comma = text.find(',');
        std::string_view name = text.substr(0, comma);
        while (name.starts_with(' '))
            name.remove_prefix(1);
        while (name.ends_with(' '))
            name.remove_suffix(1);
        if (name.empty() || name.size() > longest ||
            std::find(names.begin(), names.end(), name) != names.end())
            return {};
        names.emplace_back(name);
        if (comma == std::string_view::npos)
            return names;
        text.remove_prefix(comma + 1);
    }
}

std::optional<engine::Owned> owned_in(const std::string& text) {
    engine::Owned owned;
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, owned.count);
    if (read.ptr == end && !text.empty())
        return read.ec == std::errc() && owned.count >= 0 && owned.count <= engine::max_units
                   ? std::optional(owned)
                   : std::nullopt;
    const bool is_figure = !text.empty() && (text[0] == '-' || (text[0] >= '0' && text[0] <= '9'));
    owned.names = is_figure ? std::vector<std::string>{} : unit_names(text);
    owned.count = static_cast<int>(owned.names.size());
    return owned.names.empty() || owned.names.size() > engine::max_units ? std::nullopt
                                                                         : std::optional(owned);
}

lang::Outcome<std::map<std::string, engine::Owned>>
fleet_of(const std::vector<std::string>& words) {
    std::map<std::string, engine::Owned> fleet;
    for (const std::string& word : words) {
        const std::size_t equals = word.find('=');
        const std::optional<engine::Owned> owned = equals == std::string::npos || equals == 0
                                                       ? std::nullopt
                                                       : owned_in(word.substr(equals + 1));
        if (!owned)
            return slip("`--fleet` takes MACHINE=COUNT, 0 (it is hired) to " +
                            lang::number_text(engine::max_units) +
                            ", or MACHINE=NAME,NAME with names that differ; not `" + word + "`",
                        {"write  --fleet crawler=2  or  --fleet crawler=Hazel,Dora"});
        if (!fleet.emplace(word.substr(0, equals), *owned).second)
            return slip("`--fleet` says twice how many of `" + word.substr(0, equals) +
                        "` there are");
    }
    return fleet;
}

std::string without_slash(std::string folder) {
    while (folder.size() > 1 && folder.back() == '/')
        folder.pop_back();
    return folder;
}

bool is_folder(const std::string& path) {
    struct stat status = {};
    return ::stat(path.c_str(), &status) == 0 && S_ISDIR(status.st_mode);
}

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

std::string base_of(const std::string& path) {
    return path.substr(path.rfind('/') + 1);
}
std::string stem_of_job(const std::string& path) {
    const std::string name = base_of(path);
    return name.ends_with(".job") ? name.substr(0, name.size() - 4) : name;
}

// A job of the list by its path, its file's name, or that without its ending.
std::optional<lang::Diagnostic> leave_out(const std::string& word, SeasonFiles& from) {
    const auto found = std::find_if(from.files.begin(), from.files.end(), [&](const auto& file) {
        return file == word || base_of(file) == word || stem_of_job(file) == word;
    });
    if (found != from.files.end()) {
        from.without.push_back(stem_of_job(*found));
        from.files.erase(found);
        return std::nullopt;
    }
    std::vector<std::string> stems;
    for (const std::string& file : from.files)
        stems.push_back(stem_of_job(file));
    std::vector<std::string> helps;
    const std::vector<std::string_view> names(stems.begin(), stems.end());
    for (const std::string_view near : lang::near_names(stem_of_job(word), names, 3))
        helps.push_back("did you mean `" + std::string(near) + "`?");
    return slip("`--without " + word + "`: no such job counts here", std::move(helps));
}

lang::Outcome<double> yearly_money(const std::string& text) {
    // A figure by itself is in the money of the firm.
    const bool bare = text.find_first_not_of("0123456789,.") == std::string::npos;
    return engine::QuantityReader(bare ? "1" : "$", "the value of `--overhead`: ").read(text);
}

} // namespace

lang::Outcome<engine::SeasonQuestion> question_of(const SeasonArguments& arguments) {
    constexpr std::uint32_t longest_wait = 3'660; // days, ten years
    if (arguments.net_days > longest_wait)
        return slip("`--net` takes at most " + lang::number_text(longest_wait) + " days",
                    {"`--net 20` is the usual"});
    engine::SeasonQuestion question;
    question.net_days = static_cast<long>(arguments.net_days);
    question.another = arguments.another;
    lang::Outcome<std::map<std::string, engine::Owned>> fleet = fleet_of(arguments.fleet);
    if (!fleet)
        return std::move(fleet.said);
    question.fleet = std::move(*fleet);
    if (!question.another.empty() && engine::owned_of(question.fleet, question.another).count == 0)
        return slip("`--fleet` says that `" + question.another +
                        "` is hired, and `--another` asks for one more that is owned",
                    {"leave out one of the two"});
    if (!arguments.until.empty()) {
        question.until = lang::day_number(arguments.until);
        if (!question.until)
            return slip("`--until` takes a date, as in 2027-10-15; not `" + arguments.until + "`");
    }
    if (!arguments.overhead.empty()) {
        lang::Outcome<double> overhead = yearly_money(arguments.overhead);
        if (!overhead)
            return std::move(overhead.said);
        if (*overhead < 0)
            return slip("`--overhead` is what the office costs in a year: not below zero");
        question.overhead = *overhead;
    }
    return question;
}

lang::Outcome<std::optional<double>> chance_of_offers(const SeasonArguments& arguments) {
    if (arguments.offered.empty())
        return std::optional<double>();
    if (arguments.book.empty())
        return slip("`--offered` goes with `--book`: a job of a file is no offer");
    const lang::Outcome<double> chance =
        engine::QuantityReader("%", "the value of `--offered`: ").read(arguments.offered);
    if (!chance)
        return chance.said;
    if (!(*chance > 0 && *chance <= 100))
        return slip("`--offered` takes a chance over 0 % and at most 100 %; not `" +
                    arguments.offered + "`");
    return std::optional(*chance / 100);
}

lang::Outcome<SeasonFiles> files_of_season(const SeasonArguments& arguments) {
    SeasonFiles result;
    if (arguments.paths.size() == 1 && is_folder(arguments.paths[0])) {
        result.title = without_slash(arguments.paths[0]);
        if (!job_files(result.title, result.files))
            return lang::placeless(lang::Code::F702,
                                   "the folder `" + result.title + "` cannot be read");
        if (result.files.empty())
            return lang::placeless(lang::Code::F701,
                                   "the folder `" + result.title + "` has no .job file");
    } else if (arguments.paths.empty()) {
        return slip("`season` takes jobs, a folder of them, or `--book FOLDER`");
    } else {
        result.counted = Counted::Jobs;
        for (const std::string& path : arguments.paths) {
            if (is_folder(path))
                return slip("`season` takes one folder, or jobs: `" + path + "` is a folder");
            if (std::find(result.files.begin(), result.files.end(), path) != result.files.end())
                return slip("`" + path + "` stands there twice: a job counts once");
            result.files.push_back(path);
        }
        result.title = result.files.size() == 1 ? base_of(result.files[0]) : "jobs by name";
    }
    for (const std::string& word : arguments.without)
        if (auto unknown = leave_out(word, result))
            return *unknown;
    if (result.files.empty())
        return slip("no job is left that counts as work");
    if (result.files.size() > engine::max_season_jobs)
        return lang::placeless(lang::Code::Q006, "a season takes at most " +
                                                     lang::number_text(engine::max_season_jobs) +
                                                     " jobs");
    return result;
}

} // namespace acre::cli
