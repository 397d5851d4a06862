#include "cli/quote/pages.h"

#include <map>

#include "cli/quote/page.h"
#include "cli/quote/wording.h"
#include "cli/shared/job.h"
#include "lang/units/calendar.h"
#include "lang/units/money.h"

namespace acre::cli {
namespace {

// What the page can say besides the job's lines.
std::map<std::string, std::string> words_of(const engine::QuoteRecord& record) {
    std::map<std::string, std::string> words = {
        {"quote.number", record.number},
        {"quote.date", lang::day_text(record.issued)},
        {"quote.valid_until", lang::day_text(record.valid_until)},
        {"quote.by", record.by},
        {"quote.replaces", record.replaces},
        {"job.title", record.title},
        {"job.for", record.who},
        {"job.option", record.option},
        {"job.start", lang::day_text(record.start)},
        {"job.finish", lang::day_text(record.finish)}};
    if (!record.firm.empty())
        words["firm.name"] = record.firm;
    for (const auto& [name, text] : record.firm_words)
        words["firm." + name] = text;
    return words;
}

} // namespace

lang::Outcome<Pages> make_pages(const std::string& wording, const engine::QuoteRecord& record) {
    if (wording.empty())
        return Pages();
    lang::show_money(record.money);
    lang::Outcome<std::string> text = read_named_file(wording, max_wording_bytes);
    if (!text)
        return std::move(text.said);
    const lang::Outcome<WordedPage> page =
        fill_in(wording, std::move(*text), record, words_of(record));
    if (!page)
        return page.said;
    return Pages{quote_html(*page, record), quote_page_text(*page, record)};
}

} // namespace acre::cli
