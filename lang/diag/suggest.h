// Near names: what somebody who wrote a name that does not exist may have meant.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "lang/diag/diagnostic.h"

namespace acre::lang {

// Letters to insert, remove, replace or swap with a neighbour to get from `a` to `b`; anything past
// `limit` is limit + 1.
std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit);

// The nearest of `names`, nearest first, ties in the order given; repeats once. Empty when none is
// near: a third of the letters may differ. Case counts less than a letter. A name with dots is near
// too when its last part is.
std::vector<std::string_view>
near_names(std::string_view word, std::span<const std::string_view> names, std::size_t at_most = 3);

// Whether the words have the same letters, in any order and case.
bool same_letters(std::string_view a, std::string_view b);

// The edit that puts one of `near` (near_names of the word) at its place: only for the first, where
// it is two slips away at most and nearer than the second. Else it is a guess, for a person to
// make.
std::optional<Edit> near_edit(std::string_view word, std::span<const std::string_view> near,
                              std::string_view name, Span place);

} // namespace acre::lang
