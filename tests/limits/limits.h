// The limits as people read them, in DEVELOPERS.md, and what proves each: something of a given
// size, and what is said of it.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace acre::tests {

// A row of the table.
struct Limit {
    std::string name;  // of the constant
    std::string value; // as written: "4,194,304"
    std::string said;  // past it; empty: nothing is refused, the row says in words what happens
};
std::vector<Limit> limits_of_table();

struct LimitCase {
    std::string name;
    // Makes something of size n, reads it and gives back all that is said of it.
    std::function<std::string(std::uint64_t n)> said;
    bool at_the_limit = true; // false: what is accepted takes too long or too much for a test;
                              // tests/bench/worst_cases.sh has it
};
std::vector<LimitCase> cases_of_texts();     // one file of the notation
std::vector<LimitCase> cases_of_jobs();      // what a job comes to
std::vector<LimitCase> cases_of_questions(); // what is asked of a job
std::vector<LimitCase> cases_of_files();     // other files, and the command line

std::uint64_t value_of(const std::string& name); // of the constant itself
std::vector<std::string> constants();            // all that value_of knows

// "ababab"
std::string repeated(const std::string& piece, std::uint64_t times);
// "a0, a1, a2": `before` and a number each
std::string counted(const std::string& before, const std::string& between, std::uint64_t times);

} // namespace acre::tests
