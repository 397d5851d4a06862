#include "cli/shared/quote_page/pages.h"

namespace acre::cli {

// It names nothing of a job's own, so it fits every one.
Wording built_in_wording() {
    return {"the built-in wording", R"(== What we will do
? job.option
{job.title}: {job.option}. The work is what is listed under Price. Quantities are measured when the work is done.
? not job.option
{job.title}. The work is what is listed under Price. Quantities are measured when the work is done.
? job.date
Work is planned for {job.date}; the day depends on weather, ground and permits.

@picture

== Price
@items

? quote.changes
This change order changes quote {quote.changes}. The work stood at {quote.before}; the difference is {quote.difference}.

@options

@cautions

== What is not included
- Anything that is not listed above: extra work is agreed in writing before it is done.
- Permits, surveys and the marking of lines, unless listed.

== Access, lines and lost time
- The customer gives access for a lowbed and marks every private line, pipe and valve before we start. We call the utility locating service.
- Lines that were not marked are repaired at the customer's cost.
- Time lost through the site, and a visit called off after we have moved, are charged at the rates agreed above.

== Terms
- This offer is good until {quote.valid_until}. It can be called off in writing until we move.
? quote.replaces
- This quote replaces quote {quote.replaces}.
? quote.by
- Quoted by {quote.by}.
? firm.address
- {firm.name}, {firm.address}.
? firm.license
- License: {firm.license}.
? firm.insurance
- Insurance: {firm.insurance}.

@signatures
)"};
}

} // namespace acre::cli
