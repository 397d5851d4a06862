// What the customer may see. The job's own model alone says it: one list to look through.
#include <string>

#include <fmt/format.h>

#include "lang/check/inner_lines.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {
namespace {

// As the model says it, or by its name in the sheet, which is how a wording has it.
Found shown_line(const Resolution& r, const ast::Word& name) {
    const Found found = look_up(r, r.where(0, {}), name.text);
    return found.state == Found::State::Absent ? look_up_outside(r, name.text, {}) : found;
}

void warn_of_inner(Resolution& r, const ast::Word& name) {
    r.add(problem(
        Code::L809,
        fmt::format("`{}` is an internal figure, and this lets the customer see it", name.text),
        name.span, "a cost, an overhead or a margin",
        {"take it out of the list, unless the customer is meant to know it"}));
}

} // namespace

void take_shown(Resolution& r) {
    const ast::Module& model = r.program.modules[r.program.model];
    std::vector<bool> inner;
    for (const ast::Statement& statement : model.statements) {
        const auto* show = std::get_if<ast::Show>(&statement.node);
        if (show == nullptr)
            continue;
        if (inner.empty())
            inner = inner_lines(r.sheet);
        for (const ast::Word& name : show->names) {
            const Found found = shown_line(r, name);
            if (found.state == Found::State::Absent)
                report_unknown_name(r, r.where(0, {}), name.text, name.span);
            if (found.state != Found::State::Line)
                continue;
            // Of a line in a part `each` of a list the one of every entry.
            for (std::uint32_t c = 0; c < r.copies(found.of, {}); ++c) {
                const LineId line = found.of.empty()
                                        ? found.line
                                        : look_up(r, 0, name.text, r.copy(found.of, {}, c)).line;
                r.sheet.lines[line].shown = true;
                if (inner[line])
                    warn_of_inner(r, name);
            }
        }
    }
}

} // namespace acre::lang::resolving
