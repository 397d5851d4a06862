#include "lang/diag/suggest.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <string>
#include <utility>

namespace acre::lang {
namespace {

constexpr std::size_t longest = 64; // longer words are not compared
constexpr std::size_t far = 2 * longest;

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::string_view last_part(std::string_view name) {
    const std::size_t dot = name.rfind('.');
    return dot == std::string_view::npos ? name : name.substr(dot + 1);
}

struct Near {
    std::size_t distance;
    std::string_view name;
};

// One bit for each letter that stands in the word; a few share one.
std::uint32_t letters_of(std::string_view word) {
    std::uint32_t letters = 0;
    for (const char c : word)
        letters |= 1U << (static_cast<unsigned char>(lower(c)) & 31U);
    return letters;
}

std::size_t allowed(std::string_view word) {
    return word.size() < 2 ? 0 : std::max<std::size_t>(1, word.size() / 3);
}

} // namespace

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
    if (a.size() > b.size())
        std::swap(a, b);
    if (b.size() - a.size() > limit || b.size() > longest)
        return limit + 1;
    // Every letter that one has and the other has not takes a step of its own: most pairs of names
    // end here.
    const std::uint32_t in_a = letters_of(a);
    const std::uint32_t in_b = letters_of(b);
    if (static_cast<std::size_t>(
            std::max(std::popcount(in_a & ~in_b), std::popcount(in_b & ~in_a))) > limit)
        return limit + 1;
    // Rows of the usual table: two back (for a swap), one back, and this one.
    std::array<std::array<std::size_t, longest + 1>, 3> rows;
    for (std::size_t j = 0; j <= b.size(); ++j)
        rows[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        auto& here = rows[i % 3];
        const auto& above = rows[(i + 2) % 3];
        const auto& two_above = rows[(i + 1) % 3];
        here[0] = i;
        std::size_t least = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const char x = lower(a[i - 1]);
            const char y = lower(b[j - 1]);
            here[j] = std::min({above[j] + 1, here[j - 1] + 1, above[j - 1] + (x == y ? 0U : 1U)});
            if (i > 1 && j > 1 && x == lower(b[j - 2]) && lower(a[i - 2]) == y && x != y)
                here[j] = std::min(here[j], two_above[j - 2] + 1);
            least = std::min(least, here[j]);
        }
        if (least > limit)
            return limit + 1;
    }
    return std::min(rows[a.size() % 3][b.size()], limit + 1);
}

namespace {

std::string_view prefix(std::string_view name) {
    return name.substr(0, name.size() - last_part(name).size());
}

// Slips from one to the other; `far` past the limit.
std::size_t distance_of(std::string_view word, std::string_view name, std::size_t limit) {
    const std::size_t whole = edit_distance(word, name, limit);
    const std::size_t distance = whole > limit ? far : whole;
    if (name.find('.') == std::string_view::npos && word.find('.') == std::string_view::npos)
        return distance;
    // The same word behind another prefix is nearer than another word behind a prefix that looks
    // alike.
    const std::size_t part_limit = allowed(last_part(word));
    const std::size_t part = edit_distance(last_part(word), last_part(name), part_limit);
    if (prefix(word) == prefix(name)) // a long prefix makes no two words alike
        return part > part_limit ? far : part;
    return part > part_limit || distance <= part ? distance : part + 1;
}

} // namespace

std::vector<std::string_view>
near_names(std::string_view word, std::span<const std::string_view> names, std::size_t at_most) {
    std::vector<Near> found;
    for (const std::string_view name : names) {
        const std::size_t distance = distance_of(word, name, allowed(word));
        if (distance == far)
            continue;
        found.push_back({distance, name});
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Near& a, const Near& b) { return a.distance < b.distance; });
    std::vector<std::string_view> out;
    for (const Near& near : found) {
        if (out.size() == at_most)
            break;
        if (std::find(out.begin(), out.end(), near.name) == out.end())
            out.push_back(near.name);
    }
    return out;
}

bool same_letters(std::string_view a, std::string_view b) {
    const auto letters = [](std::string_view word) {
        std::string out(word);
        std::transform(out.begin(), out.end(), out.begin(), lower);
        std::sort(out.begin(), out.end());
        return out;
    };
    return letters(a) == letters(b);
}

std::optional<Edit> near_edit(std::string_view word, std::span<const std::string_view> near,
                              std::string_view name, Span place) {
    if (near.empty() || name != near.front())
        return std::nullopt;
    const std::size_t first = distance_of(word, name, longest);
    const std::size_t slips = last_part(word).size() < 6 ? 1 : 2;
    if (first > slips || (near.size() > 1 && distance_of(word, near[1], longest) <= first))
        return std::nullopt;
    return Edit{place, std::string(name)};
}

} // namespace acre::lang
