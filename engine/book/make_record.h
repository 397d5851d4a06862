// The record of a quote from a priced job: every text it was made from, every value with its place
// and reason, every line, the price in cents. From the texts alone the price can be worked out
// again, whatever happened to the files since.
#pragma once

#include <map>
#include <string>

#include "engine/book/record.h"
#include "engine/job/priced_job.h"
#include "engine/questions/estimate.h"
#include "engine/questions/risk/points.h"

namespace acre::engine {

// What follows from the job alone: no number, no dates, no people, no page. Carries its texts. A
// line without an answer has no value. `sealed`: a record that carries texts whose seals are known;
// those of them that the job was made from are not sealed again.
QuoteRecord quote_of(const PricedJob& job, const Estimate& estimate,
                     const QuoteRecord* sealed = nullptr);

// The items of an estimate as a record has them.
std::vector<RecordItem> items_of(const Estimate& estimate);

// What the customer sees of each block of the job.
std::vector<RecordBlock> record_blocks(const PricedJob& job, const Estimate& estimate);

// How cost, contribution and profit fall; empty of a job in which nothing swings. The same trials
// and seed give the same answer on every machine.
inline constexpr std::int64_t record_trials = 4096;
RecordRisk risk_of(const PricedJob& job, KeptPoints* points = nullptr);

// Gives a quote the number after those that the counter of the newest record knows of: the year of
// its date and a count that starts anew each year, "2027-014". Counts on.
std::string give_number(const QuoteRecord& quote, std::map<std::string, std::int64_t>& counter);

} // namespace acre::engine
