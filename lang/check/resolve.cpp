#include "lang/check/resolve.h"

#include <memory>
#include <utility>

#include "lang/check/resolve/begun.h"
#include "lang/check/resolve/money.h"
#include "lang/check/resolve/resolution.h"

namespace acre::lang {
namespace resolving {
namespace {

// What the models make, before any value is laid over it: see begun.h, which lists what a job may
// say and yet have no part in it.
void begin(Resolution& r) {
    r.sheet.notation = r.program.notation;
    declare_lists(r);
    make_scopes(r);
    r.units.declare(r.program.modules);
    take_firm(r);
    declare_choices(r);
    list_entries(r);
    if (!r.full)
        declare_callables(r);
    if (!r.full)
        make_instances(r);
    if (!r.full)
        declare_lines(r);
    if (!r.full)
        declare_prices(r);
    if (!r.full)
        fill_lines(r);
}

void finish(Resolution& r) {
    lay_values(r);
    type_quantities(r);
    fill_prices(r);
    take_counts(r);
    take_shown(r);
    describe_job(r);
    add_tried(r);
    fill_callables(r);
    say_units_in_own_money(r.sheet);
}

Sheet sheet_of(Resolution& r) {
    if (!r.full)
        finish(r);
    if (r.full) // reported; what is there does not hang together
        return {};
    return std::move(r.sheet);
}

} // namespace
} // namespace resolving

using namespace resolving;

Sheet resolve(const Program& program, const SourceMap& sources, Diagnostics& diagnostics) {
    if (program.model == none)
        return {};
    Resolution r(program, sources, diagnostics);
    begin(r);
    return sheet_of(r);
}

Sheet resolve(const Program& program, const SourceMap& sources, Diagnostics& diagnostics,
              KeptSheets& kept) {
    if (program.model == none)
        return {};
    Resolution r(program, sources, diagnostics);
    if (const auto begun = kept.find(program)) {
        go_on(r, *begun);
        return sheet_of(r);
    }
    const auto said = [&] { return diagnostics.error_count() + diagnostics.warning_count(); };
    const std::size_t before = said();
    begin(r);
    if (said() == before && may_be_kept(r))
        kept.keep(std::make_shared<const Begun>(r));
    return sheet_of(r);
}

} // namespace acre::lang
