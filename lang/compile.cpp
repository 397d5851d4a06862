#include "lang/compile.h"

#include <utility>

#include "lang/check/check.h"
#include "lang/check/resolve/begun.h"
#include "lang/earlier/choices.h"
#include "lang/kept_trees.h"
#include "lang/load_program.h"

namespace acre::lang {

std::optional<CheckedSheet> compile(const Request& request, Loader& loader, SourceMap& sources,
                                    Diagnostics& diagnostics) {
    std::optional<CheckedSheet> checked;
    if (const std::optional<Program> program =
            load_program(request, loader, sources, diagnostics)) {
        KeptTrees* const trees = loader.kept_trees();
        Sheet sheet = trees != nullptr ? resolve(*program, sources, diagnostics, trees->sheets())
                                       : resolve(*program, sources, diagnostics);
        checked = check(std::move(sheet), sources, diagnostics);
        if (checked) {
            lint(*checked, sources, diagnostics);
            if ((*checked)->notation == current_notation)
                report_compared_choices(**checked, sources, diagnostics);
        }
    }
    diagnostics.sort();
    return diagnostics.has_errors() ? std::nullopt : std::move(checked);
}

} // namespace acre::lang
