// One plan for many jobs of a season: only their numbers are put in.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/season/plain_job.h"
#include "engine/questions/season/season.h"
#include "engine/readers/adjoint.h"

namespace acre::engine {

using SeasonMachines = std::map<std::string, SeasonMachine>; // by name

class SharedPlan {
  public:
    // `first`: the job as it can be shared; null: it cannot.
    SharedPlan(Job job, const PlainJob* first);

    // Of the job that the plan was made for. The machines met go into `all`.
    void facts(SeasonJob& to, SeasonMachines& all) { facts(job_->values(), to, all); }
    // Of another one. False: there is something to say of it, and the whole way has to.
    bool facts(const PlainJob& from, SeasonJob& to, SeasonMachines& all);
    std::size_t steps() const { return job_->plan().size(); } // of calculation

  private:
    struct Machine {
        std::string name;
        Slot own = 0, fixed = 0, hours = 0;
    };
    double price(const Values& values) const;

    Job job_;
    std::map<std::string, std::uint32_t> input_; // by name of the given, into Plan::inputs
    std::optional<Adjoint> cost_;                // slopes of the cost by everything it rests on
    std::vector<double> inputs_, slope_, bar_;
    Slot days_ = no_slot, gallons_ = no_slot;
    std::vector<Machine> machines_;
    std::vector<Slot> roots_; // figures of the price, and requirements
    bool plain_ = false;      // every given that jobs of this key set is an input

    Slot slot(const std::string& name) const;
    void find_machines();
    bool put(const PlainJob::Set& set);
    bool is_plain(const Values& values) const;
    void facts(const Values& values, SeasonJob& to, SeasonMachines& all);
};

} // namespace acre::engine
