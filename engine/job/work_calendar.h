// The days on which a firm works: all but those that its season says are closed. Days are counted
// from 1970-01-01 (lang/units/calendar.h). Every walk is bounded by the days of work asked for and
// by the days that are closed.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lang/syntax/ast.h"

namespace acre::engine {

class WorkCalendar {
  public:
    explicit WorkCalendar(const std::vector<lang::ast::Closed>& closed);

    bool is_open(long day) const { return closed_until(day) < day; }
    // The day itself or the first open one after it. At least one day of the week is open
    // (lang/syntax sees to that).
    long next_open(long day) const;
    int open_weekdays() const; // of a week: 7 where no day of the week is closed
    // Why a day is closed: the label of a holiday, else the day of the week. Empty: it is open.
    std::string why_closed(long day) const;

  private:
    struct Span {
        long first, last;
        std::string label;
    };
    long closed_until(long day) const; // last day of the span it is in; before `day`: none

    bool weekday_closed_[7] = {};
    std::vector<Span> spans_;  // as the season says them
    std::vector<Span> merged_; // by first day, apart from each other
};

long day_of(const lang::ast::Date& date); // since 1970-01-01

} // namespace acre::engine
