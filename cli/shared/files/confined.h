// References inside models and jobs may come from a stranger: they stay below the folder they start
// from.
#pragma once

#include <string>
#include <string_view>

#include "cli/shared/files/descriptor.h"
#include "lang/loader.h"

namespace acre::cli {

// True for "crawler" or "library/haul": parts joined by single slashes, none of them "." or "..",
// no backslash, no control character, not absolute.
bool is_confined(std::string_view reference);

// A folder that references start from. Where it really lies is found once; what is below it is
// opened from there, part by part.
class Folder {
  public:
    explicit Folder(std::string path); // may lie behind links

    // Opens folder/reference and gives back its real path. A reference may not lie behind a link:
    // its writer would choose what else of this machine is read. Otherwise F705 when it leads out
    // of the folder or over a link, F701 when nothing is there, F702 when the system refuses;
    // `kind` says what is looked for. Nothing waits for a pipe that nobody writes to.
    lang::Outcome<std::string> open(std::string_view reference, lang::ReferenceKind kind,
                                    Descriptor& file) const;

  private:
    lang::Diagnostic refused(int error, std::string_view reference, lang::ReferenceKind kind) const;

    std::string path_, real_;
    Descriptor folder_;
    int error_ = 0; // why it cannot be looked into
};

// "examples/01.job" → "examples", "01.job" → ".". The folder above one: "a/b" → "a", "." → "..",
// ".." → "../..".
std::string folder_of(std::string_view path);
std::string folder_above(std::string_view folder);
std::string joined(std::string_view folder, std::string_view name); // without "./" before it

// Where a path leads through links; empty: nowhere, and errno says why.
std::string real_path(const std::string& path);

} // namespace acre::cli
