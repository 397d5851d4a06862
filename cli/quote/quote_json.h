// Schema acrewright.record/2: a record as other programs read it. Field by field in
// engine/book/FORMAT.md.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

// What the file says, in ASCII, as all JSON of the program is; nothing added, so that the seal
// still holds.
std::string record_json(std::string_view bytes);

} // namespace acre::cli
