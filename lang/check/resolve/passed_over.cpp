#include "lang/check/resolve/passed_over.h"

#include <charconv>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "lang/units/number_text.h"

namespace acre::lang::resolving {
namespace {

// "97.31 ac" of "97.3081293871 ac".
std::string short_value(std::string_view text) {
    double number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    const auto digits = static_cast<std::size_t>(read.ptr - text.data());
    return read.ec != std::errc() ? std::string(text)
                                  : number_text(number) + std::string(text.substr(digits));
}

} // namespace

void report_passed_over(Resolution& r, LineId line, const Setting& of_the_job, NodeId layout) {
    const ast::Module& job = r.program.modules[r.program.job];
    Diagnostic d = problem(Code::L831,
                           fmt::format("`{}` is set in the job, and the boundary says otherwise",
                                       r.sheet.lines[line].name),
                           of_the_job.span, "not used");
    for (const ast::Statement& statement : job.statements)
        if (const auto* field = std::get_if<ast::Field>(&statement.node))
            d.others.push_back(
                {field->path.span,
                 "its layout: " + short_value(r.sources.text(r.sheet.nodes[layout].span))});
    d.notes.emplace_back("the layout of the boundary is used, and the price rests on it");
    d.helps.push_back(
        {"to have the job's own value, delete its `field` line; otherwise delete this one", {}});
    r.add(std::move(d));
}

} // namespace acre::lang::resolving
