#include <fmt/format.h>

#include "cli/shared/text/wrap.h"
#include "cli/verify/verify_page.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

std::string signer_text(const engine::Signer& signer) {
    std::string text =
        fmt::format("key {} ({}): signed {} {}", signer.key.substr(0, 16),
                    signer.name.empty() ? "no name" : signer.name, signer.signed_here,
                    signer.signed_here == 1 ? "record" : "records");
    text += fmt::format(", admitted by record {}", signer.admitted);
    if (signer.retired != 0)
        text += fmt::format(", retired by record {}", signer.retired);
    return text;
}

} // namespace

std::string verify_text(const Verified& verified) {
    std::string out;
    const auto line = [&](const std::string& text) {
        out += wrap(lang::terminal_text(text), page_width) + "\n";
    };
    for (const engine::BookFault& fault : verified.faults)
        line(fault.file.empty() ? fault.what : fault.file + " " + fault.what);
    for (const ComparedQuote& quote : verified.quotes) {
        if (quote.outcome == Compared::ByProgram)
            line(fmt::format("quote {} ({}) differs by program: written by {}; {}", quote.quote,
                             quote.file, quote.program, quote.because));
        for (const std::string& difference : quote.differences)
            line(fmt::format("quote {} ({}): {}", quote.quote, quote.file, difference));
    }
    for (const std::string& remark : verified.remarks)
        line(remark);
    const auto of = [](std::size_t count, const char* what) {
        return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
    };
    line(fmt::format("{}, {}; {} priced again: {} equal, {} differ by program, {} at fault",
                     of(verified.records, "record"), of(verified.faults.size(), "fault"),
                     of(verified.quotes.size(), "quote"), verified.count(Compared::Equal),
                     verified.count(Compared::ByProgram), verified.count(Compared::Fault)));
    if (verified.unknown > 0)
        line(of(verified.unknown, "record") + " of a kind that this program does not know");
    for (const engine::Signer& signer : verified.signers)
        line(signer_text(signer));
    out += "head " + engine::head_text(verified.head) + "\n";
    out += "\nWhat this does not prove\n";
    for (const std::string& sentence : verified.not_proved())
        out += "- " + wrap(sentence, page_width, 2) + "\n";
    return out;
}

} // namespace acre::cli
