// The unit of a formula in the words its author used: `speed * width` of lines in mi/h and ft is in
// mi.ft/h.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <string_view>

#include "lang/check/sheet.h"
#include "lang/source/source_map.h"
#include "lang/units/named_unit.h"

namespace acre::lang {

class WrittenUnits {
  public:
    // `function`: the define whose formulas are read; nullptr outside one.
    WrittenUnits(const Sheet& sheet, const SourceMap& sources, const Function* function)
        : sheet_(sheet),
          sources_(sources),
          function_(function) {}

    // Of a node that has its type. A plain number is "1"; what is no number is an empty text.
    std::string text(NodeId node);
    // The unit in which a value that no line declares is shown, a formula of type `unit`: in the
    // words of its author ("ac" of `5 % * 40 ac`), else as the catalog names it; never a factor.
    NamedUnit named(NodeId node, const Unit& unit);
    // The unit of `a` over that of `b`, as a unit that people would name: "ac/h" for $/h over $/ac.
    std::string quotient_text(NodeId a, NodeId b);
    // The same for a unit that is declared.
    std::string quotient_text(std::string_view unit_text, const Unit& unit, NodeId b);

  private:
    std::optional<UnitTerms> terms(NodeId node, int depth = 0);
    std::optional<UnitTerms> terms_of(const Node& node, int depth);
    std::optional<UnitTerms> terms_of_operation(const Node& node, int depth);
    std::optional<UnitTerms> terms_of_clock(const Node& node, int depth);
    std::optional<UnitTerms> read(std::string_view text) const;
    std::optional<UnitTerms> of_number(const Node& node);
    std::string quotient(const std::optional<UnitTerms>& above, const Unit& unit, NodeId b);
    std::string to_text_of(const std::optional<UnitTerms>& terms, const Unit& unit) const;

    const Sheet& sheet_;
    const SourceMap& sources_;
    const Function* function_;
    std::deque<std::string> kept_; // texts that terms point into
};

// Whether a unit text hides a ratio: gal/ac is a length, ac/ft another. Right as it may be, it is
// seldom what is missing.
bool hides_ratio(const Sheet& sheet, std::string_view unit_text);
// Whether one of two units of one dimension hides a ratio that the other has not: gal/ac is a
// length, as in is, but a sum of them is seldom meant.
bool nothing_in_common(const Sheet& sheet, std::string_view a, std::string_view b);

} // namespace acre::lang
