// What a job's model says of how a boundary is laid out, below the name of an entry.
#pragma once

#include <optional>
#include <string>

#include "engine/field/layout.h"
#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

class FieldOfJob {
  public:
    FieldOfJob(const PricedJob& job, std::string prefix);

    // The value of a line in `unit`; empty if the model has no such line or it has no answer.
    std::optional<double> value(const char* name, const char* unit) const;
    bool is_given(const std::string& name) const;
    // Whether the job itself, or a file of values that it takes, says what the given is.
    bool is_said(const std::string& name) const;
    std::string full(const char* name) const { return prefix_ + name; }

    // False: the model does not say how (B910).
    bool request(LayoutRequest& request, lang::Span span, lang::Diagnostics& diagnostics) const;

  private:
    const PricedJob& job_;
    const lang::Sheet& sheet_;
    std::string prefix_;

    lang::LineId find(const std::string& name) const { return sheet_.find(prefix_ + name); }
};

} // namespace acre::engine
