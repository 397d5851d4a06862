// Functions that the notation cannot say, behind a signature written in the library. Each gives its
// value and its exact slopes; units are those of the signature.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace acre::engine {

// One argument of many calls, one to a lane; or the same of all.
struct NativeColumn {
    const double* at = nullptr;
    bool same = false;
    double operator[](std::size_t lane) const { return at[same ? 0 : lane]; }
};

inline constexpr std::size_t most_native_args = 64;
// What one search finds serves several functions.
inline constexpr std::size_t native_results = 4;

struct NativeFunction {
    std::string_view name;   // as the define that declares it
    std::uint32_t fixed;     // values of every call
    std::uint32_t columns;   // of each row of a list; 0: over no list
    std::uint32_t most_rows; // one at least; the values of a call are fixed + columns × rows
    // Many calls at once, with the bits of `value`: rows of results, of which `result` is this
    // function's. bits: of the widest vectors that may be used.
    void (*lanes)(std::span<const NativeColumn> args, std::size_t lanes, std::uint32_t bits,
                  double* const* results);
    std::uint32_t result;
    double (*value)(std::span<const double> args); // NaN where there is no answer
    double (*slopes)(std::span<const double> args,
                     std::span<double> slope_of_arg); // returns the value too

    std::uint32_t arity(std::uint32_t rows) const { return fixed + columns * rows; }
};

std::span<const NativeFunction> native_functions();
// Of this name and shape, whatever the number of rows.
std::optional<std::uint32_t> find_native(std::string_view name, std::uint32_t fixed,
                                         std::uint32_t columns);

} // namespace acre::engine
