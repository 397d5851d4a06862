#include "engine/questions/season/shared_plan.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "engine/plan/plan_roots.h"
#include "engine/questions/charged.h"
#include "engine/questions/earnings.h"
#include "engine/words/money.h"

namespace acre::engine {
namespace {

double at(Slot slot, const Values& values) {
    return slot == no_slot || !std::isfinite(values.slot[slot]) ? 0 : values.slot[slot];
}

} // namespace

SharedPlan::SharedPlan(Job job, const PlainJob* first) : job_(std::move(job)) {
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
    slope_.resize(inputs_.size());
    cost_.emplace(plan, plan.line_slot[sheet.cost_total]);
    days_ = slot("days");
    gallons_ = slot("gallons");
    find_machines();
    roots_ = root_slots(sheet, job_->compiled(), {});
}

Slot SharedPlan::slot(const std::string& name) const {
    const lang::LineId id = job_->sheet().find(name);
    return id == lang::none ? no_slot : job_->plan().line_slot[id];
}

void SharedPlan::find_machines() {
    constexpr std::string_view tail = ".own_per_hour";
    for (const lang::Line& line : job_->sheet().lines) {
        if (!line.name.ends_with(tail))
            continue;
        const std::string name = line.name.substr(0, line.name.size() - tail.size());
        const Machine machine{name, slot(line.name), slot(name + ".fixed_per_year"),
                              slot(name + ".hours_per_year")};
        if (machine.own != no_slot && machine.fixed != no_slot && machine.hours != no_slot)
            machines_.push_back(machine);
    }
}

bool SharedPlan::put(const PlainJob::Set& set) {
    const auto at = input_.find(set.name);
    if (at == input_.end())
        return false;
    const lang::Sheet& sheet = job_->sheet();
    const lang::Line& line = sheet.lines[job_->plan().inputs[at->second].line];
    if (line.type.kind == lang::Type::Kind::Choice) {
        const std::vector<std::string>& options = sheet.choices[line.type.choice].options;
        const auto option = std::find(options.begin(), options.end(), set.choice);
        if (option == options.end())
            return false;
        inputs_[at->second] = static_cast<double>(option - options.begin());
        return true;
    }
    lang::UnitError error{};
    const std::optional<lang::Unit> unit =
        set.choice.empty() ? lang::read_unit(set.unit.empty() ? "1" : set.unit, sheet.units, error)
                           : std::nullopt;
    if (!unit || unit->dim != line.type.unit.dim)
        return false;
    inputs_[at->second] = lang::conversion(*unit, line.type.unit).apply(set.number);
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
        if (outside(value, plan.within_low[i], plan.within_high[i]) ||
            outside(value, plan.swing_low[i], plan.swing_high[i]))
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
    if (!is_plain(values))
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

void SharedPlan::facts(const Values& values, SeasonJob& to, SeasonMachines& all) {
    const Plan& plan = job_->plan();
    const lang::Sheet& sheet = job_->sheet();
    to.price = price(values);
    to.cost = values.slot[plan.line_slot[sheet.cost_total]];
    to.overhead = overhead_of(sheet, plan, values);
    to.days = at(days_, values);
    to.gallons = at(gallons_, values);
    for (const lang::PriceItem& item : sheet.prices)
        if (item.per_text == "ac" && to.acres == 0)
            to.acres = at(plan.line_slot[item.quantity], values);
    // The hours on a machine are what an hour of owning it adds to the cost: the cost is linear in
    // every ownership rate.
    cost_->run(values.slot, slope_, bar_);
    for (const Machine& machine : machines_) {
        const double hours = machine.own < bar_.size() ? bar_[machine.own] : 0;
        if (hours > 1e-9)
            to.hours[machine.name] = hours;
        all.insert_or_assign(machine.name,
                             SeasonMachine{machine.name, at(machine.own, values),
                                           at(machine.fixed, values), at(machine.hours, values)});
    }
}

} // namespace acre::engine
