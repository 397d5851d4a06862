// Schema acrewright.check/1: diagnostics for editors and other programs. Field by field in
// cli/README.md.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "engine/questions/check.h"

namespace acre::cli {

struct CheckedFile {
    std::string path;
    engine::CheckAnswer found;
};

Document check_json(const std::vector<CheckedFile>& files);

} // namespace acre::cli
