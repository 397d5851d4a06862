// Searches for small inputs on which a command takes long or much memory: files of a folder and the
// words of a command line are changed at random, and what costs more for its size is kept and
// changed again. The inputs may grow from step to step, up to what the program reads at all.
//
//   worst SECONDS FOLDER [COMMAND...]    SECONDS for each command; its worst inputs go to FOLDER
//
// Prints a table. The exit code is 1 where a command took more than it may.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <string>
#include <vector>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/shared/console.h"
#include "tests/fuzz/scratch.h"
#include "tests/fuzz/worst_changes.h"

namespace fs = std::filesystem;

namespace acre::fuzz {
namespace {

constexpr double most_seconds = 10;
constexpr double most_mib = 512;

struct Cost {
    double seconds = 0; // of the processor
    double mib = 0;
    int code = 0; // below 0: the signal that ended it
    double of_limit() const { return std::max(seconds / most_seconds, mib / most_mib); }
};

// A command in a process of its own.
Cost run(const std::vector<std::string>& words) {
    const pid_t child = ::fork();
    if (child == 0) {
        const rlimit time{30, 30};
        ::setrlimit(RLIMIT_CPU, &time);
        cli::Console console;
        ::_exit(cli::run(words, console));
    }
    int status = 0;
    rusage used{};
    ::wait4(child, &status, 0, &used);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
    };
    return {seconds(used.ru_utime) + seconds(used.ru_stime),
            static_cast<double>(used.ru_maxrss) / 1024,
            WIFSIGNALED(status) ? -WTERMSIG(status) : WEXITSTATUS(status)};
}

// Of the command, or of one that has to stand before it and takes longer; nothing where that one
// fails in time.
Cost run(const WorstInput& input) {
    set_out(input.files);
    Cost worst;
    for (const std::vector<std::string>& words : input.before) {
        const Cost cost = run(words);
        if (cost.code != 0)
            return cost.of_limit() > 1 ? cost : Cost{};
        worst = cost.of_limit() > worst.of_limit() ? cost : worst;
    }
    const Cost cost = run(input.words);
    return worst.of_limit() > 1 && worst.of_limit() > cost.of_limit() ? worst : cost;
}

struct Found {
    WorstInput input;
    Cost cost;
    double score = 0;
};

void write(const WorstInput& input, const fs::path& to) {
    fs::remove_all(to);
    for (const auto& [name, text] : input.files) {
        fs::create_directories((to / name).parent_path());
        std::ofstream(to / name, std::ios::binary) << text;
    }
    std::ofstream words(to / "words");
    for (const std::string& word : input.words)
        words << word << '\n';
}

class Search {
  public:
    Search(std::string command, std::uint64_t seed) : command_(std::move(command)), random_(seed) {
        for (const WorstInput& start : worst_starts())
            if (start.words[0] == command_) {
                start_ = run(start);
                keep({start, start_, 0});
            }
    }
    bool any() const { return !pool_.empty(); }

    // Processor seconds spent on it, a third for each size.
    void search(double seconds) {
        double spent = 0;
        for (const std::size_t largest : {16'384UL, 262'144UL, 4'194'304UL})
            for (double until = spent + seconds / 3; spent < until;) {
                WorstInput next = pool_[random_() % pool_.size()].input;
                for (std::size_t changes = 1 + random_() % 3; changes > 0; --changes)
                    change(next, largest, random_);
                if (next.bytes() > largest || next.asks_for_more() || !stays_inside(next.words))
                    continue;
                Found found = weighed(std::move(next));
                spent += found.cost.seconds + 0.001;
                ++runs_;
                if (found.score > pool_.back().score || pool_.size() < most_kept)
                    keep(std::move(found));
            }
    }

    // A row of the table; whether all was within the limits.
    bool report(const fs::path& folder) const {
        const bool within = slowest_.cost.of_limit() <= 1 && largest_.cost.of_limit() <= 1;
        std::printf("%-12s %7zu %8.3f s %6zu KiB %8.0f MiB %6zu KiB%s\n", command_.c_str(), runs_,
                    slowest_.cost.seconds, slowest_.input.bytes() / 1024, largest_.cost.mib,
                    largest_.input.bytes() / 1024, within ? "" : "  past the limit");
        std::fflush(stdout);
        write(slowest_.input, folder / (command_ + "-time"));
        write(largest_.input, folder / (command_ + "-memory"));
        return within;
    }

  private:
    static constexpr std::size_t most_kept = 16;
    std::string command_;
    std::mt19937_64 random_;
    std::vector<Found> pool_; // best first
    Found slowest_, largest_;
    Cost start_; // of an input as it was before any change
    std::size_t runs_ = 0;

    // What a find is worth: what it costs more than the start, the less the larger it is.
    Found weighed(WorstInput input) const {
        Cost cost = run(input);
        const Cost more{std::max(0.0, cost.seconds - start_.seconds),
                        std::max(0.0, cost.mib - start_.mib), 0};
        const double size = static_cast<double>(input.bytes()) + 16'384;
        return {std::move(input), cost, more.of_limit() / std::pow(size, 0.7)};
    }

    void keep(Found found) {
        if (found.cost.seconds > slowest_.cost.seconds)
            slowest_ = found;
        if (found.cost.mib > largest_.cost.mib)
            largest_ = found;
        pool_.push_back(std::move(found));
        std::stable_sort(pool_.begin(), pool_.end(),
                         [](const Found& a, const Found& b) { return a.score > b.score; });
        if (pool_.size() > most_kept)
            pool_.pop_back();
    }
};

} // namespace
} // namespace acre::fuzz

int main(int count, char** words) {
    using namespace acre::fuzz;
    const std::vector<std::string> arguments(words + 1, words + count);
    if (arguments.size() < 2) {
        std::fprintf(stderr, "usage: worst SECONDS FOLDER [COMMAND...]\n");
        return 2;
    }
    const double seconds = std::stod(arguments[0]);
    const fs::path folder = fs::absolute(arguments[1]);
    std::vector<std::string> names(arguments.begin() + 2, arguments.end());
    if (names.empty())
        for (const acre::cli::Command& command : acre::cli::commands())
            names.emplace_back(command.name);
    std::printf("%-12s %7s %10s %10s %12s %10s\n", "command", "runs", "processor", "of", "memory",
                "of");
    bool within = true;
    for (const std::string& name : names) {
        Search search(name, 1);
        if (!search.any())
            continue;
        search.search(seconds);
        within = search.report(folder) && within;
    }
    return within ? 0 : 1;
}
