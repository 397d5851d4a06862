// The firm's words for a quote, then the title of the job, then a caution; filled in with the
// record of a small job and shown as HTML and as text. What is inner stays off the page, and no
// text of anybody becomes markup.
#include <set>

#include "cli/shared/quote_page/page.h"
#include "cli/shared/quote_page/wording.h"
#include "engine/book/make_record.h"
#include "engine/book/record.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"
#include "tests/support/memory_loader.h"

namespace wording_fuzz {

using namespace acre;

namespace {

engine::QuoteRecord small_record() {
    tests::MemoryLoader files(fuzz::small_files());
    lang::Request request;
    request.name = "f.job";
    request.text = fuzz::small_job();
    const lang::Outcome<engine::Job> job = engine::make_job(request, files);
    HOLDS(job.value.has_value());
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(**job);
    HOLDS(estimate.value.has_value());
    engine::QuoteRecord record = engine::quote_of(**job, *estimate);
    // Gallons an acre, as the fuel table needs them; an inner line that no other text would hold by
    // chance.
    record.lines.push_back({"gallons", "gal/ac", "", 11.25});
    record.lines.push_back({"hidden", "$", "", 918273.25});
    record.inner.emplace_back("hidden");
    HOLDS(record.shown.has_value());
    record.shown->emplace_back("gallons");
    return record;
}

// Only tags that the page itself is made of, and no attribute that runs anything.
void hold_markup(const std::string& html) {
    static const std::set<std::string, std::less<>> tags = {
        "!doctype", "html", "head",   "meta", "title",  "style",   "body", "header", "div",
        "h1",       "h2",   "p",      "b",    "br",     "ul",      "li",   "table",  "tr",
        "th",       "td",   "figure", "svg",  "footer", "section", "span"};
    for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
        std::string name;
        for (std::size_t i = at + 1 + (html[at + 1] == '/' ? 1 : 0);
             i < html.size() &&
             (std::isalnum(static_cast<unsigned char>(html[i])) || html[i] == '!');
             ++i)
            name += static_cast<char>(std::tolower(static_cast<unsigned char>(html[i])));
        HOLDS_FOR(tags.contains(name), name + "\n" + html);
    }
    HOLDS_FOR(html.find("918,273") == std::string::npos && html.find("918273") == std::string::npos,
              html);
}

} // namespace

ACREWRIGHT_TARGET(wording, text) {
    static const engine::QuoteRecord fixed = small_record();
    const auto [words, title, caution] = fuzz::pieces<3>(text);
    engine::QuoteRecord record = fixed;
    if (!caution.empty()) {
        record.cautions.emplace_back(caution);
        record.items[0].title = caution;
        record.lines[0].choice = caution;
    }
    const lang::Outcome<cli::WordedPage> page =
        cli::fill_in("f.wording", std::string(words), record,
                     {{"quote.number", "2027-001"}, {"job.title", std::string(title)}});
    if (page.said.sources)
        fuzz::hold_diagnostics(page.said.diagnostics, *page.said.sources);
    HOLDS(page.value.has_value() == !page.said.diagnostics.has_errors());
    if (!page)
        return;
    const std::string html = cli::quote_html(*page, record);
    const std::string plain = cli::quote_page_text(*page, record);
    if (words.find("918") == std::string::npos && title.find("918") == std::string::npos &&
        caution.find("918") == std::string::npos) {
        hold_markup(html);
        HOLDS(plain.find("918,273") == std::string::npos);
    }
    HOLDS_FOR(fuzz::is_safe(html), html);
    HOLDS_FOR(fuzz::is_safe(plain), plain);
}

} // namespace wording_fuzz
