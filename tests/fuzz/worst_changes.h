// What the search for slow inputs begins with, and how it changes them.
#pragma once

#include <cstddef>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace acre::fuzz {

struct WorstInput {
    std::map<std::string, std::string> files;       // of the folder it runs in, by path
    std::vector<std::string> words;                 // of the command line
    std::vector<std::string> read;                  // those of the files that the command reads
    std::vector<std::vector<std::string>> before{}; // commands that have to be done first

    std::size_t bytes() const; // of files that are read, and words
    // Trials and threads in numbers of more than four digits: who asks for them waits.
    bool asks_for_more() const;
};

// One for each way of asking a command.
std::vector<WorstInput> worst_starts();

// Copies lines, numbered or not, repeats pieces of them, nests brackets, puts numbers at the edge,
// takes lines away or from another file, copies files, adds words. A file stays below `largest`.
void change(WorstInput& input, std::size_t largest, std::mt19937_64& random);

} // namespace acre::fuzz
