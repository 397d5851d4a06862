// A formula that somebody tries out: a line of its own, after all others, of whatever kind and unit
// its formula is.
#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/resolution.h"
#include "lang/check/type_of.h"
#include "lang/check/written_unit.h"

namespace acre::lang::resolving {

void add_tried(Resolution& r) {
    if (r.program.tried == none)
        return;
    const ast::Module& module = r.program.modules[r.program.tried];
    const auto* set = module.statements.empty()
                          ? nullptr
                          : std::get_if<ast::Set>(&module.statements.front().node);
    if (set == nullptr)
        return; // it could not be read, and that was told
    const Where where{&module, 0, {}, nullptr, true};
    Line line;
    line.name = tried_line;
    line.name_span = set->name.span;
    line.span = module.statements.front().span;
    line.value = build(r, where, set->value);
    line.type = type_of(r.sheet, line.value);
    if (line.type.kind == Type::Kind::Number) {
        NamedUnit shown =
            WrittenUnits(r.sheet, r.sources, nullptr).named(line.value, line.type.unit);
        line.type.unit = shown.unit;
        line.unit_text = std::move(shown.text);
    }
    line.may_be_negative = true;
    r.sheet.add(std::move(line));
}

} // namespace acre::lang::resolving
