#include "cli/shared/quote_page/pages.h"

#include <map>

#include "cli/shared/job.h"
#include "cli/shared/quote_page/page.h"
#include "cli/shared/quote_page/wording.h"
#include "lang/units/calendar.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

// What the page can say besides the job's lines.
std::map<std::string, std::string> words_of(const engine::QuoteRecord& quote) {
    std::map<std::string, std::string> words = {
        {"quote.number", quote.number},
        {"quote.date", lang::day_text(quote.issued)},
        {"quote.valid_until", lang::day_text(quote.valid_until)},
        {"quote.by", quote.by},
        {"quote.replaces", quote.replaces},
        {"quote.changes", quote.changes},
        {"quote.price", lang::cents_text(quote.price_cents)},
        {"job.title", quote.title},
        {"job.for", quote.who},
        {"job.option", quote.option},
        {"job.date", quote.date.empty() ? std::string() : lang::day_text(quote.date)},
        {"job.start", lang::day_text(quote.start)},
        {"job.finish", lang::day_text(quote.finish)}};
    if (!quote.changes.empty()) {
        words["quote.before"] = lang::cents_text(quote.before_cents);
        words["quote.difference"] = lang::cents_text(quote.price_cents - quote.before_cents);
    }
    // Of every quote, so that a wording may ask for them.
    for (const char* name : {"name", "line", "address", "license", "insurance", "quoted_by"})
        words["firm." + std::string(name)] = "";
    for (const char* name : {"address", "place"})
        words["job." + std::string(name)] = "";
    for (const auto& [name, text] : quote.job_words)
        words["job." + name] = text;
    words["firm.name"] = quote.firm;
    for (const auto& [name, text] : quote.firm_words)
        words["firm." + name] = text;
    return words;
}

} // namespace

lang::Outcome<Wording> read_wording(const std::string& path) {
    if (path.empty())
        return built_in_wording();
    lang::Outcome<std::string> text = read_named_file(path, max_wording_bytes);
    if (!text)
        return std::move(text.said);
    return Wording{path, std::move(*text)};
}

lang::Outcome<Pages> make_pages(const Wording& wording, const engine::QuoteRecord& quote) {
    lang::show_money(quote.money);
    const lang::Outcome<WordedPage> page =
        fill_in(wording.name, wording.text, quote, words_of(quote));
    if (!page)
        return page.said;
    return Pages{quote_html(*page, quote), quote_page_text(*page, quote)};
}

} // namespace acre::cli
