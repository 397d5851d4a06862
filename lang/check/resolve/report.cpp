#include "lang/check/resolve/report.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "lang/diag/place.h"

namespace acre::lang::resolving {

Diagnostic problem(Code code, std::string title, Span span, std::string label,
                   std::vector<std::string> helps) {
    Diagnostic out{code, std::move(title), {span, std::move(label)}, {}, {}, {}};
    for (std::string& help : helps)
        out.helps.push_back({std::move(help), std::nullopt});
    return out;
}

void report_twice(const SourceMap& sources, Diagnostics& diagnostics, std::string title,
                  Span second, Span first, std::string help, Code code) {
    Diagnostic out = problem(code, std::move(title), second,
                             second.file == first.file
                                 ? std::string("again")
                                 : fmt::format("again; first in {}", spoken_place(sources, first)));
    out.others.push_back({first, "first here"});
    if (!help.empty())
        out.helps.push_back({std::move(help), std::nullopt});
    diagnostics.add(std::move(out));
}

std::string listed(const std::vector<std::string_view>& names) {
    constexpr std::size_t most_listed = 12;
    const std::size_t shown = std::min(names.size(), most_listed);
    std::string out;
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0)
            out += i + 1 == names.size() ? " and " : ", ";
        out += fmt::format("`{}`", names[i]);
    }
    if (names.size() > shown)
        out += fmt::format(" and {} more", names.size() - shown);
    return out;
}

} // namespace acre::lang::resolving
