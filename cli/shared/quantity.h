// A quantity on the command line, as the notation writes it: "7 ft", "1.5 mi/h", "$0.25/gal".
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::cli {

// The number in `unit_text` ("m", "m/s"). Empty: `reason` says what is wrong ("a length is needed,
// as in 7 ft").
std::optional<double> read_quantity(std::string_view text, std::string_view unit_text,
                                    std::string& reason);

} // namespace acre::cli
