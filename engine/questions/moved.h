// A job with other values of its givens, without reading its texts again: what somebody sees who
// moves a figure and watches the price.
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "engine/job/priced_job.h"

namespace acre::engine {

// `sets`: name and value as `--set` takes them. Null where that is not enough, and the job has to
// be made anew with these sets: a name that is no given of its own, a value that is no quantity of
// its unit, a boundary that is laid out otherwise with these values. Every figure is the same as
// that of the job made anew; who set a given is told as before.
Job moved(const PricedJob& job, std::span<const std::pair<std::string, std::string>> sets);

// What a layout of its boundaries reads of a job (engine/job/job_fields.h): lines by name, with
// their values; no answer is NaN.
using LaidBy = std::vector<std::pair<std::string, double>>;
LaidBy laid_by(const PricedJob& job);
bool laid_alike(const LaidBy& before, const LaidBy& after);

} // namespace acre::engine
