// What the log of a job comes to, worked out by hand from the figures that went into it.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "tests/fuzz/naive/drawn_log.h"

namespace acre::fuzz::naive {

struct ByHand {
    double quantity = 0, rate = 0, amount = 0; // of a cost, scaled to the whole job
    bool rate_known = false;
    std::optional<engine::Counting> from; // empty: as quoted
    std::string column;                   // of fuel and work
    double expected = 0, run = 0;         // of fuel: hours of what burns it, quoted and logged
};

class LogByHand {
  public:
    explicit LogByHand(const DrawnLog& drawn);

    double hours() const;
    double hourly() const; // of these, billed by the hour
    double quoted_hours() const;
    double days() const;      // with work
    double share() const;     // of the whole job
    double scaled_by() const; // so that it stands for all of it
    // Unscaled, with days that were left empty like the others.
    std::optional<double> logged(const engine::CountedLine& line) const;
    std::optional<engine::Learned> per_hour(const engine::CountedLine& line) const;
    ByHand cost(const engine::QuotedCost& cost) const;
    double mean_fuel_price() const; // 0: none
    double waited() const;
    double spent() const;
    bool any(Column column) const;
    bool told_twice() const; // hours of one meter, however it is called
    // The machine whose burn the log tells; empty: of several.
    std::string fuel_machine() const;
    std::vector<std::string> unlogged_machines() const;

  private:
    using Meters = std::vector<const engine::CountedLine*>;

    double sum(Column column) const;
    double filled(const engine::CountedLine& line) const;
    int tenths_for(const engine::CountedLine& line, const LoggedRow& row) const;
    const engine::CountedLine* line(const std::string& name) const;
    std::string kind_of(std::size_t machine) const;
    std::string kind_of(const LoggedRow& row) const; // empty: nobody can tell
    bool is_of_other_work(Column column, const LoggedRow& row) const;
    bool is_unlogged(const engine::CountedLine& meter) const;
    bool all_are_logged() const { return unlogged_machines().empty(); }
    std::string meter_of(const LoggedRow& row) const;
    void find_hours();
    void find_parts();
    // The meters of a cost: one; several, for all hours; or none.
    Meters meters_of(const engine::QuotedCost& cost) const;
    const engine::CountedLine* own_meter(const engine::QuotedCost& cost) const;
    std::optional<double> own_fuel(const engine::QuotedCost& cost) const;
    // Hours of what a cost is of, as quoted and as logged: of one machine, less those that other
    // machines of its parts have, or of all. Empty: the log does not have them.
    struct Hours {
        double quoted = 0, run = 0;
    };
    std::optional<Hours> hours_of(const engine::QuotedCost& cost) const;
    void quantity(const engine::QuotedCost& cost, ByHand& by_hand) const;

    const DrawnLog& drawn_;
    Meters meters_;             // that the job counts
    std::vector<double> hours_; // of each machine, those of no known one shared out
    std::map<std::string, Meters> meters_of_part_; // whose hours they are
    std::map<std::string, Meters> less_of_part_;   // and of which hours they are none
};

} // namespace acre::fuzz::naive
