// A slip: a small edit of a working model, season, job or command line, and its right outcome. The
// files tests/slips/NN-class.txt hold them (README.md says how they are written); they are read
// and judged here. The judge knows no formula of the program: it looks at prices before and after,
// at codes, and at what the helps do.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "tests/slips/stage.h"

namespace acre::tests {

enum class Outcome { Refused, Warned, Reads };

struct Slip {
    struct Edit {
        std::string file, before, after; // after an empty `before`: appended
    };

    std::string name, kind, place; // kind: the file's name; place: file and line, for messages
    std::string base;
    std::vector<Edit> edits;
    std::map<std::string, std::string> added; // whole files
    std::vector<std::string> runs;            // command lines; none: the price of the base's job
    std::string input;                        // a file, as standard input
    Outcome outcome = Outcome::Refused;
    std::string code;                      // "?": any that its file does not cause without the slip
    std::optional<std::string> price;      // what it reads
    std::optional<std::string> instead;    // refused, or else read as meant: at this price
    std::vector<std::string> says, helps;  // parts of the message, of one of its helps
    std::vector<std::string> shows, hides; // parts of the page; what must not be on it
    std::string on;                        // a part of the line it points at
    std::optional<std::string> mended;     // the price once the first edit among its helps is made
};

// All slips of all classes, in order.
std::vector<Slip> all_slips();

// Empty: it comes out as it should. Otherwise what is wrong.
std::string judge(const Slip& slip, Stages& stages);

// The slips of tests/slips/not_yet.txt: what the program does not catch yet.
std::vector<std::string> not_yet();

} // namespace acre::tests
