// What a command takes, as data: for its help, its manual page and the completion of a shell.
#pragma once

#include <string>
#include <vector>

namespace acre::cli {

struct UsageRow {
    std::string name;  // "JOB", "--set"
    std::string value; // of an option: "NAME=VALUE"; empty: it takes none
    std::string help;
};

struct Usage {
    std::string line; // "acrewright price JOB"
    std::string about, example;
    std::vector<UsageRow> positionals, options;
};

} // namespace acre::cli
