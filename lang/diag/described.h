// Names by what they say: somebody who does not know a name types a word of it, or of its label.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace acre::lang {

struct Described {
    std::string_view name, label;
};

// Those whose name and label have every word of `words` ("standby per day", "hard"): a word of
// theirs may be longer (`hard` finds "hardfacing") or, from four letters on, shorter (`shifts`
// finds "shift"). Most words in the name, or the first of them at the head of the label, come
// first, then the shorter behind its dots; ties in the order given. The same last part with the
// same label counts once: `crawler.tip` and `rig.tip`.
std::vector<Described> described_by(std::string_view words, std::span<const Described> all,
                                    std::size_t at_most = 4);

// "`standing_by`: standby per day, machine only"
std::string described_help(const Described& found);

} // namespace acre::lang
