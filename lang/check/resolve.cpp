#include "lang/check/resolve.h"

#include <utility>

#include "lang/check/resolve/money.h"
#include "lang/check/resolve/resolution.h"

namespace acre::lang {

Sheet resolve(const Program& program, const SourceMap& sources, Diagnostics& diagnostics) {
    using namespace resolving;
    if (program.model == none)
        return {};
    Resolution r(program, sources, diagnostics);
    r.sheet.notation = program.notation;
    declare_lists(r);
    make_scopes(r);
    r.units.declare(program.modules);
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
    if (!r.full) {
        fill_lines(r);
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
    if (r.full) // reported; what is there does not hang together
        return {};
    return std::move(r.sheet);
}

} // namespace acre::lang
