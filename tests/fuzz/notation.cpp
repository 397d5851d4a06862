// Any text as a model, a job, a season or values of the command line: read, tidied, checked,
// compiled, evaluated, shown.
#include "tests/fuzz/properties.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"
#include "tests/support/memory_loader.h"

namespace notation_fuzz {

ACREWRIGHT_TARGET(notation, text) {
    using namespace acre;
    const lang::FileKind kind = fuzz::kind_of(text);
    const bool read = fuzz::hold_syntax(text, kind);
    if (kind == lang::FileKind::Season || kind == lang::FileKind::Firm ||
        kind == lang::FileKind::CommandLine)
        return;
    lang::Request request;
    request.name = kind == lang::FileKind::Job ? "f.job" : "f.rate";
    request.text = std::string(text);
    request.kind = kind;
    tests::MemoryLoader loader(fuzz::small_files());
    const bool made = fuzz::hold_job(request, loader).value.has_value();
    HOLDS(read || !made);
}

} // namespace notation_fuzz
