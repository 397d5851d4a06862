// In what the versions of the notation differ. A text that was sealed in a quote book is read, and
// its quote priced again, by the rules of its own version; whoever must tell one version from
// another asks here. Texts sealed without a version are of the first.
//
//   1  a bare number may stand for a share (15 for 1,500 %)
//   2  shares carry `%`; lines are not below zero; a rate is rounded and its quantity with it
//   3  `profit.total` is after overhead; a copy of a used model starts from the shared one
//   4  clock times; days that are closed; `reserve`, `swing whole`
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace acre::lang {

inline constexpr std::uint32_t current_notation = 4;

struct Rules {
    bool shares_carry_percent;   // S124
    bool lines_are_not_negative; // E509, of lines and of `at least`
    bool quantities_are_rounded; // as a quote shows them, before the rate is taken
    bool entries_are_apart;      // I610: what `sum` adds up is not set for all entries at once
    bool lists_are_declared;     // L824, and no entry takes the name of a line
    bool profit_after_overhead;  // and the lines overhead.total, contribution.total and .share
    bool copies_start_from_shared;
};

constexpr Rules rules_of(std::uint32_t notation) {
    return {notation >= 2, notation >= 2, notation >= 2, notation >= 2,
            notation >= 2, notation >= 3, notation >= 3};
}

// Words that can no longer name anything, and since which version.
struct NewWord {
    std::string_view spelling;
    std::uint32_t since;
};
inline constexpr auto new_words =
    std::to_array<NewWord>({{"before", 2}, {"choose", 2}, {"how_many", 2}, {"may", 2}});

constexpr bool is_a_word_of(std::uint32_t notation, std::string_view word) {
    for (const NewWord& later : new_words)
        if (later.spelling == word)
            return notation >= later.since;
    return true;
}

} // namespace acre::lang
