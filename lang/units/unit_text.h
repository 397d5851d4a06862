// A unit text taken apart: names with exponents, before anybody asks what the names mean.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace acre::lang {

// What went wrong in a unit text, and where in it.
struct UnitError {
    enum class Kind { Unknown, Malformed, TooLarge } kind = Kind::Malformed;
    std::size_t begin = 0;
    std::size_t end = 0;
    std::string word;
};

struct UnitTerm {
    std::string_view name; // into the text that was read
    int exponent = 1;
    std::uint32_t begin = 0; // where the name stands in its text
};

struct UnitTerms {
    static constexpr std::size_t most = 16; // names in one unit
    static constexpr int largest_exponent = 127;

    std::array<UnitTerm, most> terms{};
    std::size_t count = 0;

    const UnitTerm* begin() const { return terms.data(); }
    const UnitTerm* end() const { return terms.data() + count; }
};

// `text` has no blanks. Names are a letter, then letters, digits and '_'; or '%', or a sign of
// money. Each name stands in the result as often as in the text. Reports Malformed and TooLarge.
std::optional<UnitTerms> read_terms(std::string_view text, UnitError& error);

// a * b^sign with each name once; names that cancel are left out. Empty when it has too many names
// or too large an exponent.
std::optional<UnitTerms> combine(const UnitTerms& a, const UnitTerms& b, int sign);

// "$/(ac.ft)", "lb.ft/s^2", "1/h", "1": names with positive exponents first, each in its order.
std::string to_text(const UnitTerms& terms);

} // namespace acre::lang
