// One statement as it is being read: its pieces, before it is known what they make together.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "lang/syntax/ast.h"
#include "lang/syntax/formulas.h"

namespace acre::lang {

struct Draft {
    std::vector<ast::Word> words; // names in the order written, the name of the statement first
    std::vector<ast::UnitText> units;
    std::vector<ast::Text> texts;
    std::vector<ast::Word> options;
    std::vector<ast::Parameter> parameters;
    std::vector<ast::Parameter> columns; // of a define over a list
    std::vector<ast::Counted> counted;
    std::optional<ast::Word> each; // the list that a define takes
    std::vector<ast::Binding> bindings;
    std::optional<ast::Text> label;
    std::optional<ast::Text> because;
    std::optional<ast::Range> within; // of figures; the ground a field is within is a text
    std::optional<ast::Range> swing;
    std::optional<ast::TableEnd> below;
    std::optional<ast::TableEnd> above;
    std::optional<Span> may_be_negative;
    ast::SwingShape shape = ast::SwingShape::Unstated;
    ast::Known known = ast::Known::Unstated;
    std::vector<ast::Date> dates; // one, or the first and the last
    std::optional<ast::Dates> within_days;
    Span within_days_span;
    std::optional<int> weekday; // 0: Sunday
    std::string_view number;    // of a unit definition
    Span number_span;
    Span below_span, above_span;
    bool chosen = false; // the swing is of `choose`
    bool of_it = false;  // its bounds are shares of the value
    bool lump = false;
    bool round_up = false;
    bool staircase = false;
    bool native = false;
    bool hold = false;   // the word behind `below` or `above`
    bool is_not = false; // `is` is followed by `not`

    void clear();
    std::optional<ast::Text> second_text() const {
        return texts.size() > 1 ? std::optional(texts[1]) : std::nullopt;
    }
    // A clause is complete: its pieces move from the stacks to their place. S116 when the place is
    // taken.
    void take_text(std::optional<ast::Text>& place, std::string_view clause);
    void take_days(Span span);
    void take_range(Formulas& formulas, std::optional<ast::Range>& place, std::string_view clause);
    // S123: a range of choice and a swing.
    void take_swing(Formulas& formulas, bool of_choose);
    void take_end(std::optional<ast::TableEnd>& place, std::string_view clause, Span span);
    void take_sign(Span span); // `may be negative`
};

} // namespace acre::lang
