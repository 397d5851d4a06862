// What a power cut would leave: the calls of a program played on a model of a disk that keeps a
// promise only when it is asked to. A file's bytes are on the disk once the file was flushed; a
// name is there once its folder was flushed. What was not flushed may be there or not, each name by
// itself, at every moment.
#pragma once

#include <string>
#include <vector>

#include "tests/faults/run.h"

namespace acre::tests {

struct PlayedRun {
    std::vector<Call> calls;
    bool success = false;  // it said that all was done
    bool at_fault = false; // a call of it went wrong
};

// Plays these runs one after the other from `before` (the names that stood on the disk). Looked at
// after every call, for every choice of names that made it: that every file is whole, that no
// record of a book is missing before another or before the head that names it, and, once a run says
// it is done, that everything it did is there. The first that is not so; empty: all holds.
std::string after_power_cut(const State& before, const std::vector<PlayedRun>& runs);

} // namespace acre::tests
