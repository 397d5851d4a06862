// One plan for many jobs of a season: only their numbers are put in.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "engine/job/job_dates.h"
#include "engine/job/priced_job.h"
#include "engine/job/work_calendar.h"
#include "engine/questions/season/fleet.h"
#include "engine/questions/season/plain_job.h"

namespace acre::engine {

using SeasonMachines = std::map<std::string, SeasonMachine>; // by name

class SharedPlan {
  public:
    // `first`: the job as it can be shared; null: it cannot.
    SharedPlan(Job job, const PlainJob* first);

    // Of the job that the plan was made for. `to.earliest` is there; the machines met go into
    // `all`.
    void facts(SeasonJob& to, SeasonMachines& all) { facts(job_->values(), to, all); }
    // Of another one. False: there is something to say of it, and the whole way has to.
    bool facts(const PlainJob& from, SeasonJob& to, SeasonMachines& all);
    // Whether the season sets for a job of this day what it sets for that of the plan.
    bool holds_on(long day) const;
    std::size_t steps() const { return job_->plan().size(); } // of calculation

  private:
    struct Machine {
        std::string name, label;
        Slot fixed = 0, over = 0;  // $/yr, h/yr
        std::size_t shared = none; // into machines_: the one that all jobs share; none: itself
    };
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    struct Counted {
        Slot slot = 0;
        std::string machine;             // hours of its meter; empty: the whole count
        double scale = 1;                // to acres, gallons, days or hours
        Slot many = no_slot;             // how many of the machine; none: one
        std::size_t group = 0;           // meters of one line of the model work side by side
        std::vector<std::size_t> stages; // in which the machine is there; none: all of the job
    };
    double price(const Values& values) const;

    Job job_;
    std::map<std::string, std::uint32_t> input_; // by name of the given, into Plan::inputs
    std::vector<double> inputs_;
    std::vector<Counted> hours_, days_, gallons_, acres_;
    Slot days_per_week_ = no_slot;
    std::shared_ptr<const DatedSets> dated_;
    std::shared_ptr<const WorkCalendar> calendar_;
    std::vector<Stage> stages_;
    std::string boundary_;
    std::vector<Machine> machines_;
    std::vector<Slot> roots_; // figures of the price, and requirements
    bool plain_ = false;      // every given that jobs of this key set is an input

    void find_machines();
    std::vector<std::size_t> stages_for(const lang::Line& counted) const;
    void uses(const Values& values, SeasonJob& to) const;
    const std::string& unit_name(const std::string& machine, const Values& values) const;
    void find_counts();
    static double together(const std::vector<Counted>& counted, const Values& values);
    bool put(const PlainJob::Set& set);
    bool is_plain(const Values& values) const;
    void facts(const Values& values, SeasonJob& to, SeasonMachines& all);
    void stages(const Values& values, SeasonJob& to) const;
    bool is_the_week_of_the_season(const Values& values) const;
};

} // namespace acre::engine
