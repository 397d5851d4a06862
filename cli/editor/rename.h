// A new name for what a statement declares, in every text that says it.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "cli/editor/workspace.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct Replacement {
    std::uint32_t begin = 0, end = 0;
    std::string text;
};
using Replacements = std::map<std::string, std::vector<Replacement>>; // by file, in order

using Places = std::map<std::string, std::vector<engine::Stretch>>; // by file, in order

// Every place that says the symbol, in all texts of the folder that can be read: those of a season
// by the jobs that name it. `seen`: what each job and model of the folder is now.
Places mentions_in_folder(const Workspace& workspace, const engine::Outline& outline,
                          std::uint32_t symbol, std::map<std::string, Looked>& seen);

// C003 where the new name is none, or the texts would not say the same with it: a job's price, or
// what is found in a text, would be another.
lang::Outcome<Replacements> renamed(const Workspace& workspace, const engine::Outline& outline,
                                    std::uint32_t symbol, const std::string& name);

} // namespace acre::cli
