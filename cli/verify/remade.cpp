// The price and the pages of a quote, made again from its own texts.
#include <algorithm>

#include "cli/field/report.h"
#include "cli/shared/quote_page/pages.h"
#include "cli/verify/verify_page.h"
#include "engine/book/seal.h"
#include "engine/book/texts.h"

namespace acre::cli {
namespace {

void compare_pictures(const engine::PricedJob& job, const engine::QuoteRecord& quote,
                      std::vector<std::string>& differences) {
    std::vector<std::string> now;
    for (const engine::JobField& field : job.fields())
        now.push_back(engine::sha256(field_svg(engine::field_answer(field.field))));
    const bool same =
        std::equal(now.begin(), now.end(), quote.pictures.begin(), quote.pictures.end(),
                   [](const std::string& seal, const auto& one) { return seal == one.svg; });
    if (!same)
        differences.emplace_back("pictures: the map is another one now");
}

void compare_pages(const engine::QuoteRecord& quote, std::vector<std::string>& differences) {
    const std::string* wording = engine::carried_text(quote, quote.wording_text);
    if (wording == nullptr || quote.page_html.empty() || quote.page_text.empty()) {
        differences.emplace_back("pages: the quote has none");
        return;
    }
    const lang::Outcome<Pages> pages = make_pages({quote.wording, *wording}, quote);
    if (!pages) {
        differences.push_back("pages: " + pages.said.diagnostics.all().front().title);
        return;
    }
    const auto is_sealed = [&](const std::string& page, const std::string& seal) {
        const std::string* issued = engine::carried_text(quote, seal);
        return issued != nullptr ? *issued == page : engine::sha256(page) == seal;
    };
    if (!is_sealed(pages->html, quote.page_html))
        differences.emplace_back("pages.html: the page is not what wording and figures make of it");
    if (!is_sealed(pages->text, quote.page_text))
        differences.emplace_back("pages.text: the page is not what wording and figures make of it");
}

} // namespace

ComparedQuote compare_quote(const engine::Record& record, const std::string& file,
                            engine::KeptBetween& kept) {
    const engine::QuoteRecord& quote = *record.quote();
    ComparedQuote compared{quote.number, file, Compared::Equal, record.program, {}, {}};
    engine::PricedAgain again = engine::price_again(record, &kept);
    compared.differences = std::move(again.differences);
    compared.because = std::move(again.because);
    if (record.version != 1 && again.job) {
        compare_pictures(**again.job, quote, compared.differences);
        compare_pages(quote, compared.differences);
    }
    if (compared.differences.empty())
        return compared;
    const bool other = !record.program.empty() && record.program != ACREWRIGHT_VERSION;
    compared.outcome = other ? Compared::ByProgram : Compared::Fault;
    if (!other)
        compared.because.clear();
    else if (compared.because.empty())
        compared.because = "how a page is laid out";
    return compared;
}

} // namespace acre::cli
