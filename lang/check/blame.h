// Whose fault an unlike unit is. A mismatch shows where two things meet; the slip may stand in
// another line: a line declared in a unit that neither its formula nor its uses have, or a given
// whose number lost its unit.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::lang {

class Blame {
  public:
    Blame(const Sheet& sheet, const SourceMap& sources) : sheet_(sheet), sources_(sources) {}

    // What the line should be declared as: its formula gives that, something that reads the line
    // needs that, and nothing that reads it needs what it declares.
    std::optional<Type> misdeclared(LineId line);
    // Whether the formula of the line is right but for a misdeclared line that it reads: that one
    // is told, and nothing that follows from it.
    bool only_follows(LineId line);

    // A given whose number has no unit, or only `$`: with `unit` the formula of the line is right,
    // and nothing else needs the given as it is. The only such given.
    struct Unitless {
        LineId given = none;
        NodeId value = none;
        Type type;
        bool inverse = false; // it is divided by: its unit is over what is missing
    };
    std::optional<Unitless> unitless(LineId line, const Dim& missing);

    // Whether the given's number, as the model writes it, has no unit or only `$`, it declares
    // none, and its range does not say that it is meant so.
    bool may_lack_unit(LineId line) const;

    // The formula that a cost's quantity belongs to: that of its amount. Others: the line itself.
    LineId whole_of(LineId line) const;

  private:
    void index();
    void collect(NodeId node, std::vector<LineId>& lines, int through = 0);
    bool fits(LineId formula, LineId line, const Type& type);

    const Sheet& sheet_;
    const SourceMap& sources_;
    std::size_t budget_ = 4'000'000; // nodes to look at in all; past it nobody is blamed
    bool indexed_ = false;
    std::vector<std::vector<LineId>> reads_;   // by line: what its formula reads, once each
    std::vector<std::vector<LineId>> read_by_; // by line: whose formulas read it
    std::map<LineId, std::optional<Type>> known_;
};

// The first setting of a given that a model makes; none where it makes none.
NodeId own_value(const Sheet& sheet, LineId given);

} // namespace acre::lang
