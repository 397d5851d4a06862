// Whose the hours of a log are, worked out by hand.
#include <algorithm>
#include <cctype>
#include <utility>

#include "tests/fuzz/naive/log_by_hand.h"

namespace acre::fuzz::naive {

using engine::CountedLine;
using engine::Counting;
using engine::QuotedCost;

namespace {

std::string entry_of(const std::string& name) {
    return name.find('.') == std::string::npos ? "" : name.substr(0, name.find('.'));
}

// Every choice of some of these whose figures come to so much.
using Figures = std::vector<std::pair<std::string, double>>;
std::vector<std::set<std::string>> choices(Figures from, double sum) {
    if (from.empty())
        return sum == 0 ? std::vector<std::set<std::string>>{{}}
                        : std::vector<std::set<std::string>>{};
    const auto [name, figure] = from.back();
    from.pop_back();
    std::vector<std::set<std::string>> all = choices(from, sum);
    for (std::set<std::string> with : choices(std::move(from), sum - figure)) {
        with.insert(name);
        all.push_back(std::move(with));
    }
    return all;
}

} // namespace

LogByHand::LogByHand(const DrawnLog& drawn) : drawn_(drawn) {
    for (const CountedLine& one : drawn.quoted.counted)
        if (one.how == Counting::Meter)
            meters_.push_back(&one);
    find_hours();
    find_parts();
}

// Each row's hours go to the machine that it names, or are shared between those that it may mean.
// Of a name that the job does not have they go to the machines that no row names, if hours of such
// are quoted, or else to all.
void LogByHand::find_hours() {
    const std::size_t count = drawn_.machines.size();
    std::vector<double> quoted(count, 0);
    for (std::size_t i = 0; i < count; ++i)
        for (const CountedLine* meter : meters_)
            quoted[i] += meter->machine == drawn_.machines[i] ? meter->quoted : 0;
    std::set<std::size_t> all, unnamed;
    double hours_unnamed = 0;
    for (std::size_t i = 0; i < count; ++i) {
        all.insert(i);
        if (std::none_of(drawn_.rows.begin(), drawn_.rows.end(),
                         [&](const LoggedRow& row) { return row.whose.contains(i); })) {
            unnamed.insert(i);
            hours_unnamed += quoted[i];
        }
    }
    hours_.assign(count, 0);
    for (const LoggedRow& row : drawn_.rows) {
        const std::set<std::size_t>& whose = !row.whose.empty()  ? row.whose
                                             : hours_unnamed > 0 ? unnamed
                                                                 : all;
        double together = 0;
        for (const std::size_t i : whose)
            together += quoted[i];
        for (const std::size_t i : whose)
            hours_[i] += row.tenths / 10.0 * (whose.size() == 1 ? 1 : quoted[i] / together);
    }
}

// Parts with a cost over all hours of a meter are of it. Of a meter that no cost has whole, parts
// with hours of one figure are that come to them together, if only these do; but those of another
// meter, along which it works, stay the other's.
void LogByHand::find_parts() {
    std::map<std::string, std::set<double>> figures;
    for (const QuotedCost& cost : drawn_.quoted.costs)
        if (cost.quantity_unit == "h" && cost.quantity > 0)
            figures[cost.part].insert(cost.quantity);
    Meters shared;
    for (const CountedLine* meter : meters_) {
        bool whole = false;
        for (const auto& [part, of_part] : figures)
            if (of_part.contains(meter->quoted)) {
                meters_of_part_[part].push_back(meter);
                whole = true;
            }
        if (!whole && meter->quoted > 0)
            shared.push_back(meter);
    }
    Figures from;
    for (const auto& [part, of_part] : figures)
        if (of_part.size() == 1)
            from.emplace_back(part, *of_part.begin());
    std::map<std::string, Meters> sharing;
    for (const CountedLine* meter : shared)
        if (const auto found = choices(from, meter->quoted); found.size() == 1)
            for (const std::string& part : found[0]) {
                if (meters_of_part_.contains(part))
                    continue;
                sharing[part].push_back(meter);
                for (const std::string& other : found[0])
                    if (const auto its = meters_of_part_.find(other);
                        its != meters_of_part_.end() && its->second.size() == 1)
                        less_of_part_[part].push_back(its->second[0]);
            }
    meters_of_part_.merge(sharing);
}

std::string LogByHand::kind_of(std::size_t machine) const {
    const std::string& name = drawn_.machines[machine];
    return name.find('.') == std::string::npos ? name : name.substr(name.find('.') + 1);
}
std::string LogByHand::kind_of(const LoggedRow& row) const {
    return row.whose.size() == 1 ? kind_of(*row.whose.begin()) : "";
}

// A machine with hours in the quote that no row is of, nor of another of its kind, which may have
// done its work.
std::vector<std::string> LogByHand::unlogged_machines() const {
    std::set<std::string> kinds, quoted, found;
    for (std::size_t i = 0; i < hours_.size(); ++i)
        if (hours_[i] > 0)
            kinds.insert(kind_of(i));
    for (const LoggedRow& row : drawn_.rows)
        for (const std::size_t i : row.whose)
            quoted.insert(drawn_.machines[i]);
    for (const CountedLine* meter : meters_)
        for (std::size_t i = 0; i < hours_.size(); ++i)
            if (drawn_.machines[i] == meter->machine && meter->quoted > 0 && hours() > 0 &&
                !kinds.contains(kind_of(i)) && !quoted.contains(meter->machine))
                found.insert(meter->machine);
    return {found.begin(), found.end()};
}
bool LogByHand::is_unlogged(const CountedLine& meter) const {
    const std::vector<std::string> all = unlogged_machines();
    return meter.quoted > 0 && std::find(all.begin(), all.end(), meter.machine) != all.end();
}

std::optional<LogByHand::Hours> LogByHand::hours_of(const QuotedCost& cost) const {
    const Meters meters = meters_of(cost);
    if (meters.size() != 1)
        return all_are_logged() ? std::optional(Hours{quoted_hours(), hours()}) : std::nullopt;
    Hours own{meters[0]->quoted, 0};
    Meters less;
    if (own_meter(cost) == nullptr)
        if (const auto others = less_of_part_.find(cost.part); others != less_of_part_.end())
            less = others->second;
    if (is_unlogged(*meters[0]) ||
        std::any_of(less.begin(), less.end(), [&](const auto* one) { return is_unlogged(*one); }))
        return std::nullopt;
    own.run = *logged(*meters[0]);
    for (const CountedLine* other : less) {
        own.quoted -= other->quoted;
        own.run -= *logged(*other);
    }
    own.run = std::max(own.run, 0.0);
    return own;
}

const CountedLine* LogByHand::own_meter(const QuotedCost& cost) const {
    Meters own;
    for (const CountedLine* meter : meters_)
        if (!entry_of(cost.name).empty() && entry_of(meter->name) == entry_of(cost.name) &&
            meter->quoted > 0)
            own.push_back(meter);
    return own.size() == 1 ? own[0] : nullptr;
}

LogByHand::Meters LogByHand::meters_of(const QuotedCost& cost) const {
    if (const CountedLine* own = own_meter(cost))
        return {own};
    const auto part = meters_of_part_.find(cost.part);
    return part == meters_of_part_.end() ? Meters() : part->second;
}

std::string LogByHand::fuel_machine() const {
    return meters_.size() == 1 ? meters_[0]->machine : "";
}

// A row of a name that the job has is of that machine's meter. Where the job has one machine and
// the log names one, rows without a name are of it.
std::string LogByHand::meter_of(const LoggedRow& row) const {
    const auto named = [&](const LoggedRow& one) {
        if (one.whose.size() == 1 && !one.numbered)
            return drawn_.machines[*one.whose.begin()];
        std::string word;
        for (const char c : one.machine)
            word += static_cast<char>(std::tolower(c));
        return word.substr(0, word.find_last_not_of(' ') + 1);
    };
    if (!row.machine.empty() || drawn_.machines.size() > 1)
        return named(row);
    std::set<std::string> names;
    for (const LoggedRow& one : drawn_.rows)
        if (!one.machine.empty())
            names.insert(named(one));
    return names.size() == 1 ? *names.begin() : "";
}
bool LogByHand::told_twice() const {
    for (const LoggedRow& row : drawn_.rows)
        for (const LoggedRow& other : drawn_.rows)
            if (&row != &other && row.tenths > 0 && row.start <= other.start &&
                other.start < row.start + row.tenths && other.tenths > 0 &&
                meter_of(row) == meter_of(other))
                return true;
    return false;
}

} // namespace acre::fuzz::naive
