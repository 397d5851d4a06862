// Where the quantity of each cost of a quote is from in a log.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/questions/log_services.h"
#include "engine/questions/variance.h"

namespace acre::engine {

// What the quote counts against what the log says of it.
class Basis {
  public:
    Basis(const Quoted& quoted, const JobLog& log, const LogTotals& totals);

    double hours() const { return hours_; } // of all machines, as quoted
    bool has_log(const CountedLine& line) const;
    double logged(const CountedLine& line) const;
    // As the log has it.
    double so_far(const CountedLine& line) const;
    double hours_logged() const { return scale_ * totals_.hours; }
    // Hours of the machine that a cost is of, as quoted and as logged; of all where it is of none.
    std::pair<double, double> hours_of_cost(const QuotedCost& cost) const;

    // The machines with hours in the quote of which the log says nothing.
    std::vector<std::string> unlogged_machines() const;

    // Each service is scaled by itself.
    bool by_service() const { return !finished_ && services_.several(); }

    // What share of the job the log has: by the work of its own model, else by its meter.
    double share() const;
    void scale(double by) { scale_ = by; }

    // The line that the quantity of a cost goes with; null: it is as quoted.
    const CountedLine* line_of(const QuotedCost& cost) const;
    double quantity(const QuotedCost& cost, const CountedLine& line) const;

  private:
    // No row is of this machine, though others are called as the quote calls them: its hours are
    // not known. One of its kind that has hours may have done its work.
    bool is_unlogged(const CountedLine& meter) const;
    // A machine may work in several parts of the job, or be there though none was quoted.
    double of_machine(const CountedLine& meter, double run) const;
    // In a job that is not finished each service is scaled by its own work, and one that has not
    // begun is as quoted.
    bool is_of_service(const CountedLine& line) const;
    double scale_of(const CountedLine& line) const;
    // Whether the hours of a cost are those of a meter, or several, that the log has.
    bool is_by_meter(const QuotedCost& cost) const;
    static bool is_over(const QuotedCost& cost, const CountedLine& line);
    // Over the hours of one machine.
    bool is_alone(const QuotedCost& cost, const CountedLine& line) const;
    // The meter of the machine that a cost is of, as `hazel.fuel` is of that of
    // `hazel.machine_hours`; null: not of one alone.
    const CountedLine* own_meter(const QuotedCost& cost) const;
    // Of all fuel, what a cost of one machine has: where each row with fuel is of one with a cost
    // of fuel, and each such cost of one machine. Several of one machine share its fuel as quoted.
    std::optional<double> fuel_share(const QuotedCost& cost, const CountedLine& line) const;
    // Empty: the job has none of this name, or several.
    std::optional<std::string> only_machine(const std::string& name) const;
    // Parts of the job with a cost over all hours of a machine, or that share its hours between
    // them: what is disced and what is floated are together the hours of the tractor.
    void find_parts();
    void done_by(const std::string& part, const CountedLine& meter);
    // The parts whose hours come to these; none where several choices do.
    static std::vector<std::string> sharing(const std::map<std::string, double>& only,
                                            double hours);

    const Quoted& quoted_;
    const JobLog& log_;
    const LogTotals& totals_;
    LogServices services_;
    bool finished_;
    std::map<std::string, double> meter_hours_; // of the log, by machine
    double hours_ = 0, scale_ = 1;
    // Those done by a machine of the log, and by which; null: by several. The hours of a truck in
    // the move are no hours of the machine.
    std::map<std::string, const CountedLine*> parts_;
    // Where a part shares the hours of a machine with others that have meters of their own: these
    // meters, whose hours are not the part's.
    std::map<std::string, std::vector<const CountedLine*>> less_;
};

} // namespace acre::engine
