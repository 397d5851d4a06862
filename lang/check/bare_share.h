// A bare number where a share is declared: `overhead 8` would be 800 %, `0.08` somebody's 8 %.
// It is refused with both mends, so no price rests on a guess. `1 - share` and `2 * share` stay.
#pragma once

#include <cstdint>

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

class BareShares {
  public:
    // Texts of the first version of the notation are left alone.
    BareShares(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          sources_(sources),
          diagnostics_(diagnostics),
          off_(!rules_of(sheet.notation).shares_carry_percent) {}

    // A value where `wanted` is declared, its arms and what min and max choose from. S124.
    void in(NodeId value, const Type& wanted) const;
    // Two values of which each is held against the other: sides, arms. S124.
    void pair(NodeId a, NodeId b) const;
    // The values of min and max. S124.
    void list(std::uint32_t first_arg, std::uint32_t count) const;
    // The share of a price step: no name declared `: 1` either. S124.
    void step(NodeId value) const;
    // A value that is always a share, whatever it stands in. S124.
    void always(NodeId value) const { look(value, false); }

  private:
    NodeId written(NodeId id) const; // without a conversion of the checker's own
    void look(NodeId id, bool names) const;
    void number(const Node& node) const;
    void name(const Node& node) const;

    const Sheet& sheet_;
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
    bool off_;
};

} // namespace acre::lang
