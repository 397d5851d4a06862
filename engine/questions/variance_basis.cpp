#include "engine/questions/variance_basis.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/log/row_work.h"

namespace acre::engine {
namespace {

bool same(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::abs(b);
}

} // namespace

Basis::Basis(const Quoted& quoted, const JobLog& log, const LogTotals& totals)
    : quoted_(quoted),
      log_(log),
      totals_(totals),
      services_(quoted.counted, log, totals),
      finished_(quoted.finished),
      meter_hours_(meter_hours(totals, quoted.counted)) {
    for (const CountedLine& line : quoted.counted)
        if (line.how == Counting::Meter)
            hours_ += line.quoted;
    find_parts();
}

bool Basis::is_unlogged(const CountedLine& meter) const {
    if (meter.how != Counting::Meter || !(meter.quoted > 0) || meter_hours_.at(meter.machine) > 0 ||
        hours_of(totals_, meter.machine))
        return false;
    return totals_.hours > 0 &&
           std::none_of(meter_hours_.begin(), meter_hours_.end(), [&](const auto& other) {
               return other.second > 0 && kind_of(other.first) == kind_of(meter.machine);
           });
}

std::vector<std::string> Basis::unlogged_machines() const {
    std::set<std::string> machines;
    for (const CountedLine& line : quoted_.counted)
        if (is_unlogged(line))
            machines.insert(line.machine);
    return {machines.begin(), machines.end()};
}

bool Basis::has_log(const CountedLine& line) const {
    if (!finished_ && is_of_service(line) && !(services_.share(service_of(line.name)) > 0))
        return false; // it has not begun
    switch (line.how) {
    case Counting::Meter:
        return hours_ > 0 && !is_unlogged(line);
    case Counting::Days: // of a machine that is not in the log neither are its days and fuel
        return totals_.days > 0 && unlogged_machines().empty();
    case Counting::Fuel:
        return log_.columns.contains(line.name) && unlogged_machines().empty();
    default:
        return log_.columns.contains(line.name);
    }
}

double Basis::logged(const CountedLine& line) const {
    return scale_of(line) * so_far(line);
}

bool Basis::is_of_service(const CountedLine& line) const {
    return services_.several() && line.name.find('.') != std::string::npos &&
           (line.how == Counting::Meter || is_work(line));
}

double Basis::scale_of(const CountedLine& line) const {
    if (!by_service() || (!is_of_service(line) && !log_.work.contains(line.name)))
        return scale_;
    const double share = services_.share(service_of(line.name));
    return share > 0 && share < 1 ? 1 / share : 1;
}

double Basis::so_far(const CountedLine& line) const {
    switch (line.how) {
    case Counting::Meter:
        if (const auto own = services_.hours(line))
            return *own;
        return of_machine(line, meter_hours_.at(line.machine));
    case Counting::Days:
        return static_cast<double>(totals_.days);
    default:
        const auto done = totals_.counted.find(line.name);
        return done == totals_.counted.end() ? 0 : done->second * filled(totals_, line.name);
    }
}

std::pair<double, double> Basis::hours_of_cost(const QuotedCost& cost) const {
    const CountedLine* own = own_meter(cost);
    const auto part = parts_.find(cost.part);
    const bool by_part = own == nullptr && part != parts_.end();
    if (by_part)
        own = part->second;
    if (own == nullptr)
        return {hours_, hours_logged()};
    std::pair hours(own->quoted, logged(*own));
    if (const auto less = less_.find(cost.part); by_part && less != less_.end())
        for (const CountedLine* other : less->second) {
            hours.first -= other->quoted;
            hours.second = std::max(0.0, hours.second - logged(*other));
        }
    return hours;
}

double Basis::share() const {
    if (by_service())
        return services_.share_of_all();
    for (const CountedLine& line : quoted_.counted)
        if (line.how == Counting::Work && !line.optional && line.quoted > 0 &&
            line.name.find('.') == std::string::npos && has_log(line))
            return so_far(line) / line.quoted;
    return hours_ > 0 ? totals_.hours / hours_ : 0;
}

const CountedLine* Basis::line_of(const QuotedCost& cost) const {
    for (const CountedLine& line : quoted_.counted)
        if (is_over(cost, line) && has_log(line))
            return &line;
    const CountedLine* found = nullptr;
    for (const CountedLine& line : quoted_.counted) {
        if (line.unit != cost.quantity_unit || !has_log(line))
            continue;
        // Hours that no meter tells are those of the one cost alone.
        if (line.how == Counting::Work && (line.unit == "h" || !(line.quoted > 0)))
            continue;
        if (line.how == Counting::Meter && !is_by_meter(cost))
            continue;
        if (found != nullptr && found->how != Counting::Meter)
            return nullptr; // of two that it could be
        found = &line;
    }
    if (found == nullptr && (cost.quantity_unit == "trip" || cost.quantity_unit == "night"))
        for (const CountedLine& line : quoted_.counted)
            if (line.how == Counting::Days && line.quoted > 0 && has_log(line))
                found = &line;
    return found;
}

bool Basis::is_by_meter(const QuotedCost& cost) const {
    if (const CountedLine* own = own_meter(cost))
        return has_log(*own);
    const auto part = parts_.find(cost.part);
    if (part == parts_.end())
        return false;
    if (part->second == nullptr) // by the hours of all, which the log then has
        return unlogged_machines().empty();
    if (!has_log(*part->second))
        return false;
    const auto less = less_.find(cost.part);
    return less == less_.end() ||
           std::all_of(less->second.begin(), less->second.end(),
                       [&](const CountedLine* other) { return has_log(*other); });
}

double Basis::quantity(const QuotedCost& cost, const CountedLine& line) const {
    if (is_over(cost, line) && (line.how != Counting::Meter || is_alone(cost, line)))
        return logged(line);
    if (line.how == Counting::Meter) {
        const auto [expected, run] = hours_of_cost(cost);
        return cost.quantity * run / expected;
    }
    if (const auto share = fuel_share(cost, line))
        return logged(line) * *share;
    // Of fuel and days in records that do not say how many were quoted there is one cost.
    return line.quoted > 0 ? cost.quantity * logged(line) / line.quoted : logged(line);
}

double Basis::of_machine(const CountedLine& meter, double run) const {
    double hours = 0, meters = 0;
    for (const CountedLine& line : quoted_.counted)
        if (line.how == Counting::Meter && line.machine == meter.machine) {
            hours += line.quoted;
            ++meters;
        }
    return hours > 0 ? run * meter.quoted / hours : run / meters;
}

bool Basis::is_over(const QuotedCost& cost, const CountedLine& line) {
    return std::find(line.costs.begin(), line.costs.end(), cost.name) != line.costs.end();
}

bool Basis::is_alone(const QuotedCost& cost, const CountedLine& line) const {
    return std::none_of(
        quoted_.counted.begin(), quoted_.counted.end(),
        [&](const CountedLine& other) {
            return &other != &line && other.how == Counting::Meter && is_over(cost, other);
        });
}

const CountedLine* Basis::own_meter(const QuotedCost& cost) const {
    const std::string_view entry = service_of(cost.name);
    const CountedLine* found = nullptr;
    for (const CountedLine& line : quoted_.counted) {
        if (line.how != Counting::Meter || !(line.quoted > 0) || service_of(line.name) != entry)
            continue;
        if (found != nullptr || entry.empty())
            return nullptr;
        found = &line;
    }
    return found;
}

std::optional<double> Basis::fuel_share(const QuotedCost& cost, const CountedLine& line) const {
    const CountedLine* own = own_meter(cost);
    if (line.how != Counting::Fuel || own == nullptr || log_.fuels.size() != 1)
        return std::nullopt;
    std::map<std::string, double> quoted; // by machine
    for (const QuotedCost& other : quoted_.costs)
        if (other.quantity_unit == line.unit) {
            const CountedLine* meter = own_meter(other);
            if (meter == nullptr)
                return std::nullopt;
            quoted[meter->machine] += other.quantity;
        }
    double all = 0, its = 0;
    for (const auto& [name, fuel] : totals_.machine_fuel) {
        const std::optional<std::string> machine = only_machine(name);
        if (!machine || !quoted.contains(*machine) || !(quoted.at(*machine) > 0))
            return std::nullopt;
        all += fuel;
        its += *machine == own->machine ? fuel : 0;
    }
    if (!(all > 0))
        return std::nullopt;
    return its > 0 ? its / all * cost.quantity / quoted.at(own->machine) : 0;
}

std::optional<std::string> Basis::only_machine(const std::string& name) const {
    std::optional<std::string> only;
    for (const auto& one : meter_hours_)
        if (names_machine(name, one.first)) {
            if (only)
                return std::nullopt;
            only = one.first;
        }
    return only;
}

void Basis::find_parts() {
    std::map<std::string, double> only; // parts with hours of one figure; 0: of several
    for (const QuotedCost& cost : quoted_.costs) {
        if (cost.quantity_unit != "h" || !(cost.quantity > 0))
            continue;
        const auto [part, first] = only.emplace(cost.part, cost.quantity);
        if (!first && !same(part->second, cost.quantity))
            part->second = 0;
        for (const CountedLine& line : quoted_.counted)
            if (line.how == Counting::Meter && same(cost.quantity, line.quoted))
                done_by(cost.part, line);
    }
    std::erase_if(only, [](const auto& part) { return part.second == 0; });
    const auto whole = parts_; // a part may have another machine that works along
    for (const CountedLine& line : quoted_.counted)
        if (line.how == Counting::Meter && line.quoted > 0 &&
            std::none_of(quoted_.costs.begin(), quoted_.costs.end(), [&](const auto& cost) {
                return cost.quantity_unit == "h" && same(cost.quantity, line.quoted);
            }))
            for (const std::vector<std::string> parts = sharing(only, line.quoted);
                 const std::string& part : parts) {
                if (whole.contains(part))
                    continue;
                done_by(part, line);
                for (const std::string& other : parts)
                    if (const auto own = whole.find(other);
                        own != whole.end() && own->second != nullptr)
                        less_[part].push_back(own->second);
            }
}

void Basis::done_by(const std::string& part, const CountedLine& meter) {
    const auto [at, is_new] = parts_.emplace(part, &meter);
    at->second = is_new || at->second == &meter ? &meter : nullptr;
}

std::vector<std::string> Basis::sharing(const std::map<std::string, double>& only, double hours) {
    constexpr std::size_t most_parts = 10;
    const std::vector<std::pair<std::string, double>> parts(only.begin(), only.end());
    std::vector<std::string> found;
    for (std::size_t choice = 1; parts.size() <= most_parts && choice >> parts.size() == 0;
         ++choice) {
        double sum = 0;
        std::vector<std::string> names;
        for (std::size_t i = 0; i < parts.size(); ++i)
            if ((choice >> i & 1) != 0) {
                sum += parts[i].second;
                names.push_back(parts[i].first);
            }
        if (!same(sum, hours))
            continue;
        if (!found.empty())
            return {};
        found = std::move(names);
    }
    return found;
}

} // namespace acre::engine
