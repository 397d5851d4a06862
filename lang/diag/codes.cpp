#include "lang/diag/codes.h"

#include <array>
#include <utility>

#include "lang/diag/diagnostic.h"

namespace acre::lang {
namespace {

struct CodeRow {
    Severity severity;
    std::string_view name;
    std::string_view summary;
};

constexpr auto code_rows = std::to_array<CodeRow>({
#define ACRE_CODE(id, severity, summary) {Severity::severity, #id, summary},
#include "lang/diag/codes.def"
#undef ACRE_CODE
});

constexpr auto touched = std::to_array<std::pair<Code, Touches>>({
#define ACRE_CODE(...)
#define ACRE_TOUCHES(id, what) {Code::id, Touches::what},
#include "lang/diag/codes.def"
#undef ACRE_CODE
#undef ACRE_TOUCHES
});

const CodeRow& row_of(Code code) {
    return code_rows[static_cast<std::size_t>(code)];
}

} // namespace

Severity severity_of(Code code) {
    return row_of(code).severity;
}

Touches touched_by(Code code) {
    for (const auto& [warning, what] : touched)
        if (warning == code)
            return what;
    return Touches::Price;
}

std::string_view name_of(Code code) {
    return row_of(code).name;
}

std::string_view summary_of(Code code) {
    return row_of(code).summary;
}

std::size_t code_count() {
    return code_rows.size();
}

} // namespace acre::lang
