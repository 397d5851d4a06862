// Types and conversions of the nodes of one sheet.
#pragma once

#include <string_view>
#include <vector>

#include "lang/check/bare_share.h"
#include "lang/check/mismatch.h"
#include "lang/check/ops.h"
#include "lang/check/sheet.h"

namespace acre::lang {

class Typing {
  public:
    Typing(Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          mismatches_(sheet, sources, diagnostics),
          shares_(sheet, sources, diagnostics),
          done_(sheet.nodes.size(), false) {}

    // Fills the types of the tree at `node`, puts in the conversions inside it, and reports what
    // does not fit. `wanted`: what the place declares, where it is known.
    const Type& type(const Site& site, NodeId node, const Type* wanted = nullptr);

    // The node itself, or a Convert of it to the unit; the node's dimension must be that of the
    // unit.
    NodeId converted(NodeId node, const Unit& unit);

    Mismatches& report() { return mismatches_; }
    const BareShares& shares() const { return shares_; }

  private:
    void type_unary(const Site& site, NodeId node);
    void type_binary(const Site& site, NodeId node, const Type* wanted);
    void type_when(const Site& site, NodeId node, const Type* wanted);
    void type_list(const Site& site, NodeId node, const Type* wanted);
    void type_table(const Site& site, NodeId node);
    void type_call(const Site& site, NodeId node);
    void note_odd_pair(const Site& site, NodeId node, NodeId a, NodeId b);

    Sheet& sheet_;
    Mismatches mismatches_;
    BareShares shares_;
    std::vector<bool> done_; // by node that the sheet had at the start
};

} // namespace acre::lang
