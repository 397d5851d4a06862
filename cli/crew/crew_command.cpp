// crew: the page that goes to the field with the machine.
#include "cli/command.h"
#include "cli/crew/crew.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/write_file.h"

namespace acre::cli {

Reply crew_command(Words words, Console& console) {
    std::string number, folder = "quote-book", wording_file, html, text;
    bool json = false;
    Arguments line(
        "crew",
        "Makes the crew's page of an accepted quote: where and when, what to do and how "
        "deep, the days of the move, what to mind, whom to call, and a log sheet to fill "
        "in by hand. It has no price.",
        "acrewright crew 2027-001 --book examples/quote-book --wording "
        "examples/crew.wording");
    line.positional("QUOTE", "the quote's number", number);
    line.option("--book", "FOLDER", "the quote book (quote-book)", folder);
    line.option("--wording", "FILE", "the firm's wording for this page; else a built-in one",
                wording_file);
    line.option("--page", "FILE",
                "writes the page as HTML, with the map, that prints on letter paper", html);
    line.option("--text", "FILE", "writes the page as plain text", text);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    static_cast<void>(console);
    const lang::Outcome<CrewPage> page = crew_page(Book(folder), number);
    if (!page)
        return page.said;
    lang::Outcome<Wording> wording =
        wording_file.empty() ? built_in_crew_wording() : read_wording(wording_file);
    if (!wording)
        return std::move(wording.said);
    const lang::Outcome<Pages> pages = crew_pages(*wording, *page);
    if (!pages)
        return pages.said;
    Reply reply;
    if ((!html.empty() && !save(html, pages->html, reply)) ||
        (!text.empty() && !save(text, pages->text, reply)))
        return reply;
    if (json)
        reply.document = crew_json(*page);
    else
        reply.page = pages->text;
    return reply;
}

} // namespace acre::cli
