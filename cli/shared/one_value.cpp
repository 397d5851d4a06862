#include "cli/shared/one_value.h"

#include <string_view>
#include <variant>

#include "lang/source/source_map.h"
#include "lang/syntax/parse.h"

namespace acre::cli {

namespace {

// Without what the value should be; empty: it is one value.
std::string_view beside_the_value(const std::string& name, const std::string& value) {
    for (const std::string* text : {&name, &value}) {
        if (text->find_first_of("\n\r") != std::string::npos)
            return "on one line";
        if (text->find('#') != std::string::npos)
            return "without a comment (`#`)";
    }
    lang::SourceMap sources;
    lang::Diagnostics unsaid;
    const lang::FileId file = sources.add("command line", "set " + name + " = " + value);
    const lang::ast::Module module =
        lang::parse(sources, file, lang::FileKind::CommandLine, unsaid);
    for (const lang::ast::Statement& statement : module.statements)
        if (const auto* set = std::get_if<lang::ast::Set>(&statement.node)) {
            if (set->because)
                return "without `because`";
            if (set->swing)
                return "without a range to vary over";
            if (set->within)
                return "without dates";
        }
    return {};
}

} // namespace

std::optional<lang::Diagnostic> more_than_a_value(const std::string& name,
                                                  const std::string& value) {
    const std::string_view more = beside_the_value(name, value);
    if (more.empty())
        return std::nullopt;
    return lang::placeless(lang::Code::C003,
                           "`" + name + "` takes one value here, " + std::string(more), {},
                           {"write the rest in the job"});
}

} // namespace acre::cli
