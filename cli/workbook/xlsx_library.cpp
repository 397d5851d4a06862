#include "cli/workbook/xlsx_library.h"

#include <optional>
#include <type_traits>

#include <dlfcn.h>

namespace acre::cli {
namespace {

std::optional<XlsxLibrary> loaded() {
    void* const library = ::dlopen(xlsx_library_name, RTLD_NOW | RTLD_LOCAL);
    if (library == nullptr)
        return std::nullopt;
    XlsxLibrary functions;
    bool all = true;
    const auto find = [&](const char* name, auto& function) {
        function =
            reinterpret_cast<std::remove_reference_t<decltype(function)>>(::dlsym(library, name));
        all = all && function != nullptr;
    };
#define ACRE_XLSX_FIND(name) find(#name, functions.name);
    ACRE_XLSX_FUNCTIONS(ACRE_XLSX_FIND)
#undef ACRE_XLSX_FIND
    return all ? std::optional(functions) : std::nullopt;
}

} // namespace

const char* const xlsx_library_name = ACREWRIGHT_XLSXWRITER;

const XlsxLibrary* xlsx_library() {
    static const std::optional<XlsxLibrary> library = loaded();
    return library ? &*library : nullptr;
}

} // namespace acre::cli
