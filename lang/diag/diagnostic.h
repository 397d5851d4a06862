// A diagnostic is a value: what is wrong, where, why, and what would mend it. Nothing here prints.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "lang/diag/codes.h"
#include "lang/source/span.h"

namespace acre::lang {

enum class Severity : std::uint8_t { Error, Warning };

struct Label {
    Span span;
    std::string text; // a unit or a few words; may be empty
};

struct Edit {
    Span span;
    std::string replacement;
};

struct Help {
    std::string text;         // what to write, in words that can be pasted
    std::optional<Edit> edit; // the same for a tool
};

struct Diagnostic {
    Code code;
    std::string title; // one line, lower case, no full stop, in the units the author wrote
    Label primary;
    std::vector<Label> others;
    std::vector<std::string> notes;
    std::vector<Help> helps;

    Severity severity() const { return severity_of(code); }
};

// Collects what the stages report. Errors never throw; a stage that reported one still returns a
// value.
class Diagnostics {
  public:
    // Adds; drops a repeat of the same code at the same place. Past `cap` errors, or warnings, only
    // the counts grow.
    void add(Diagnostic diagnostic);
    // Those that `from` counted and did not keep.
    void add_left_out(const Diagnostics& from);
    bool has_errors() const { return errors_ > 0; }
    std::size_t error_count() const { return errors_; }
    std::size_t warning_count() const { return warnings_; }
    std::size_t left_out() const { return left_out_; } // reported but not kept
    const std::vector<Diagnostic>& all() const { return list_; }
    // Nothing more is kept: callers may skip what makes a message costly (a search for near names).
    bool full() const { return errors_ >= cap; }
    void sort(); // by file, then place, errors before warnings

    static constexpr std::size_t cap = 50;

  private:
    std::vector<Diagnostic> list_;
    std::size_t errors_ = 0;
    std::size_t warnings_ = 0;
    std::size_t left_out_ = 0;
};

} // namespace acre::lang
