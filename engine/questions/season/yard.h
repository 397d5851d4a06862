// How many of each machine are out on each day, while jobs are put into a plan and taken out again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/questions/season/fleet.h"

namespace acre::engine {

class Yard {
  public:
    // Of days from `first` to `last`, by which every job is done.
    Yard(const std::vector<SeasonJob>& jobs, const std::map<std::string, Owned>& fleet, long first,
         long last);

    // The first place of a job from its earliest day on, and not before `from`, done by `latest`,
    // that leaves no machine wanted by more than there are. Empty: there is none.
    std::optional<JobPlace> first_place(std::size_t job, long latest, long from);
    std::optional<JobPlace> first_place(std::size_t job, long latest) {
        return first_place(job, latest, jobs_[job].earliest);
    }
    bool is_free(std::size_t job, const JobPlace& at) const { return !try_next(job, at); }
    void put(std::size_t job, const JobPlace& at) { add(job, at, 1); }
    void take(std::size_t job, const JobPlace& at) { add(job, at, -1); }
    std::uint64_t trials() const { return trials_; } // places looked at
    int owned(const std::string& machine) const { return owned_[machine_.at(machine)]; }
    bool is_worn_out() const { return trials_ >= most_trials; } // it finds no more places

  private:
    static constexpr std::uint64_t most_trials = 2'000'000;
    const std::vector<SeasonJob>& jobs_;
    long first_, last_;
    std::map<std::string, std::size_t> machine_;
    std::vector<std::vector<std::size_t>> machines_; // by job, by use
    std::vector<int> owned_;
    std::vector<std::vector<int>> out_; // by machine, by day
    // Places of a job by the day from which it may begin: the calendar is walked once.
    std::vector<std::map<long, JobPlace>> known_;
    std::size_t kept_ = 0;
    JobPlace passing_; // one that is not kept
    std::uint64_t trials_ = 0;

    const JobPlace& place_from(std::size_t job, long day);
    void add(std::size_t job, const JobPlace& at, int by);
    std::optional<long> try_next(std::size_t job, const JobPlace& at) const;
};

} // namespace acre::engine
