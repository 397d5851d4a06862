// What a season sets for the jobs of some days alone: `set crew.time = off_season within 2027-11-15
// .. 2028-02-28`. The job's date, its earliest start, decides; beside it stands what the season
// sets for the rest of the year.
#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "lang/check/resolve/resolution.h"
#include "lang/syntax/ast.h"

namespace acre::lang::resolving {

class DatedSets {
  public:
    explicit DatedSets(Resolution& r);

    // Whether it holds for the job. `over`: how many lists the line is set for all entries of.
    // I604: another holds on one of its days. L839: the job has no date.
    bool take(const ast::Set& set, LineId line, std::uint32_t over);

  private:
    Resolution& r_;
    std::optional<ast::Date> date_; // of the job
    std::map<std::pair<LineId, std::uint32_t>, std::vector<const ast::Set*>> before_;
};

} // namespace acre::lang::resolving
