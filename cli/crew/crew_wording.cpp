#include "cli/crew/crew.h"
#include "cli/shared/quote_page/page.h"
#include "cli/shared/quote_page/wording.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {

Wording built_in_crew_wording() {
    return {"the built-in wording of the crew's page", R"(== What we do
@figures

? job.heading
Heading of the pulls: {job.heading}, from true north.

@blocks

@picture

== When
@days

== Mind
@notes

- Something turns up that is not on this page (a line, a well, a wire, wet ground, ground that refuses): stop, leave it as it is, take pictures, call the office. Go on when the office says so.
- Office ______________________  customer ______________________

== Before the first machine moves
- Utility locating (811): ticket ______________ good until ________ ; marks seen on the ground by ______________
- Private lines, wells and valves shown by ______________ on ________
- Permits on board: state ______________ county ______________ ; route checked for heights and weights by ______________
- Pilot cars: ______________________ meet at ______________ at ______
- Overhead lines on the way and in the field: ______________________

== Who
- Shift 1 ______________________  shift 2 ______________________
- Mechanic ______________________  fuel ______________________

@cautions

== Log
Start and stop are hours on the meter; fuel as pumped; lost are hours not worked.

@log-sheet
)"};
}

lang::Outcome<Pages> crew_pages(const Wording& wording, const CrewPage& page) {
    const engine::QuoteRecord& quote = page.quote;
    std::string headings;
    for (const double heading : page.headings)
        headings += (headings.empty() ? "" : ", ") + lang::quantity_text(heading, "deg");
    std::map<std::string, std::string> words = {
        {"quote.number", page.number},
        {"quote.date", "accepted " + lang::day_text(page.accepted) +
                           (quote.number == page.number ? "" : ", as changed by " + quote.number)},
        {"quote.by", quote.by},
        {"quote.changes", quote.number == page.number ? std::string() : quote.number},
        {"job.title", quote.title},
        {"job.for", quote.who},
        {"job.option", quote.option},
        {"job.date", quote.date.empty() ? std::string() : lang::day_text(quote.date)},
        {"job.start", lang::day_text(quote.start)},
        {"job.finish", lang::day_text(quote.finish)},
        {"job.heading", headings},
        {"job.address", ""},
        {"job.place", ""}};
    for (const auto& [name, text] : quote.job_words)
        words["job." + name] = text;
    words["firm.name"] = quote.firm;
    for (const auto& [name, text] : quote.firm_words)
        words["firm." + name] = text;
    const lang::Outcome<WordedPage> worded =
        fill_in(wording.name, wording.text, quote, std::move(words), &page.parts);
    if (!worded)
        return worded.said;
    return Pages{quote_html(*worded, quote), quote_page_text(*worded, quote)};
}

} // namespace acre::cli
