#include "engine/questions/findings.h"

#include <utility>

namespace acre::engine {
namespace {

// Two runs number their texts each for itself: a place is a name and where in it.
std::string key_of(const lang::Diagnostic& diagnostic, const lang::SourceMap* sources) {
    const lang::Span span = diagnostic.primary.span;
    const bool placed = sources != nullptr && span.file < sources->size();
    return std::string(lang::name_of(diagnostic.code)) + '\n' +
           (placed ? sources->file(span.file).name() : std::string()) + '\n' +
           std::to_string(span.begin) + '\n' + diagnostic.title;
}

} // namespace

void Findings::add(const lang::Said& said, const std::string& note) {
    lang::Said fresh;
    fresh.sources = said.sources;
    const bool is_first = known_.empty();
    for (lang::Diagnostic diagnostic : said.diagnostics.all()) {
        if (!known_.insert(key_of(diagnostic, said.sources.get())).second)
            continue;
        if (!note.empty())
            diagnostic.notes.push_back(note);
        fresh.diagnostics.add(std::move(diagnostic));
    }
    if (is_first) // later ones leave out the same again
        fresh.diagnostics.add_left_out(said.diagnostics);
    fresh.diagnostics.sort();
    if (!fresh.diagnostics.all().empty())
        kept_.push_back(std::move(fresh));
}

} // namespace acre::engine
