#include "engine/run.h"

namespace acre::engine {

bool run(const lang::Request& request, lang::Loader& loader, Run& result) {
    result.sheet = lang::compile(request, loader, result.sources, result.diagnostics);
    if (!result.sheet)
        return false;
    result.compiled = compile_plan(*result.sheet, result.sources, result.diagnostics);
    if (!result.compiled)
        return false;
    result.values = evaluate(result.compiled->plan);
    return true;
}

} // namespace acre::engine
