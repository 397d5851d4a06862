// Small helpers to say what is wrong: the messages that many stages of resolve share.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang::resolving {

// A diagnostic with one mark and any helps.
Diagnostic problem(Code code, std::string title, Span span, std::string label = {},
                   std::vector<std::string> helps = {});

// N202 (or N210) with both places. `help` may be empty.
void report_twice(const SourceMap& sources, Diagnostics& diagnostics, std::string title,
                  Span second, Span first, std::string help = {}, Code code = Code::N202);

// "`a`", "`a` and `b`", "`a`, `b` and `c`"; of many names the first dozen and how many more.
std::string listed(const std::vector<std::string_view>& names);

} // namespace acre::lang::resolving
