// A file is written whole or not at all.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

// Writes beside the file, waits until it is on the disk, then takes its place: a reader sees the old text or the new one, and
// so does a machine that lost its power. A link stays a link, the permissions stay. Empty: done; else the system's reason, and
// the file is as it was.
std::string write_file(const std::string& path, std::string_view text);

} // namespace acre::cli
