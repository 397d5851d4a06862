// Lines, values and formulas in words: what explanations, estimates and faults show.
#pragma once

#include <string>
#include <string_view>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::engine {

std::string place_text(const lang::SourceMap& sources,
                       lang::Span span);        // "models/deep-rip.rate:14"
std::string_view layer_text(lang::Layer layer); // "season", "command line"

// The unit of a line as the author wrote it; where nobody wrote one, as the catalog says it. Empty
// for a choice.
std::string unit_text(const lang::Sheet& sheet, const lang::Line& line);
std::string unit_of_node(const lang::Sheet& sheet, lang::NodeId node);

// "80 ac", "$412.80/ac", "tree_rows".
std::string value_text(const lang::Sheet& sheet, lang::LineId line, double value);
std::string value_of_node(const lang::Sheet& sheet, lang::NodeId node, double value);
std::string choice_text(const lang::Sheet& sheet, const lang::Type& type,
                        double value); // empty unless a choice

// The author's own bytes; line ends, comments and runs of blanks become one blank, none at the
// ends.
std::string folded(std::string_view text);
std::string source_text(const lang::SourceMap& sources, lang::Span span);

// The formula of a line: the author's bytes, or for a line that a cost or a price made, the formula
// written out.
std::string formula_text(const lang::Sheet& sheet, const lang::SourceMap& sources,
                         lang::LineId line);
// The same with values in the place of names. A negative value stands in brackets.
std::string formula_with_numbers(const PricedJob& job, lang::LineId line);

} // namespace acre::engine
