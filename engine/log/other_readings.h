// The readings of one meter in other logs, to be looked up by day and by hour.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "engine/log/log_checks.h"

namespace acre::engine {

using MeterReading = LogContext::Reading;

class OfOneMeter {
  public:
    void add(const MeterReading& reading) { by_start_.push_back(&reading); }
    void sort() {
        by_day_ = by_start_;
        std::sort(
            by_start_.begin(), by_start_.end(),
            [](const MeterReading* a, const MeterReading* b) { return a->start < b->start; });
        std::sort(by_day_.begin(), by_day_.end(),
                  [](const MeterReading* a, const MeterReading* b) { return a->date < b->date; });
        for (const MeterReading* one : by_day_)
            highest_.push_back(
                highest_.empty() || one->stop > highest_.back()->stop ? one : highest_.back());
        for (auto one = by_day_.rbegin(); one != by_day_.rend(); ++one)
            lowest_.push_back(
                lowest_.empty() || (*one)->start < lowest_.back()->start ? *one : lowest_.back());
        std::reverse(lowest_.begin(), lowest_.end());
    }
    // A reading of an earlier day that is above this one, of a later day below it, or over the same
    // hours; null: there is none.
    const MeterReading* before(const std::string& day, double start) const {
        const std::size_t count = up_to(day);
        return count > 0 && highest_[count - 1]->stop > start + 1e-9 ? highest_[count - 1]
                                                                     : nullptr;
    }
    const MeterReading* after(const std::string& day, double stop) const {
        const auto later = std::upper_bound(
            by_day_.begin(), by_day_.end(), day,
            [](const std::string& date, const MeterReading* one) { return date < one->date; });
        const auto at = static_cast<std::size_t>(later - by_day_.begin());
        return at < lowest_.size() && lowest_[at]->start < stop - 1e-9 ? lowest_[at] : nullptr;
    }
    const MeterReading* over(double start, double stop) const {
        const auto first = std::lower_bound(
            by_start_.begin(), by_start_.end(), start - 24,
            [](const MeterReading* one, double hour) { return one->start < hour; });
        for (auto one = first; one != by_start_.end() && (*one)->start < stop - 1e-9; ++one)
            if ((*one)->stop > start + 1e-9)
                return *one;
        return nullptr;
    }

  private:
    std::vector<const MeterReading*> by_start_, by_day_, highest_, lowest_;

    std::size_t up_to(const std::string& day) const { // readings of days before it
        const auto end = std::lower_bound(
            by_day_.begin(), by_day_.end(), day,
            [](const MeterReading* one, const std::string& date) { return one->date < date; });
        return static_cast<std::size_t>(end - by_day_.begin());
    }
};

} // namespace acre::engine
