// Boundaries read once, however many blocks of a job name them.
#pragma once

#include <cstddef>
#include <map>
#include <string>

#include "engine/field/boundary.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

// Bytes of all boundaries that a job or a question names, each file once.
inline constexpr std::size_t max_boundaries_bytes = std::size_t{64} << 20U;

struct BoundaryText {
    std::string name;    // how the file is called
    std::string text;    // GeoJSON; empty where the name is known already
    std::string feature; // the one that counts, by name or number; empty: all of them
};

class KnownBoundaries {
  public:
    struct Known {
        lang::FileId file;
        Boundary boundary; // with all its features
    };
    // Null: no text of this name was read.
    const Boundary* find(const std::string& name) const {
        const auto known = by_name_.find(name);
        return known == by_name_.end() ? nullptr : &known->second.boundary;
    }
    // As it was read under this name before, or from its text, which goes to `sources`. Null: the
    // diagnostics say why.
    const Known* read(BoundaryText text, lang::SourceMap& sources, lang::Diagnostics& diagnostics);

  private:
    std::map<std::string, Known> by_name_;
};

} // namespace acre::engine
