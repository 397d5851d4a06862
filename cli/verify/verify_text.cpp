#include <algorithm>

#include <fmt/format.h>

#include "cli/shared/text/wrap.h"
#include "cli/verify/verify_page.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

std::size_t Verified::differing() const {
    return static_cast<std::size_t>(std::count_if(
        quotes.begin(), quotes.end(),
        [](const engine::PricedAgain& quote) { return !quote.differences.empty(); }));
}

std::string verify_text(const Verified& verified) {
    std::string out;
    const auto line = [&](const std::string& text) {
        out += wrap(lang::terminal_text(text), page_width) + "\n";
    };
    for (const engine::BookFault& fault : verified.faults)
        line(fault.file + " " + fault.what);
    for (const engine::PricedAgain& quote : verified.quotes)
        for (const std::string& difference : quote.differences)
            line(fmt::format("quote {} ({}): {}", quote.quote, quote.file, difference));
    line(fmt::format("{} records, {} faults; {} quotes priced again, {} with a different result",
                     verified.records, verified.faults.size(), verified.quotes.size(),
                     verified.differing()));
    return out;
}

} // namespace acre::cli
