#include "engine/questions/season/shared_plan.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "engine/faults/late_job.h"
#include "engine/log/counting.h"
#include "engine/plan/plan_roots.h"
#include "engine/questions/charged.h"
#include "engine/questions/earnings.h"
#include "engine/words/money.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

double at(Slot slot, const Values& values) {
    return slot == no_slot || !std::isfinite(values.slot[slot]) ? 0 : values.slot[slot];
}

// The files that the job and its pieces of ground are drawn in.
std::string boundary_of(const lang::Sheet& sheet) {
    std::string files = sheet.job.field_path + sheet.job.field_within;
    for (const lang::Entry& entry : sheet.entries)
        if (!entry.field_path.empty())
            files += (files.empty() ? "" : "\n") + entry.field_path + entry.field_within;
    return files;
}

// What people call a machine that an entry of a list has: "Walt" of walt.rig.
std::string label_of_machine(const lang::Sheet& sheet, const std::string& machine) {
    for (const lang::Entry& entry : sheet.entries)
        if (!entry.label.empty() && machine.starts_with(entry.name + "."))
            return entry.label;
    return {};
}

// The used model that a line stands in, "rip"; empty: the job's own.
std::string instance_of_line(const lang::Sheet& sheet, const lang::Line& line) {
    if (line.part != lang::none)
        return sheet.parts[line.part].instance;
    const std::size_t dot = line.name.rfind('.');
    return line.name.substr(0, dot == std::string::npos ? 0 : dot);
}

} // namespace

bool SharedPlan::holds_on(long day) const {
    return std::all_of(
        dated_->begin(), dated_->end(),
        [&](const lang::DatedSet& set) { return set.holds_on(day) == set.in_force; });
}

SharedPlan::SharedPlan(Job job, const PlainJob* first)
    : job_(std::move(job)),
      dated_(std::make_shared<const DatedSets>(job_->sheet().job.dated_sets)),
      calendar_(std::make_shared<const WorkCalendar>(job_->sheet().job.closed)),
      stages_(stages_of(job_->sheet(), job_->plan())),
      boundary_(boundary_of(job_->sheet())) {
    const Plan& plan = job_->plan();
    const lang::Sheet& sheet = job_->sheet();
    for (std::uint32_t i = 0; i < plan.inputs.size(); ++i) {
        if (!plan.inputs[i].is_share)
            input_.emplace(sheet.lines[plan.inputs[i].line].name, i);
        inputs_.push_back(plan.inputs[i].value);
    }
    plain_ = first != nullptr &&
             std::all_of(first->sets.begin(), first->sets.end(),
                         [&](const PlainJob::Set& set) { return input_.contains(set.name); });
    if (const lang::LineId line = days_per_week_of(sheet); line != lang::none)
        days_per_week_ = plan.line_slot[line];
    find_machines();
    find_counts();
    roots_ = root_slots(sheet, job_->compiled(), {});
}

void SharedPlan::find_machines() {
    const Plan& plan = job_->plan();
    const lang::Sheet& sheet = job_->sheet();
    std::vector<lang::Span> said; // by machine
    for (std::size_t i = 0; i < sheet.fleets.size(); ++i) {
        if (plan.fleet_costs[i] == no_slot || plan.fleet_over[i] == no_slot)
            continue;
        Machine& machine = machines_.emplace_back();
        machine.name = sheet.fleets[i].name;
        machine.label = label_of_machine(sheet, machine.name);
        machine.fixed = plan.fleet_costs[i];
        machine.over = plan.fleet_over[i];
        said.push_back(sheet.nodes[sheet.fleets[i].costs].span);
        // One of the same model that goes by the model's own name comes first.
        for (std::size_t j = 0; j + 1 < machines_.size() && machine.shared == none; ++j)
            if (said[j] == said.back() && machines_[j].name.find('.') == std::string::npos)
                machine.shared = j;
    }
}

// "hazel.rig" is the season's crawler while a year of it costs the same over the same hours; where
// the job says otherwise it is a machine of its own.
const std::string& SharedPlan::unit_name(const std::string& name, const Values& values) const {
    for (const Machine& machine : machines_) {
        if (machine.name != name || machine.shared == none)
            continue;
        const Machine& shared = machines_[machine.shared];
        if (values.slot[machine.fixed] == values.slot[shared.fixed] &&
            values.slot[machine.over] == values.slot[shared.over])
            return shared.name;
    }
    return name;
}

// What the model counts, by what it is in: the hours of machines, days, fuel, acres.
void SharedPlan::find_counts() {
    const lang::Sheet& sheet = job_->sheet();
    const auto scale = [&](const lang::Unit& unit, const char* wanted) -> std::optional<double> {
        const lang::Unit& to = *sheet.units.find(wanted);
        return unit.dim == to.dim ? std::optional(lang::conversion(unit, to).apply(1))
                                  : std::nullopt;
    };
    for (const lang::Counted& counted : sheet.counted) {
        const lang::Line& line = sheet.lines[counted.line];
        const Slot slot = job_->plan().line_slot[counted.line];
        if (slot == no_slot)
            continue;
        const lang::Unit& unit = line.type.unit;
        const Counting how = how_counted(unit_text(sheet, line), !counted.machine.empty());
        const auto take = [&](std::vector<Counted>& into, const char* wanted) {
            if (const std::optional<double> factor = scale(unit, wanted))
                into.push_back({slot, counted.machine, *factor, no_slot, 0, {}});
        };
        if (how == Counting::Meter) {
            take(hours_, "h");
            if (counted.many != lang::none)
                hours_.back().many = job_->plan().line_slot[counted.many];
            hours_.back().group = line.name_span.begin;
            hours_.back().stages = stages_for(line);
        }
        if (how == Counting::Fuel)
            take(gallons_, "gal");
        else if (how == Counting::Days)
            take(days_, "day");
        else if (acres_.empty())
            take(acres_, "ac");
    }
}

// A machine whose hours a used model counts is on the job in the stages whose days read that model:
// the crawler while the ground is ripped, not while it dries. One that the job's own model counts
// stays.
std::vector<std::size_t> SharedPlan::stages_for(const lang::Line& counted) const {
    const lang::Sheet& sheet = job_->sheet();
    const std::string instance = instance_of_line(sheet, counted);
    std::vector<std::size_t> found;
    if (instance.empty())
        return found;
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        std::vector<lang::NodeId> open;
        if (const lang::NodeId days = sheet.lines[stages_[i].line].value; days != lang::none)
            open.push_back(days);
        bool reads = false;
        while (!open.empty() && !reads) {
            const lang::Node& node = sheet.nodes[open.back()];
            open.pop_back();
            if (node.op == lang::Op::Line) {
                const std::string of = instance_of_line(sheet, sheet.lines[node.index]);
                reads = of == instance || of.starts_with(instance + ".");
            }
            lang::for_each_child(sheet, node, [&](lang::NodeId child) { open.push_back(child); });
        }
        if (reads)
            found.push_back(i);
    }
    return found;
}

bool SharedPlan::put(const PlainJob::Set& set) {
    const std::uint32_t input = input_.at(set.name); // of this key every job sets the same
    const lang::Sheet& sheet = job_->sheet();
    const lang::Line& line = sheet.lines[job_->plan().inputs[input].line];
    if (line.type.kind == lang::Type::Kind::Choice) {
        const std::vector<std::string>& options = sheet.choices[line.type.choice].options;
        const auto option = std::find(options.begin(), options.end(), set.choice);
        if (option == options.end())
            return false;
        inputs_[input] = static_cast<double>(option - options.begin());
        return true;
    }
    lang::UnitError error{};
    const std::optional<lang::Unit> unit =
        set.choice.empty() ? lang::read_unit(set.unit.empty() ? "1" : set.unit, sheet.units, error)
                           : std::nullopt;
    if (!unit || unit->dim != line.type.unit.dim)
        return false;
    inputs_[input] = lang::conversion(*unit, line.type.unit).apply(set.number);
    return true;
}

// Nothing is to be said of these values: requirements hold, givens are inside their ranges, and
// every figure of the price is a number that is not below zero. All else goes the long way.
bool SharedPlan::is_plain(const Values& values) const {
    const Plan& plan = job_->plan();
    const lang::Sheet& sheet = job_->sheet();
    for (const Slot slot : plan.require_slot)
        if (slot != no_slot && values.slot[slot] != 1)
            return false;
    const auto outside = [&](double value, Slot low, Slot high) {
        return (low != no_slot && !(value >= values.slot[low])) ||
               (high != no_slot && !(value <= values.slot[high]));
    };
    for (std::size_t i = 0; i < sheet.givens.size(); ++i) {
        const Slot given = plan.line_slot[sheet.givens[i].line];
        if (given == no_slot)
            continue;
        const double value = values.slot[given];
        const bool swings = !sheet.givens[i].of_it; // else its bounds are shares of the value
        if (outside(value, plan.within_low[i], plan.within_high[i]) ||
            (swings && outside(value, plan.swing_low[i], plan.swing_high[i])))
            return false;
    }
    return std::all_of(roots_.begin(), roots_.end(), [&](Slot slot) {
        return std::isfinite(values.slot[slot]) && values.slot[slot] >= 0;
    });
}

bool SharedPlan::facts(const PlainJob& from, SeasonJob& to, SeasonMachines& all) {
    if (!plain_ || !std::all_of(from.sets.begin(), from.sets.end(),
                                [&](const PlainJob::Set& set) { return put(set); }))
        return false;
    const Values values = evaluate(job_->plan(), inputs_);
    if (!is_plain(values) || !is_the_week_of_the_season(values))
        return false;
    facts(values, to, all);
    return true;
}

// As it is quoted, to the cent.
double SharedPlan::price(const Values& values) const {
    const lang::Sheet& sheet = job_->sheet();
    const double exact = values.slot[job_->plan().line_slot[sheet.price_total]];
    const double most = most_dollars / static_cast<double>(sheet.prices.size());
    std::int64_t cents = 0;
    for (const lang::PriceItem& item : sheet.prices) {
        if (!(std::fabs(values.slot[job_->plan().line_slot[item.amount]]) < most))
            return exact;
        cents += charged(sheet, job_->plan(), values, item, job_->request().notation).cents;
    }
    return static_cast<double>(cents) / 100;
}

double SharedPlan::together(const std::vector<Counted>& counted, const Values& values) {
    double sum = 0;
    for (const Counted& each : counted)
        sum += at(each.slot, values) * each.scale;
    return sum;
}

// Else there is something to say of it.
bool SharedPlan::is_the_week_of_the_season(const Values& values) const {
    const int open = calendar_->open_weekdays();
    return open == 7 || days_per_week_ == no_slot || values.slot[days_per_week_] == open;
}

// A job of no days is done on the day it starts.
void SharedPlan::stages(const Values& values, SeasonJob& to) const {
    to.calendar = calendar_;
    to.dated_sets = dated_;
    for (const Stage& stage : stages_)
        to.stages.push_back({at(stage.days, values), stage.waits});
}

// Each machine once: in all stages in which it is there, as many as work side by side.
void SharedPlan::uses(const Values& values, SeasonJob& to) const {
    std::map<std::string, std::map<std::size_t, double>> side_by_side;
    std::map<std::string, MachineUse> uses;
    for (const Counted& meter : hours_) {
        const double hours = at(meter.slot, values) * meter.scale;
        if (hours <= 1e-9)
            continue;
        const std::string& name = unit_name(meter.machine, values);
        const auto [use, first] = uses.try_emplace(name);
        use->second.hours += hours;
        side_by_side[name][meter.group] +=
            meter.many == no_slot ? 1 : std::max(1.0, std::ceil(at(meter.many, values) - 1e-9));
        if (first)
            use->second.stages = meter.stages;
        else if (use->second.stages.empty() || meter.stages.empty())
            use->second.stages.clear();
        else
            use->second.stages.insert(use->second.stages.end(), meter.stages.begin(),
                                      meter.stages.end());
        for (const Machine& machine : machines_)
            if (machine.name == name && at(machine.over, values) > 0)
                use->second.fixed += hours * at(machine.fixed, values) / at(machine.over, values);
    }
    for (auto& [name, use] : uses) {
        double most = 1;
        for (const auto& [group, many] : side_by_side[name])
            most = std::max(most, many);
        use.units = static_cast<int>(std::min(most, static_cast<double>(max_units)));
        std::sort(use.stages.begin(), use.stages.end());
        use.stages.erase(std::unique(use.stages.begin(), use.stages.end()), use.stages.end());
        use.machine = name;
        to.fixed += use.fixed;
        to.uses.push_back(std::move(use));
    }
}

void SharedPlan::facts(const Values& values, SeasonJob& to, SeasonMachines& all) {
    const Plan& plan = job_->plan();
    const lang::Sheet& sheet = job_->sheet();
    to.price = price(values);
    to.cost = values.slot[plan.line_slot[sheet.cost_total]];
    to.overhead = overhead_of(sheet, plan, values);
    to.days = together(days_, values);
    to.boundary = boundary_;
    stages(values, to);
    to.gallons = together(gallons_, values);
    to.acres = together(acres_, values);
    uses(values, to);
    for (const Machine& machine : machines_) {
        const std::string& name = unit_name(machine.name, values);
        if (name != machine.name)
            continue;
        const SeasonMachine here{name, machine.label, at(machine.fixed, values),
                                 at(machine.over, values), false};
        const auto [there, added] = all.try_emplace(name, here);
        if (!added && (there->second.fixed_per_year != here.fixed_per_year ||
                       there->second.hours_per_year != here.hours_per_year)) {
            if (here.fixed_per_year > there->second.fixed_per_year)
                there->second = here;
            there->second.disputed = true;
        }
    }
}

} // namespace acre::engine
