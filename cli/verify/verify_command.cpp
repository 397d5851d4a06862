// verify: seals, chain, and the price of every quote worked out again from its own record.
#include <string>

#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/quote_book/book.h"
#include "cli/verify/verify_page.h"

namespace acre::cli {

Reply verify_command(Words words, Console& /*console*/) {
    std::string folder = "quote-book";
    bool json = false;
    Arguments line("verify",
                   "Verifies a quote book: every record is as it was sealed, none is missing, and "
                   "every price comes out the same to the cent from the files in its record.",
                   "acrewright verify examples/quote-book");
    line.positional("BOOK", "the folder (quote-book)", folder, false);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    Verified verified;
    lang::Outcome<std::vector<engine::BookFault>> faults =
        Book(folder).verify([&](const BookEntry& entry) -> std::optional<lang::Diagnostic> {
            ++verified.records;
            if (auto quote = engine::price_again(entry.bytes, entry.file()))
                verified.quotes.push_back(std::move(*quote));
            return std::nullopt;
        });
    if (!faults)
        return std::move(faults.said);
    verified.faults = std::move(*faults);
    Reply reply;
    if (json)
        reply.document = verify_json(verified);
    else
        reply.page = verify_text(verified);
    reply.verdict =
        verified.faults.empty() && verified.differing() == 0 ? exit_done : exit_at_fault;
    return reply;
}

} // namespace acre::cli
