#include "lang/syntax/nothing_after.h"

#include <array>
#include <utility>

namespace acre::lang {
namespace {

constexpr auto texts = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"*", "nothing to multiply by"},
    {"/", "nothing to divide by"},
    {"+", "nothing to add"},
    {"-", "nothing to subtract"},
    {"^", "no power"},
    {"<", "nothing to compare with"},
    {"<=", "nothing to compare with"},
    {">", "nothing to compare with"},
    {">=", "nothing to compare with"},
    {"==", "nothing to compare with"},
    {"!=", "nothing to compare with"},
    {"=", "no formula"},
    {"(", "nothing in the parentheses"},
    {",", "no value after the comma"},
    {"and", "no second condition"},
    {"or", "no second condition"},
    {"not", "no condition"},
    {"when", "no condition"},
    {"then", "no value for this case"},
    {"otherwise", "no value for the other cases"},
    {"over", "no quantity"},
    {"within", "no lower bound"},
    {"swing", "no lower bound"},
    {"choose", "no lower bound"},
    {"..", "no upper bound"},
    {"of", "no quantity"},
    {"costs", "no amount of money"},
    {"$", "no amount"},
});

} // namespace

std::string_view nothing_after(std::string_view sign) {
    for (const auto& [before, text] : texts)
        if (before == sign)
            return text;
    return {};
}

} // namespace acre::lang
