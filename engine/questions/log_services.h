// What the log of a job of several services says of each of them.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/log/job_log.h"

namespace acre::engine {

class LogServices {
  public:
    LogServices(const std::vector<CountedLine>& counted, const JobLog& log,
                const LogTotals& totals);

    // The job has several, and the log a column of one of them.
    bool several() const { return several_; }
    // Meter hours of a line whose machine works in several services, where each of its rows says of
    // which one it is.
    std::optional<double> hours(const CountedLine& meter) const;
    // What share of the work of a service the log has; 0: none, or it does not say.
    double share(std::string_view service) const;
    // The same of the whole job, each service by the machine hours quoted for it.
    double share_of_all() const;

  private:
    using ByService = std::map<std::string, const CountedLine*, std::less<>>;
    void find_hours(const std::string& machine, const ByService& meters, bool only_machine);

    const std::vector<CountedLine>& counted_;
    const JobLog& log_;
    bool several_ = false;
    std::map<std::string, double, std::less<>> shares_;
    std::string own_; // the service that the work of the job's own model is of; or empty
    std::map<const CountedLine*, double> hours_;
};

} // namespace acre::engine
