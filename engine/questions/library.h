// The formulas of a library of models, as the language itself reads them.
#pragma once

#include <string>
#include <vector>

#include "lang/diag/outcome.h"
#include "lang/loader.h"

namespace acre::engine {

struct WorkedExample {
    std::string call;     // as written
    std::string expected; // as written, with its tolerance
    double value = 0;     // what the engine gives
    std::string text;     // the same as people read it
};

struct Formula {
    std::string name, library; // "field_capacity", "library/field-work"
    std::string label;         // what it gives, in a few words
    std::string signature;     // with units: "field_capacity (speed : mi/h, …) : ac/h"
    std::string unit;
    std::string written; // the whole define
    std::string known;   // how sure its source is, in words
    bool native = false;
    std::vector<std::string> sources, notes;
    std::vector<std::string> tested, limits; // "speed 0.5 mi/h .. 10 mi/h"
    std::vector<WorkedExample> examples;     // worked out for a formula asked for by name only
};

struct LibraryQuestion {
    std::vector<std::string> libraries; // references of models, as a `use` writes them
    std::string from;                   // the name of the text that uses them, for the loader
    std::string name;                   // of one formula; empty: all
};

struct LibraryAnswer {
    std::vector<Formula> formulas; // in the order of the libraries' texts
};

// Without a value there is no formula of that name (Q001), or a library is at fault.
lang::Outcome<LibraryAnswer> ask(const LibraryQuestion& question, lang::Loader& loader);

} // namespace acre::engine
