// Where something is, as people say it.
#pragma once

#include <string>

#include "lang/source/source_map.h"

namespace acre::lang {

// "deep-rip.rate, line 14"; "line 14" for readers who are in that file already. `span.file` must be
// of `sources`. The name of the file is not made safe to show.
std::string spoken_place(const SourceMap& sources, Span span, FileId seen_from = 0xFFFFFFFF);

} // namespace acre::lang
