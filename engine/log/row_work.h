// Which of the job's machines a row of its log is of, and whose work: where several services or
// machines of several kinds stand in one log, the hours of one are no hours of the others.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/log/job_log.h"

namespace acre::engine {

// Work that is done, and neither hours of a truck nor what a log may leave out.
bool is_work(const CountedLine& line);

// The used model that a counted line is of, "leveling" of `leveling.yards`; empty: the job's own.
std::string_view service_of(std::string_view name);

// What kind of machine it is: "rig" of `walt.rig`, which works as `hazel.rig` does.
std::string_view kind_of(std::string_view machine);

// Whether the job counts machines of several kinds, or work of several services.
bool counts_several_kinds(const std::vector<CountedLine>& counted);
bool counts_several_services(const std::vector<CountedLine>& counted);

// The machine hours in which the work or fuel of a line is done, as quoted; 0: nobody can tell, for
// several services or machines of several kinds share them.
double quoted_hours(const std::vector<CountedLine>& counted, const CountedLine& of);

// Puts into a log what its rows are of.
void assign_rows(JobLog& log, const std::vector<CountedLine>& counted);

// Whether the hours of a row are of other work than a column's: the row has a figure of another
// service, or its kind of machine never does this work and another kind does.
bool is_of_other_work(const JobLog& log, const LogRow& row, std::string_view column);

// Hours of a row in which a column is done: what is billed by the hour makes no acres, but burns.
// In a log of several services nobody knows of which one a row is that names no work.
double hours_for(const JobLog& log, const LogRow& row, const std::string& column);

} // namespace acre::engine
