// What people call an option of a choice: "one way" for one_way.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

namespace acre::engine {

inline std::string choice_label(std::string_view option) {
    std::string label(option);
    std::replace(label.begin(), label.end(), '_', ' ');
    return label;
}

} // namespace acre::engine
