#include "cli/quote/quote.h"
#include "cli/quote/quote_json.h"
#include "cli/shared/quote_book/book.h"
#include "engine/book/texts.h"

namespace acre::cli {

Reply reprint_quote(const QuoteArguments& arguments) {
    const Book book(arguments.book);
    const std::string& number = arguments.job.path;
    const About about{{std::string(base_number(number))}, {}};
    const lang::Outcome<BookState> state = book.state(&about);
    if (!state)
        return state.said;
    const lang::Outcome<engine::Record> record = book.quote(*state, number);
    if (!record)
        return record.said;
    Reply reply;
    if (arguments.job.json) {
        std::string bytes;
        if (std::string reason =
                book.read(engine::record_file(static_cast<std::uint64_t>(record->index)), bytes);
            !reason.empty())
            return book.unread(std::move(reason));
        reply.page = record_json(bytes);
        return reply;
    }
    const engine::QuoteRecord& quote = *record->quote();
    const std::string* html = engine::carried_text(quote, quote.page_html);
    const std::string* text = engine::carried_text(quote, quote.page_text);
    if (html == nullptr || text == nullptr)
        return lang::placeless(lang::Code::R006, "the record of quote " + number + " has no page",
                               {"it was issued before pages were sealed with their quotes"});
    if (!write_pages(arguments, {*html, *text}, reply))
        return reply;
    if (arguments.page.empty() && arguments.text.empty()) {
        reply.page = *text;
        reply.exact = true;
    }
    return reply;
}

} // namespace acre::cli
