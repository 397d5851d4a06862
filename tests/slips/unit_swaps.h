// Units that a hand takes for another.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace acre::tests {

// Another of the same kind, with how many of the old one it is; or one of another kind.
struct Swap {
    std::string unit;
    double is; // 0: of another kind
};
inline const std::map<std::string, std::vector<Swap>>& swaps() {
    static const std::map<std::string, std::vector<Swap>> all = {
        {"ft", {{"in", 1 / 12.0}, {"ac", 0}}},
        {"in", {{"ft", 12}, {"h", 0}}},
        {"ac", {{"ha", 2.4710538146717}, {"ft", 0}}},
        {"h", {{"min", 1 / 60.0}, {"day", 0}}},
        {"min", {{"h", 60}, {"mi", 0}}},
        {"mi", {{"ft", 1 / 5280.0}, {"h", 0}}},
        {"mi/h", {{"ft/min", 60.0 / 5280}, {"h/mi", 0}}},
        {"mph", {{"ft/min", 60.0 / 5280}, {"mi", 0}}},
        {"gal", {{"L", 1 / 3.785411784}, {"h", 0}}},
        {"gal/h", {{"L/h", 1 / 3.785411784}, {"h/gal", 0}}},
        {"lb", {{"ton", 2000}, {"lbf", 0}}},
        {"ton", {{"lb", 1 / 2000.0}, {"cy", 0}}},
        {"ac/h", {{"h/ac", 0}}},
        {"h/ac", {{"min/ac", 1 / 60.0}, {"ac/h", 0}}},
        {"day", {{"h", 0}, {"shift", 0}}},
        {"shift", {{"day", 0}}},
        {"h/shift", {{"h/day", 0}, {"min/shift", 1 / 60.0}}},
        {"h/yr", {{"h/mo", 12}, {"h/day", 0}}},
        {"tree", {{"ac", 0}}},
        {"cy", {{"gal", 231 / 46656.0}, {"ton", 0}}}};
    return all;
}

} // namespace acre::tests
