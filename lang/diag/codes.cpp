#include "lang/diag/codes.h"

#include <array>

#include "lang/diag/diagnostic.h"

namespace acre::lang {
namespace {

struct Row {
    Severity severity;
    std::string_view name;
    std::string_view summary;
};

constexpr auto rows = std::to_array<Row>({
#define ACRE_CODE(id, severity, summary) {Severity::severity, #id, summary},
#include "lang/diag/codes.def"
#undef ACRE_CODE
});

const Row& row_of(Code code) {
    return rows[static_cast<std::size_t>(code)];
}

} // namespace

Severity severity_of(Code code) {
    return row_of(code).severity;
}

std::string_view name_of(Code code) {
    return row_of(code).name;
}

std::string_view summary_of(Code code) {
    return row_of(code).summary;
}

std::size_t code_count() {
    return rows.size();
}

} // namespace acre::lang
