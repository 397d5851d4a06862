// What an answer is about: a line or a given, named for programs and for people.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/check/sheet.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct Subject {
    std::string name;   // as --of and --set take it
    std::string label;  // as the model has it, perhaps none
    std::string called; // what people call it: "the price all in", its label, its name
    std::string unit;   // as written; empty for a choice
    std::vector<std::string> options; // of a choice: their names

    bool is_choice() const { return !options.empty(); }
    // "80 ac", "$412.80/ac", "one way", "no answer". As the author wrote it: safe nowhere yet.
    std::string text(double value) const;
    // The name of an option, as a file writes it: "one_way".
    std::string option(double value) const;
};

// `names`: called by its name, as --set takes it.
Subject subject_of(const PricedJob& job, lang::LineId line, bool names = false);
// The same of a line that was asked for: the price and the cost have words of their own.
Subject asked_subject(const PricedJob& job, lang::LineId line, bool names = false);

// A line by name that is a number and has a value in this job, or with an empty name the line a job
// is about: the price per unit, else the price. Q001 (near names in its help), Q002.
lang::Outcome<lang::LineId> find_line(const PricedJob& job, std::string_view name);
lang::Outcome<Subject> line_named(const PricedJob& job, std::string_view name, bool names = false);
// A given by name that can be varied: not computed from others. Q001, Q002.
lang::Outcome<Subject> given_named(const PricedJob& job, std::string_view name);

// The title of the job, or of its model; with the option that was taken.
std::string title_of(const PricedJob& job);
std::string title_with_option(const PricedJob& job);

// It has a price, and so a cost and a margin.
bool is_priced(const PricedJob& job);

// What was said of the job, and what stands in the way of an answer at these lines (none: costs and
// prices, or every line of a model without one). It has errors when there is no answer.
lang::Said judged(const PricedJob& job, const std::vector<lang::LineId>& lines);

} // namespace acre::engine
