// Where random texts and plans get their throws from: a seed, or bytes that somebody else chose (a
// fuzzer: every byte is a decision, so it can change one and keep the rest). Bytes that are used up
// throw 0 for ever, so choice 0 of a generator is the one that ends.
#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <random>
#include <string>
#include <string_view>

namespace acre::tests {

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : random_(seed), seeded_(true) {}
    explicit Dice(std::string_view bytes) : bytes_(bytes) {}

    // 0 … n - 1
    std::size_t below(std::size_t n) {
        if (seeded_)
            return static_cast<std::size_t>(random_() % n);
        std::size_t thrown = byte();
        for (std::size_t reach = 256; reach < n; reach *= 256)
            thrown = thrown * 256 + byte();
        return thrown % n;
    }
    double real(double low, double high) {
        const double share = seeded_ ? static_cast<double>(random_() >> 11) * 0x1p-53
                                     : static_cast<double>(byte() * 256 + byte()) * 0x1p-16;
        return low + (high - low) * share;
    }
    bool used_up() const { return !seeded_ && bytes_.empty(); }

  private:
    std::size_t byte() {
        if (bytes_.empty())
            return 0;
        const auto first = static_cast<unsigned char>(bytes_.front());
        bytes_.remove_prefix(1);
        return first;
    }

    std::mt19937_64 random_;
    std::string_view bytes_;
    bool seeded_ = false;
};

// Pieces put together. In a list they are made from left to right; in a sum of texts every compiler
// has its own order, and the same throws would be another text.
inline std::string in_order(std::initializer_list<std::string> pieces) {
    std::string text;
    for (const std::string& piece : pieces)
        text += piece;
    return text;
}

} // namespace acre::tests
