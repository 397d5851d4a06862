// What the texts of a job name, where, and what it comes to: for editors, which show figures beside
// the text, and for whoever completes a name.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct Stretch { // of a text: bytes from `begin` to before `end`
    std::string file;
    std::uint32_t begin = 0, end = 0;
};

// One line as the sheet has it. A statement may make several: a cost makes three, a model that is
// used twice makes each twice, a part `each` of a list one for each entry.
struct LineNow {
    std::string name;                   // dotted: "crawler.fuel.amount"
    std::string text;                   // its value as people read it
    bool amount = false;                // of a cost: what it comes to
    std::string set_by, because, place; // of a given: who set it, why, where ("a.season:4")
};

struct Symbol { // a name that a statement declares
    enum class Kind : std::uint8_t { Given, Line, Cost, Event, Function, Table };
    Kind kind = Kind::Line;
    std::string name;  // as declared: "fuel"
    std::string label; // may be empty
    std::string unit;  // as written; empty of a choice
    Stretch at;        // the name where it is declared
    std::vector<LineNow> lines;
    std::vector<std::string> options;    // of a choice
    std::string written;                 // its formula, on one line; of a function its head
    std::vector<std::string> sources;    // of a function
    std::vector<std::string> parameters; // of a function or a table: "speed : mi/h"
    bool is_choice() const { return !options.empty(); }
};

struct Mention { // where a text says the name of a symbol
    Stretch at;
    std::uint32_t symbol = 0;
};

struct PriceNow { // a `price` of the model
    Stretch at;   // its statement
    std::string title, name;
    std::string amount, rate; // "$85,078.00"; "$721.00/ac", empty of a lump sum
};

struct Reference { // a model, season or library that a text names
    std::string from, written, file;
};

struct Outline {
    std::string title;
    std::vector<Symbol> symbols;   // by file, then place
    std::vector<Mention> mentions; // likewise; declarations are among them
    std::vector<PriceNow> prices;  // empty: no price, or a fault stops it
    std::string total, per_unit;   // "$95,078.00", "$805.75/ac all in"; empty without a price
    std::vector<Reference> uses;
    std::vector<std::string> files;   // of all texts, without what is built in
    std::vector<std::string> nouns;   // that its models declare, and their units
    std::vector<std::string> options; // titles of the job's options
};

struct OutlineQuestion {};

// A job that was made always has one: what has no answer says so.
Outline ask(const PricedJob& job, const OutlineQuestion& question);

} // namespace acre::engine
