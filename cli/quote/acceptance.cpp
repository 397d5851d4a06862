#include "cli/quote/acceptance.h"

#include <algorithm>
#include <set>

namespace acre::cli {

using lang::Code;

bool must_be_accepted(const lang::Diagnostic& warning) {
    return warning.severity() == lang::Severity::Warning &&
           lang::touched_by(warning.code) == lang::Touches::Price;
}

std::optional<lang::Diagnostic> not_accepted(const lang::Said& said,
                                             const std::vector<std::string>& accepted) {
    std::set<std::string> warned;
    for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
        if (must_be_accepted(diagnostic))
            warned.insert(std::string(lang::name_of(diagnostic.code)));
    std::string missing;
    std::string mend;
    for (const std::string& code : warned) {
        if (std::find(accepted.begin(), accepted.end(), code) != accepted.end())
            continue;
        missing += (missing.empty() ? "" : ", ") + code;
        mend += " --accept " + code;
    }
    if (missing.empty() && said.diagnostics.left_out() > 0)
        return lang::placeless(Code::R007,
                               "no quote was issued: too many warnings to show them all");
    if (!missing.empty())
        return lang::placeless(
            Code::R007, "no quote was issued: a warning stands against it: " + missing,
            {"the warning may move the price, and a quote binds"},
            {"put it right, and ask for the quote again",
             "if it is meant, issue the quote with" + mend + " , and its record keeps that"});
    for (const std::string& code : accepted)
        if (!warned.contains(code))
            return lang::placeless(Code::C003, "`--accept " + code + "`: nothing warns of that",
                                   {"only a warning of this very job can be accepted"});
    return std::nullopt;
}

} // namespace acre::cli
