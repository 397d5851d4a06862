// A job that names boundary files: they are laid out with the job's own spacing, and what comes out
// is set in the job.
//
// The model says how by lines of these names (below an entry's name for a part `each` of a list):
//   layout_spacing            from line to line; must be there
//   layout_passes             lines beside each other that rip a row; 1 if not there
//   layout_pass_spacing       from one of them to the next; spread evenly if not there
//   layout_headland, layout_row_ends, layout_offset, layout_turn_circle
//                             lengths; 0 (offset: half a spacing) if not there
//   layout_cross_spacing      a second layout across the first, for cross-ripping; 0 or not there:
//                             none
//   layout_row_spacing        between the rows that are planted, whatever is ripped; 0 or not
//                             there: their length is not laid out
//   speed, turn               for the best heading, where the job names none
// and it is given, where it has givens of these names:
//   gross, area, run, cross_run, travel, pulls, rows (length of the planted rows)
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::engine {

// Steps of reading boundaries and laying them out, of all fields of a job together: a few seconds.
inline constexpr std::size_t most_job_field_effort = 400'000'000;

// True if the job or one of its entries names a boundary.
bool names_boundaries(const lang::Sheet& sheet);

// Lays all of them out. `sets` becomes the text of `set` statements for lang::Request::field_sets;
// `sources` gets the boundaries' texts, so that what is said can point into them. False: the
// diagnostics say why; B907: more than the limits above.
bool lay_job_fields(const PricedJob& job, lang::Loader& loader, std::vector<JobField>& fields,
                    std::string& sets, lang::SourceMap& sources, lang::Diagnostics& diagnostics);

} // namespace acre::engine
