// What the log of a job comes to, worked out by hand from the figures that went into it.
#pragma once

#include <optional>
#include <string>

#include "tests/fuzz/naive/drawn_log.h"

namespace acre::fuzz::naive {

struct ByHand {
    double quantity = 0, rate = 0, amount = 0; // of a cost, scaled to the whole job
    bool rate_known = false;
    std::optional<engine::Counting> from; // empty: as quoted
    std::string column;
};

class LogByHand {
  public:
    explicit LogByHand(const DrawnLog& drawn) : drawn_(drawn) {}

    double hours() const { return hours_of({}); }
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

  private:
    // Of one machine: by the first word of its name.
    double hours_of(const std::string& machine) const;
    bool by_machine() const;
    double sum(Column column) const;
    double filled(Column column) const;
    bool done_by_machine(const std::string& part) const;
    const engine::CountedLine* line(const std::string& name) const;
    void quantity(const engine::QuotedCost& cost, ByHand& by_hand) const;

    const DrawnLog& drawn_;
};

} // namespace acre::fuzz::naive
