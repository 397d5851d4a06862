// The engine as a module, as .dev/module built it: packed, and text, for it stands inside a page.
#pragma once

#include <string>

#include "lang/diag/outcome.h"

namespace acre::cli {

// `path` empty: looked for beside the program, in the share folder of its installation, in the
// build tree. In base64. F701 where there is none, F706 where it was built from other sources than
// this program: the help is the command that makes it.
lang::Outcome<std::string> read_module(const std::string& path);

} // namespace acre::cli
