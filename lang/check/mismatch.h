// The messages of the unit check: what two sides are in, what is missing between them, and which
// line of the sheet has it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "lang/check/blame.h"
#include "lang/check/ops.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// Where a formula stands.
struct Site {
    LineId line = none; // whose formula it is; none: a condition, a bound, a function
    const Function* function = nullptr; // within a define
};

inline constexpr std::string_view plain_number = "a plain number";

inline std::string unit_or_plain(std::string_view unit_text) {
    return std::string(unit_text == "1" ? plain_number : unit_text);
}
inline bool is_plain(const Type& type) {
    return type.kind == Type::Kind::Number && type.unit.is_plain();
}

class Mismatches {
  public:
    Mismatches(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          sources_(sources),
          diagnostics_(diagnostics),
          blame_(sheet, sources) {}

    // An operation with one or two operands. `wanted`: the type the whole is to have, if that is
    // known; it decides which side is to be mended. Reports U301, U303, U305 to U309, U312, U313.
    void operation(const Site& site, NodeId node, NodeId a, NodeId b, const Applied& outcome,
                   const Type* wanted);

    // A value where another is declared: `subject` is what is declared ("`wage`"), at `declared`,
    // in `unit_text`. U304 for a number as written, else U302; U308, U309, U313.
    void declared(const Site& site, NodeId value, Mismatch mismatch, const Type& wanted,
                  std::string_view subject, std::string_view unit_text, Span declared);
    // A value that a call hands to a function, or to a table (which has no name for its parameter).
    // U305, U313.
    void argument(const Site& site, NodeId value, Mismatch mismatch, const Type& wanted,
                  std::string_view function, std::string_view parameter, std::string_view unit_text,
                  Span declared);
    // A bound, a correlation or anything else that is of a fixed kind: "the lower bound of
    // `speed`". U304.
    void part(const Site& site, NodeId value, Mismatch mismatch, const Type& wanted,
              std::string_view subject, std::string_view unit_text);
    // A condition that is none. U308.
    void condition(const Site& site, NodeId value);
    // A rate over a quantity that is not money. U310.
    void cost(const Cost& cost);
    void refusal(const Site& site, NodeId costs); // of a requirement: not money
    // Units of one dimension that have nothing in common. L805.
    void odd_pair(const Site& site, NodeId node, NodeId a, NodeId b);

  private:
    // An operation that its operands do not allow; `fault` is the one to blame.
    struct Failed {
        const Site& site;
        const Node& whole;
        NodeId a, b, fault;
        const Applied& outcome;
    };
    void unlike_kinds(const Failed& f);
    void wants_number(const Failed& f);
    void exponent_with_unit(const Failed& f);
    void built_in_argument(const Failed& f);
    void not_a_power(const Failed& f);
    void odd_root(const Failed& f);
    // What a value of another unit than declared lacks, and how to give it.
    void mend_unit(const Site& site, NodeId value, const Type& wanted, std::string_view unit_text,
                   Diagnostic& d) const;
    std::optional<Help> turned_round(NodeId value, const Dim& wanted) const;
    Diagnostic sides(const Site& site, NodeId node, NodeId a, NodeId b, const Type* wanted);
    // Whether another line is to blame for the formula of the site, which lacks the factor
    // `missing`, in words `missing_text`: then that line is told, or will be.
    Help angle_help(std::string_view function, NodeId value, const std::string& text) const;
    bool cost_blamed(const Site& site, const Line& rate, NodeId over);
    bool sides_blamed(const Site& site, NodeId a, NodeId b);
    bool blamed(const Site& site, const Dim& missing, const std::string& missing_text);
    void unitless(const Blame::Unitless& fault, LineId line, const std::string& missing_text);
    bool misdeclared(const Site& site, NodeId value, Code code, std::string_view subject,
                     std::string_view unit_text);
    void add(Diagnostic diagnostic) { diagnostics_.add(std::move(diagnostic)); }
    bool skip(Code code, Span span);
    std::string kind_text(const Site& site, NodeId node) const;
    std::string type_text(const Type& type) const;
    bool is_literal(NodeId id) const; // a number as written, with or without a sign
    std::string number_as(NodeId value, std::string_view unit_text) const;
    bool may_take_unit(NodeId value, const Type& wanted) const;

    const Sheet& sheet_;
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
    Blame blame_;
};

} // namespace acre::lang
