#include "cli/shared/legacy.h"

#include <utility>

#include "lang/diag/render.h"

namespace acre::cli {

int report(const lang::Said& said, Console& console, Warnings warnings) {
    return say(Reply(warnings == Warnings::All ? said : of_the_price(said)), false, console);
}

int report(lang::Diagnostics& diagnostics, const lang::SourceMap& sources, Console& console,
           Warnings warnings) {
    diagnostics.sort();
    const lang::Said said{diagnostics, nullptr};
    const lang::Diagnostics shown =
        warnings == Warnings::All ? diagnostics : of_the_price(said).diagnostics;
    console.err += lang::render(shown, sources, {console.color_err});
    return exit_code_of(Reply(said));
}

engine::Job open_job(const JobArguments& arguments, Console& console, int& code,
                     std::vector<std::string>* files) {
    lang::Outcome<engine::Job> job = open_job(arguments);
    if (files != nullptr)
        *files = files_of(arguments, job);
    code = job ? exit_done : report(job.said, console);
    return job ? *job : nullptr;
}

bool read_named_file(const std::string& path, std::string& text, lang::Diagnostics& failed,
                     std::size_t limit) {
    lang::Outcome<std::string> read = read_named_file(path, limit);
    if (read)
        text = std::move(*read);
    else
        failed = read.said.diagnostics;
    return read.value.has_value();
}

} // namespace acre::cli
