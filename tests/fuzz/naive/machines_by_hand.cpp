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
            for (const std::string& part : found[0])
                sharing[part].push_back(meter);
    meters_of_part_.merge(sharing); // which leaves those that are there
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
        if (one.whose.size() == 1)
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
