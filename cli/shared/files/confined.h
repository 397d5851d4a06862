// References inside models and jobs may come from a stranger: they stay below the folder they start
// from.
#pragma once

#include <string>
#include <string_view>

#include "lang/loader.h"

namespace acre::cli {

// True for "crawler" or "library/haul": parts joined by single slashes, none of them "." or "..",
// no backslash, no control character, not absolute.
bool is_confined(std::string_view reference);

// The real path of root/reference. `root` may lie behind links, the reference may not: its writer
// would choose what else of this machine is read. Otherwise F705 when it leads out of the root or
// over a link, F701 when nothing is there, F702 when the system refuses; `kind` says what is looked
// for.
lang::Outcome<std::string> find_below(const std::string& root, std::string_view reference,
                                      lang::ReferenceKind kind);

// "examples/01.job" → "examples", "01.job" → ".". The folder above one: "a/b" → "a", "." → "..",
// ".." → "../..".
std::string folder_of(std::string_view path);
std::string folder_above(std::string_view folder);
std::string joined(std::string_view folder, std::string_view name); // without "./" before it

} // namespace acre::cli
