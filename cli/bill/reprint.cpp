// A bill that was made before, again.
#include <utility>

#include "cli/bill/bill_arguments.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/quote_book/bill_rows.h"
#include "cli/shared/quote_book/book.h"
#include "engine/book/canonical.h"

namespace acre::cli {
namespace {

// A word that is passed over in silence would be taken for one that was heeded.
std::optional<lang::Diagnostic> not_of_a_made_one(const BillArguments& arguments) {
    const std::pair<bool, const char*> words[] = {
        {!arguments.log.empty(), "a log"},           {!arguments.posted.empty(), "`--posted`"},
        {!arguments.product.empty(), "`--product`"}, {!arguments.deposits.empty(), "`--deposit`"},
        {!arguments.causes.empty(), "`--cause`"},    {!arguments.note.empty(), "`--note`"},
        {!arguments.page.empty(), "`--page`"},       {arguments.draft, "`--draft`"},
    };
    for (const auto& [given, word] : words)
        if (given)
            return lang::placeless(
                lang::Code::C004,
                std::string(word) + " does not go with the number of a bill, which is made",
                {"the book has the page of a bill as text, its lines and its record"},
                {"`--text FILE` writes its page, `--csv` prints its lines, `--json` its record"});
    return std::nullopt;
}

} // namespace

bool is_bill_number(const std::string& number) {
    return number.find("-B") != std::string::npos;
}

Reply reprint(const BillArguments& arguments) {
    if (auto fault = not_of_a_made_one(arguments))
        return std::move(*fault);
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    for (const engine::Event& event : state->lives.events()) {
        if (event.kind != "bill" || event.bill != arguments.number)
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>(event.record));
        if (!record)
            return record.said;
        engine::FoundText page = book.text(record->bill()->page);
        if (!page.fault.empty())
            return book.unread("the page of bill " + event.bill + " " + page.fault);
        Reply reply;
        reply.exact = true;
        if (!arguments.text.empty())
            save(arguments.text, page.text, reply);
        if (arguments.csv)
            reply.page = bill_csv_heading() + bill_csv_rows(*record->bill(), state->lives);
        else
            reply.page = arguments.json ? engine::draft_json(*record) : std::move(page.text);
        return reply;
    }
    return lang::placeless(lang::Code::R002, "the book has no bill `" + arguments.number + "`");
}

} // namespace acre::cli
