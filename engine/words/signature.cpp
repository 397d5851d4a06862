#include "engine/words/signature.h"

#include <fmt/format.h>

namespace acre::engine {
namespace {

std::size_t fixed_of(const lang::Function& function) {
    return function.parameters.size() - function.columns.size() * function.rows;
}

std::string columns_of(const lang::Function& function) {
    std::string text = fmt::format("each {} (", function.list);
    for (std::size_t c = 0; c < function.columns.size(); ++c)
        text += fmt::format("{}{} : {}", c > 0 ? ", " : "", function.columns[c],
                            function.parameter_texts[fixed_of(function) + c]);
    return text + ")";
}

} // namespace

std::vector<std::string> parameters_of(const lang::Function& function) {
    std::vector<std::string> parameters;
    for (std::size_t i = 0; i < fixed_of(function); ++i)
        parameters.push_back(function.parameters[i] + " : " + function.parameter_texts[i]);
    if (!function.list.empty())
        parameters.push_back(columns_of(function));
    return parameters;
}

std::string signature_of(const lang::Function& function) {
    std::vector<std::string> parameters = parameters_of(function);
    std::string list;
    if (!function.list.empty()) {
        list = " " + parameters.back();
        parameters.pop_back();
    }
    return fmt::format("{} ({}){} : {}", function.name, fmt::join(parameters, ", "), list,
                       function.type_text);
}

std::string parameter_name(const lang::Function& function, std::uint32_t parameter) {
    const std::size_t fixed = fixed_of(function);
    return parameter < fixed ? function.parameters[parameter]
                             : function.columns[(parameter - fixed) % function.columns.size()];
}

} // namespace acre::engine
