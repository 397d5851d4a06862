// What the season needs of each job, read fast: jobs that set the same givens of the same model and
// season share one plan, and only their numbers are put in.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/shared/console.h"
#include "engine/questions/season.h"

namespace acre::cli {

inline constexpr std::size_t max_season_jobs = 20'000;
inline constexpr std::uint64_t max_season_steps =
    20'000'000; // of calculation, of all jobs together
inline constexpr std::size_t max_kept_steps =
    2'000'000; // of the plans that jobs share; those beyond are made again for each
inline constexpr std::size_t max_season_machines = 200;
inline constexpr std::size_t max_season_messages =
    std::size_t{1} << 20U; // bytes of what is said of all jobs together

class SeasonReader {
  public:
    explicit SeasonReader(std::string models_folder);
    ~SeasonReader();

    // False when the job has no price or no date: said in `console`, and `code` is the exit code.
    bool read(const std::string& path, engine::SeasonJob& job, Console& console, int& code);

    // The machines of all jobs read: used models with lines own_per_hour and fixed_per_year and a
    // given hours_per_year.
    const std::map<std::string, engine::SeasonMachine>& machines() const { return machines_; }
    std::size_t plans() const;                     // compiled so far
    std::uint64_t steps() const { return steps_; } // of calculation, so far

  private:
    struct Shared;
    std::string models_folder_;
    std::map<std::string, std::unique_ptr<Shared>> shared_;
    std::map<std::string, engine::SeasonMachine> machines_;
    std::uint64_t steps_ = 0, kept_steps_ = 0;

    bool read_slowly(const std::string& path, const std::string& key, engine::SeasonJob& job,
                     Console& console, int& code);
};

} // namespace acre::cli
