// What the season needs of each job, read fast: jobs that set the same givens of the same model and season share one plan, and
// only their numbers are put in.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/console.h"
#include "engine/season.h"

namespace acre::cli {

class SeasonReader {
  public:
    explicit SeasonReader(std::string models_folder);
    ~SeasonReader();

    // False when the job has no price or no date: said in `console`, and `code` is the exit code.
    bool read(const std::string& path, engine::SeasonJob& job, Console& console, int& code);

    // The machines of all jobs read: used models with lines own_per_hour and fixed_per_year and a given hours_per_year.
    const std::map<std::string, engine::SeasonMachine>& machines() const { return machines_; }
    std::size_t plans() const; // compiled so far

  private:
    struct Shared;
    std::string models_folder_;
    std::map<std::string, std::unique_ptr<Shared>> shared_;
    std::map<std::string, engine::SeasonMachine> machines_;

    bool read_slowly(const std::string& path, const std::string& key, engine::SeasonJob& job, Console& console, int& code);
};

} // namespace acre::cli
