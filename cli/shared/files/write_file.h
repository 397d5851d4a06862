// A file of the user's is written whole or not at all.
#pragma once

#include <string>
#include <string_view>

#include "cli/shared/console.h"
#include "cli/shared/reply.h"

namespace acre::cli {

struct Written {
    std::string reason;    // the system's; empty: done, and it outlives a power cut
    bool in_place = false; // the new text stands there. With a reason: it may not outlive a power
                           // cut. Else the file is as it was
};

// Writes beside the file, waits until it is on the disk, then takes its place: a reader sees the
// old text or the new one, and so does a machine that lost its power. A link stays a link, the
// permissions stay.
Written write_file(const std::string& path, std::string_view text);

// The same; false: the reply says why (F707).
bool save(const std::string& path, std::string_view text, Reply& reply);

// Writes a file of a new name; what is there stays as it is, and the reply says so (F707). `help`:
// what to do then.
bool save_new(const std::string& path, std::string_view text, std::string help, Reply& reply);

} // namespace acre::cli
