#include "engine/log/row_work.h"

#include <algorithm>

#include "engine/log/log_cells.h"

namespace acre::engine {
namespace {

// "Excavator 2", "excavators" or "excavator b" beside a machine called excavator.
bool is_one_of(const std::string& name, const std::string& machine) {
    const std::string word = plain_word(name), own = plain_word(machine);
    if (own.empty() || !word.starts_with(own))
        return false;
    std::string_view rest = std::string_view(word).substr(own.size());
    if (rest == "s")
        return true;
    const bool parted = rest.starts_with(' ');
    while (rest.starts_with(' ') || rest.starts_with('#'))
        rest.remove_prefix(1);
    const auto all = [&](auto is) { return std::all_of(rest.begin(), rest.end(), is); };
    return !rest.empty() &&
           (all([](char c) { return c >= '0' && c <= '9'; }) || (parted && rest.size() == 1));
}

// Of the machines of the job the only one that a name may mean; empty: none, or several.
std::string machine_of(const std::string& name, const std::set<std::string>& machines) {
    std::string exact, numbered;
    std::size_t exacts = 0, others = 0;
    for (const std::string& machine : machines)
        if (names_machine(name, machine)) {
            exact = machine;
            ++exacts;
        } else if (is_one_of(name, machine)) {
            numbered = machine;
            ++others;
        }
    if (exacts > 0)
        return exacts == 1 ? exact : std::string();
    return others == 1 ? numbered : std::string();
}

// Services with something done; where a row has nothing but zeros, those that it says so of.
std::set<std::string, std::less<>> services_in(const JobLog& log, const LogRow& row) {
    std::set<std::string, std::less<>> done, said;
    for (const auto& [column, figure] : row.counted)
        if (log.work.contains(column)) {
            said.emplace(service_of(column));
            if (figure > 0)
                done.emplace(service_of(column));
        }
    return done.empty() ? said : done;
}

} // namespace

bool is_work(const CountedLine& line) {
    return line.how == Counting::Work && !line.optional && line.unit != "h";
}

std::string_view service_of(std::string_view name) {
    const std::size_t dot = name.rfind('.');
    return dot == name.npos ? std::string_view() : name.substr(0, dot);
}

std::string_view kind_of(std::string_view machine) {
    return machine.substr(machine.rfind('.') + 1);
}

bool counts_several_kinds(const std::vector<CountedLine>& counted) {
    std::set<std::string_view> kinds;
    for (const CountedLine& line : counted)
        if (line.how == Counting::Meter)
            kinds.insert(kind_of(line.machine));
    return kinds.size() > 1;
}

bool counts_several_services(const std::vector<CountedLine>& counted) {
    std::set<std::string_view> services;
    for (const CountedLine& line : counted)
        if (is_work(line))
            services.insert(service_of(line.name));
    return services.size() > 1;
}

double quoted_hours(const std::vector<CountedLine>& counted, const CountedLine& of) {
    std::vector<CountedLine> own, all;
    for (const CountedLine& line : counted)
        if (line.how == Counting::Meter) {
            all.push_back(line);
            if (of.how == Counting::Work && service_of(line.name) == service_of(of.name))
                own.push_back(line);
        }
    const bool shared = own.empty() && of.how == Counting::Work && counts_several_services(counted);
    const std::vector<CountedLine>& meters = own.empty() ? all : own;
    if (shared || counts_several_kinds(meters))
        return 0;
    double hours = 0;
    for (const CountedLine& line : meters)
        hours += line.quoted;
    return hours;
}

void assign_rows(JobLog& log, const std::vector<CountedLine>& counted) {
    std::set<std::string> machines;
    for (const CountedLine& line : counted) {
        if (line.how == Counting::Meter)
            machines.insert(line.machine);
        if (is_work(line) && log.columns.contains(line.name))
            log.work.insert(line.name);
    }
    const bool kinds = counts_several_kinds(counted);
    std::set<std::string, std::less<>> services;
    for (LogRow& row : log.rows) {
        const std::string machine = machine_of(row.machine, machines);
        row.of = machine.empty() ? row.machine : machine;
        row.kind = kinds ? std::string(kind_of(machine)) : std::string();
        row.services = services_in(log, row);
        services.insert(row.services.begin(), row.services.end());
        for (const auto& [column, figure] : row.counted)
            if (figure > 0 && log.work.contains(column))
                log.kinds_of[std::string(service_of(column))].insert(row.kind);
    }
    log.several_services = services.size() > 1;
}

bool is_of_other_work(const JobLog& log, const LogRow& row, std::string_view column) {
    if (!log.work.contains(column))
        return false;
    const std::string_view service = service_of(column);
    const auto kinds = log.kinds_of.find(service);
    if (!row.kind.empty() && kinds != log.kinds_of.end() && !kinds->second.contains("") &&
        !kinds->second.contains(row.kind))
        return true;
    return !row.services.empty() && !row.services.contains(service);
}

double hours_for(const JobLog& log, const LogRow& row, const std::string& column) {
    if (!log.work.contains(column))
        return row.hours - (log.fuels.contains(column) ? 0 : row.hourly_hours);
    const bool unknown = log.several_services && row.services.empty();
    return unknown || is_of_other_work(log, row, column) ? 0 : row.hours - row.hourly_hours;
}

} // namespace acre::engine
