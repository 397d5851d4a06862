#include "lang/diag/place.h"

namespace acre::lang {

std::string spoken_place(const SourceMap& sources, Span span, FileId seen_from) {
    const SourceFile& file = sources.file(span.file);
    const std::string line = "line " + std::to_string(file.position(span.begin).line);
    return span.file == seen_from ? line : file.name() + ", " + line;
}

} // namespace acre::lang
