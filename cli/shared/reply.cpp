#include "cli/shared/reply.h"

#include <algorithm>
#include <exception>
#include <new>

#include "cli/shared/json/reply_json.h"
#include "lang/diag/render.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

// Whose fault an error is, by the letter of its code and, for a value of --set, by its place.
int fault_of(const lang::Diagnostic& diagnostic, const lang::SourceMap* sources) {
    using lang::Code;
    const Code code = diagnostic.code;
    const char kind = lang::name_of(code).front();
    if (kind == 'F' || code == Code::R001 || code == Code::R003) // a book is files
        return exit_file;
    if (code == Code::R002 || code == Code::R005) // a number or a state on the command line
        return exit_usage;
    const lang::FileId file = diagnostic.primary.span.file;
    if (kind == 'P')
        return exit_bug;
    const bool typed = sources != nullptr && file < sources->size() &&
                       sources->file(file).name() == "command line";
    return kind == 'C' || kind == 'Q' || typed ? exit_usage : exit_at_fault;
}

} // namespace

void Reply::fail(lang::Diagnostic failure) {
    said.emplace_back().diagnostics.add(std::move(failure));
}

bool Reply::failed() const {
    return std::any_of(
        said.begin(), said.end(),
        [](const lang::Said& one) { return one.diagnostics.has_errors(); });
}

int exit_code_of(const Reply& reply) {
    int code = exit_done;
    for (const lang::Said& said : reply.said)
        for (const lang::Diagnostic& diagnostic : said.diagnostics.all()) {
            if (diagnostic.severity() != lang::Severity::Error)
                continue;
            const int fault = fault_of(diagnostic, said.sources.get());
            code = code == exit_done || code == fault ? fault : exit_at_fault;
        }
    return code == exit_done ? reply.verdict : code;
}

int say(Reply reply, bool json, Console& console) {
    const int code = exit_code_of(reply);
    for (lang::Said& said : reply.said)
        said.diagnostics.sort();
    if (json && (reply.document != nullptr || reply.failed())) {
        console.out += reply_json(reply);
        return code;
    }
    static const lang::SourceMap no_sources;
    for (const lang::Said& said : reply.said)
        console.err += lang::render(said.diagnostics, said.sources ? *said.sources : no_sources,
                                    {console.color_err});
    console.err += reply.note;
    console.out += reply.page;
    console.exact = reply.exact;
    return code;
}

int say_what(const std::function<Reply()>& work, bool json, Console& console) {
    std::string what;
    try {
        return say(work(), json, console);
    } catch (const std::bad_alloc&) {
        what = "out of memory";
    } catch (const std::exception& error) {
        what = error.what();
    }
    console.out.clear();
    console.err.clear();
    console.exact = false;
    return say(lang::placeless(lang::Code::P001, "internal error: " + what, {"nothing was written"},
                               {"report it, with the command line and the files it read"}),
               json, console);
}

lang::Said of_the_price(const lang::Said& said) {
    if (said.diagnostics.left_out() > 0)
        return said;
    lang::Said kept;
    kept.sources = said.sources;
    for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
        if (lang::touched_by(diagnostic.code) != lang::Touches::Text)
            kept.diagnostics.add(diagnostic);
    return kept;
}

} // namespace acre::cli
