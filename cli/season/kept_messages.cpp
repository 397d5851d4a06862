#include "cli/season/kept_messages.h"

#include <utility>

namespace acre::cli {
namespace {

// About what it takes to show it, a line of the text with its labels included.
std::size_t size_of(const lang::Diagnostic& diagnostic) {
    constexpr std::size_t excerpt = 300;
    std::size_t size = excerpt + diagnostic.title.size() + diagnostic.primary.text.size();
    for (const lang::Label& label : diagnostic.others)
        size += excerpt + label.text.size();
    for (const std::string& note : diagnostic.notes)
        size += note.size();
    for (const lang::Help& help : diagnostic.helps)
        size += help.text.size();
    return size;
}

std::size_t texts_of(const lang::Said& said) {
    std::size_t size = 0;
    if (said.sources != nullptr)
        for (lang::FileId id = 0; id < said.sources->size(); ++id)
            size += said.sources->file(id).text().size();
    return size;
}

} // namespace

void KeptMessages::keep(lang::Said said) {
    if (said.diagnostics.all().empty())
        return;
    std::size_t messages = messages_;
    for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
        messages += size_of(diagnostic);
    const std::size_t texts = texts_ + texts_of(said);
    const bool first_error = said.diagnostics.has_errors() && !reply_.failed();
    const bool ends_all = said.diagnostics.all().back().code == lang::Code::Q006;
    if (!first_error && !ends_all && (messages > max_season_messages || texts > max_season_texts)) {
        ++not_shown_;
        return;
    }
    messages_ = messages;
    texts_ = texts;
    reply_.said.push_back(std::move(said));
}

} // namespace acre::cli
