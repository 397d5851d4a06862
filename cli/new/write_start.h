// Puts the files of a start on the disk: all of them, or none.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/new/start.h"
#include "lang/diag/diagnostic.h"

namespace acre::cli {

// Into `folder`, which is made if it is not there. A file that is there as it would be written
// stays, so that the same words once more finish what a power cut broke off; one that says
// something else stops it before anything is written. What goes wrong later takes back what was
// made, and names what could not be. Nothing: all is there; otherwise F707.
std::optional<lang::Diagnostic> write_start(const std::string& folder,
                                            const std::vector<StartFile>& files);

} // namespace acre::cli
