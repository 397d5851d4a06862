// The page as one HTML file: what is read without script, and everything that script needs.
#pragma once

#include <string>

#include "cli/page/collect.h"

namespace acre::cli {

// `module`: in base64.
std::string page_html(const Collected& collected, const std::string& module);

} // namespace acre::cli
