#include "engine/field/known_boundaries.h"

#include <optional>
#include <utility>

namespace acre::engine {

const KnownBoundaries::Known* KnownBoundaries::read(BoundaryText text, lang::SourceMap& sources,
                                                    lang::Diagnostics& diagnostics) {
    if (const auto known = by_name_.find(text.name); known != by_name_.end())
        return &known->second;
    const lang::FileId file = sources.add(text.name, std::move(text.text));
    std::optional<Boundary> boundary = read_boundary(sources, file, diagnostics);
    if (!boundary)
        return nullptr;
    return &by_name_.emplace(std::move(text.name), Known{file, std::move(*boundary)}).first->second;
}

} // namespace acre::engine
