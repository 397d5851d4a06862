#include "lang/check/resolve/begun.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "lang/check/resolve/money.h"

namespace acre::lang::resolving {
namespace {

// Statements of a job that are looked at only when values are laid, or later.
template <class... Kinds> bool is_one_of(const ast::StatementNode& node) {
    return (std::holds_alternative<Kinds>(node) || ...);
}
bool waits_for_values(const ast::Statement& statement) {
    return is_one_of<ast::Set, ast::Option, ast::ModelReference, ast::SeasonReference,
                     ast::ValuesReference, ast::FirmReference, ast::PageWord, ast::Note, ast::For,
                     ast::Dates, ast::Field>(statement.node);
}

bool is_begun_by_models(const Program& program) {
    if (program.job == none || program.field != none || program.command_line != none ||
        program.tried != none)
        return false;
    const std::vector<ast::Statement>& statements = program.modules[program.job].statements;
    return std::all_of(statements.begin(), statements.end(), waits_for_values);
}

// The same trees, which stay where they are as long as one of the two is there.
bool are_of_the_same(const Program& a, const Program& b) {
    if (a.modules.size() != b.modules.size() || a.job != b.job)
        return false;
    for (std::uint32_t i = 0; i < a.modules.size(); ++i)
        if (i != a.job && &a.modules[i] != &b.modules[i])
            return false;
    return a.uses == b.uses && a.model == b.model && a.season == b.season && a.values == b.values &&
           a.firm == b.firm && a.every_function == b.every_function && a.notation == b.notation;
}

SourceMap sources_of(const Resolution& r) {
    SourceMap sources;
    for (FileId file = 0; file < r.sources.size(); ++file)
        sources.add(r.sources.shared(file));
    return sources;
}

} // namespace

Begun::Begun(const Resolution& from)
    : program(from.program),
      sources(sources_of(from)),
      r(program, sources, diagnostics) {
    r.take(from);
}

bool may_be_kept(const Resolution& r) {
    std::size_t bytes = r.name_bytes;
    for (const ast::Module& module : r.program.modules)
        bytes += r.sources.file(module.file).text().size();
    return !r.full && is_begun_by_models(r.program) && bytes <= kept_sheet_bytes &&
           r.sheet.nodes.size() + r.sheet.lines.size() <= kept_sheet_parts;
}

void go_on(Resolution& r, const Begun& begun) {
    // Values come to some more steps and lines of prices.
    const std::size_t nodes = begun.r.sheet.nodes.size();
    r.sheet.nodes.reserve(nodes + nodes / 4 + 256);
    r.sheet.args.reserve(begun.r.sheet.args.size() + 256);
    r.take(begun.r);
    const std::uint32_t job = r.program.job;
    r.scopes[job] = make_scope(r, r.program.modules[job], r.uses[job]);
    if (job != r.program.firm)
        check_money(r, job);
}

} // namespace acre::lang::resolving

namespace acre::lang {

std::shared_ptr<const resolving::Begun> KeptSheets::find(const Program& program) {
    if (!resolving::is_begun_by_models(program))
        return nullptr;
    const std::lock_guard lock(mutex_);
    const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const auto& begun) {
        return resolving::are_of_the_same(begun->program, program);
    });
    if (found == kept_.end())
        return nullptr;
    std::rotate(found, found + 1, kept_.end());
    return kept_.back();
}

void KeptSheets::keep(std::shared_ptr<const resolving::Begun> begun) {
    const std::lock_guard lock(mutex_);
    if (std::any_of(kept_.begin(), kept_.end(), [&](const auto& other) {
            return resolving::are_of_the_same(other->program, begun->program);
        }))
        return; // another thread was first
    if (kept_.size() == kept_sheets)
        kept_.erase(kept_.begin());
    kept_.push_back(std::move(begun));
}

std::size_t KeptSheets::size() const {
    const std::lock_guard lock(mutex_);
    return kept_.size();
}

} // namespace acre::lang
