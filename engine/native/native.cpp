#include "engine/native/native.h"

#include "engine/native/deep_draft.h"

namespace acre::engine {

std::span<const NativeFunction> native_functions() {
    return deep_draft_functions();
}

std::optional<std::uint32_t> find_native(std::string_view name, std::uint32_t fixed,
                                         std::uint32_t columns) {
    const auto all = native_functions();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].name == name && all[i].fixed == fixed && all[i].columns == columns)
            return static_cast<std::uint32_t>(i);
    return std::nullopt;
}

} // namespace acre::engine
