// What the job says about itself.
#include <string>

#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

void describe_job(Resolution& r) {
    JobInfo& job = r.sheet.job;
    job.model_title = r.program.modules[r.program.model].title.text;
    job.model_span = r.program.modules[r.program.model].title.span;
    job.option = r.program.option;
    const auto file_of = [&](std::uint32_t module) {
        return r.sources.file(r.program.modules[module].file).name();
    };
    job.model_file = file_of(r.program.model);
    if (r.program.season != none) {
        job.season_title = r.program.modules[r.program.season].title.text;
        job.season_file = file_of(r.program.season);
        for (const ast::Statement& statement : r.program.modules[r.program.season].statements)
            if (const auto* closed = std::get_if<ast::Closed>(&statement.node))
                job.closed.push_back(*closed);
    }
    if (r.program.job == none)
        return;
    const ast::Module& module = r.program.modules[r.program.job];
    const Where where{&module, 0, {}, nullptr, true};
    job.title = module.title.text;
    for (const ast::Statement& statement : module.statements) {
        if (const auto* who = std::get_if<ast::For>(&statement.node)) {
            job.who = who->who.text;
        } else if (const auto* word = std::get_if<ast::PageWord>(&statement.node)) {
            job.words.emplace_back(word->name.text, word->text.text);
        } else if (const auto* note = std::get_if<ast::Note>(&statement.node)) {
            job.notes.emplace_back(note->text.text);
        } else if (const auto* dates = std::get_if<ast::Dates>(&statement.node)) {
            job.date = dates->first;
            job.latest = dates->last;
        } else if (const auto* field = std::get_if<ast::Field>(&statement.node)) {
            job.field_path = field->path.text;
            if (field->within)
                job.field_within = field->within->text;
            if (field->heading != ast::none)
                job.field_heading = build(r, where, field->heading);
        }
    }
    std::size_t at = 0; // those that the job lists come first, in its order
    for (const ListEntry& entry : r.entries)
        if (!entry.said.empty()) {
            for (const EntrySaid& said : entry.said)
                if (said.entry->heading != ast::none)
                    r.sheet.entries[at].field_heading =
                        build(r, {&r.program.modules[said.module], 0, {}, nullptr, true},
                              said.entry->heading);
            ++at;
        }
}

} // namespace acre::lang::resolving
