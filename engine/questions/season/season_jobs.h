// What the season needs of each job, read fast: jobs that set the same givens of the same model and
// season share one plan, and only their numbers are put in.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/questions/season/season.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"
#include "lang/loader.h"
#include "lang/units/money.h"

namespace acre::engine {

inline constexpr std::size_t max_season_jobs = 20'000;
inline constexpr std::uint64_t max_season_steps =
    20'000'000; // of calculation, of all jobs together
inline constexpr std::size_t max_kept_steps =
    2'000'000; // of the plans that jobs share; those beyond are made again for each
inline constexpr std::size_t max_season_machines = 200;
// Bytes of the texts of jobs that are at fault, with all they use: looking for what is wrong takes
// longer than a price, and nobody mends thousands of jobs at once.
inline constexpr std::size_t max_season_faulty_bytes = std::size_t{64} << 20U;

class SharedPlan;

struct QuotedJob {    // as it was quoted
    std::string name; // "quote 2027-004"
    double price = 0; // what the customer pays, changes included
    double chance = 1;
};

class SeasonJobs {
  public:
    // A loader for the job of that name.
    using LoaderMaker = std::function<std::unique_ptr<lang::Loader>(const std::string& path)>;

    // What becomes of a job without a date: it is refused, or it does not count.
    enum class Undated { Refused, LeftOut };

    explicit SeasonJobs(LoaderMaker loader, Undated undated = Undated::Refused);
    ~SeasonJobs();
    SeasonJobs(const SeasonJobs&) = delete;
    SeasonJobs& operator=(const SeasonJobs&) = delete;

    // Takes a job in. With an error it is not: it has no price, or no date (I603), or all jobs
    // together are too much (Q006).
    lang::Said add(const std::string& path, const std::string& text);
    // The same of a job that is sealed with all its texts, at the price that was quoted.
    lang::Said add(const lang::Request& request, lang::Loader& loader, QuotedJob quoted);
    const std::vector<std::string>& left_out() const { return left_out_; } // titles
    bool too_much() const { return too_much_; } // no further job is worth reading

    const std::vector<SeasonJob>& jobs() const { return jobs_; }
    // The machines of all jobs read: used models that say what their `fleet costs`.
    const std::map<std::string, SeasonMachine>& machines() const { return machines_; }
    std::size_t plans() const;                     // kept so far
    std::size_t put_in() const { return put_in_; } // jobs of which a kept plan took the numbers

  private:
    LoaderMaker loader_;
    Undated undated_;
    std::vector<std::string> left_out_;
    std::map<std::string, std::vector<std::unique_ptr<SharedPlan>>> shared_;
    std::vector<SeasonJob> jobs_;
    std::map<std::string, SeasonMachine> machines_;
    std::uint64_t steps_ = 0, kept_steps_ = 0;
    std::size_t put_in_ = 0, faulty_bytes_ = 0;
    std::optional<lang::Currency> money_; // of the first job
    bool too_much_ = false;

    lang::Said take(const lang::Request& request, lang::Loader& loader, const std::string& key,
                    const QuotedJob* quoted);
    lang::Said add_slowly(const std::string& path, const std::string& text, const std::string& key);
    lang::Said judged(lang::Said said);
};

// Q001: a machine of the fleet that no job uses.
lang::Outcome<Season> ask(const SeasonJobs& jobs, const SeasonQuestion& question);

} // namespace acre::engine
