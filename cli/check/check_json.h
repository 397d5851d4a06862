// Schema acrewright.check/1: diagnostics for editors and other programs. Field by field in
// cli/README.md.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/reply.h"

namespace acre::cli {

struct CheckedFile {
    std::string path;
    lang::Said said;
};

Document check_json(const std::vector<CheckedFile>& files);

} // namespace acre::cli
