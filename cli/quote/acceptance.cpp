#include "cli/quote/acceptance.h"

#include <algorithm>
#include <set>

namespace acre::cli {

using lang::Code;

bool must_be_accepted(const lang::Diagnostic& warning) {
    return warning.severity() == lang::Severity::Warning &&
           lang::touched_by(warning.code) == lang::Touches::Price;
}

namespace {

void add_warnings(const lang::Said& said, std::set<std::string>& warned) {
    for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
        if (must_be_accepted(diagnostic))
            warned.insert(std::string(lang::name_of(diagnostic.code)));
}

std::vector<std::string> missing_of(const std::set<std::string>& warned,
                                    const std::vector<std::string>& accepted) {
    std::vector<std::string> missing;
    for (const std::string& code : warned)
        if (std::find(accepted.begin(), accepted.end(), code) == accepted.end())
            missing.push_back(code);
    return missing;
}

} // namespace

bool all_accepted(const lang::Said& said, const std::vector<std::string>& accepted) {
    std::set<std::string> warned;
    add_warnings(said, warned);
    return missing_of(warned, accepted).empty();
}

std::optional<lang::Diagnostic> not_accepted(const std::vector<lang::Said>& said,
                                             const std::vector<std::string>& accepted) {
    std::set<std::string> warned;
    bool left_out = false;
    for (const lang::Said& one : said) {
        add_warnings(one, warned);
        left_out = left_out || one.diagnostics.left_out() > 0;
    }
    std::string missing;
    std::string mend;
    for (const std::string& code : missing_of(warned, accepted)) {
        missing += (missing.empty() ? "" : ", ") + code;
        mend += " --accept " + code;
    }
    if (missing.empty() && left_out)
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
