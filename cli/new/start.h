// The files of a business that starts: a model, a season, a job, a firm and the
// wording of a quote.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/outcome.h"

namespace acre::cli {

struct StartWords {
    std::string firm = "Our Firm";
    std::string work = "Mowing";
    std::string machine = "machine";
    std::string per = "h";        // a unit, or what is counted: "stump"
    std::string paid = "$60,000"; // for the machine
    std::string year;             // "2027"
};

struct StartFile {
    std::string name; // in its folder
    std::string text;
    const char* is = ""; // in a few words
};

// C003 where a word cannot stand in the files.
lang::Outcome<std::vector<StartFile>> start_files(const StartWords& words);

// cli/new/templates, in the order of their names.
std::span<const std::string_view> start_texts();

} // namespace acre::cli
