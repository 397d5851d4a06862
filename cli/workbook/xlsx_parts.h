// The parts of a zip archive (APPNOTE 6.3.3 of the format's keeper), as a workbook is one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace acre::cli {

using ZipParts = std::vector<std::pair<std::string, std::string>>; // name, content

// None: it is damaged. By the zlib that the writer of workbooks brings; without it there is nothing
// to read with, and none comes back either.
std::optional<ZipParts> parts_of_zip(std::string_view bytes);

} // namespace acre::cli
