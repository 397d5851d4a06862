// Functions that the notation cannot say, behind a signature written in the library. Each gives its
// value and its exact slopes; units are those of the signature.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace acre::engine {

struct NativeFunction {
    std::string_view name; // as the define that declares it
    std::uint32_t arity;
    double (*value)(std::span<const double> args); // NaN where there is no answer
    double (*slopes)(std::span<const double> args,
                     std::span<double> slope_of_arg); // returns the value too
};

std::span<const NativeFunction> native_functions();
std::optional<std::uint32_t> find_native(std::string_view name);

} // namespace acre::engine
