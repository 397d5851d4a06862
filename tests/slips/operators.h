// Slips by rule: what a tired person does to a working file, done to every model, season and job of
// the repository. Which of them are tried is decided by a seed and their names, so an edit of one
// line leaves the others as they were.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tests/slips/stage.h"

namespace acre::tests {

struct Mutant {
    std::string rule, name, base, file;
    std::size_t begin = 0, end = 0;
    std::string replacement;       // of the bytes from begin to end
    std::vector<std::string> runs; // prices that may change
    bool mends_only = false;       // what reads without a word is no slip
};

struct Verdict {
    bool counts = true; // false: no price changes and nothing is said; no slip
    std::string silent; // empty: refused or shown; otherwise the price before and after
    std::optional<std::string> mended; // there was an edit to make; empty: it did no harm
};

// Of the shipped files and the newcomer's; some of each rule.
std::vector<Mutant> chosen_mutants(Stages& stages);

Verdict judge(const Mutant& mutant, Stages& stages);

// An edit that is offered for an error of tests/golden/errors, and what is wrong with it: the error
// stays, or another comes. Empty: it does what it says.
struct TriedEdit {
    std::string name, fault;
};
std::vector<TriedEdit> golden_edits(Stages& stages);

} // namespace acre::tests
