// A bare number where a share is declared: `overhead 8` would be 800 %, `0.08` somebody's 8 %.
// It is refused with both mends, so no price rests on a guess. `1 - share` and `2 * share` stay.
#pragma once

#include <string>
#include <string_view>

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// Whether a value of this type is declared in %.
bool is_share(const Type& type);

struct ShareMends {
    std::string likely; // "15 %" for 15, "8 %" for 0.08, "100 %" for 1
    std::string other;  // what else the number may have meant: "1,500 %", "0.08 %", "1 %"
    std::string why;    // when it would be the other: "15 times as much would be"
};
// `value`: not 0; `written`: the same as its author wrote it, without a sign.
ShareMends share_mends(double value, std::string_view written);

class BareShares {
  public:
    // Texts of the first version of the notation are left alone.
    BareShares(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          sources_(sources),
          diagnostics_(diagnostics),
          off_(sheet.notation < 2) {}

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
