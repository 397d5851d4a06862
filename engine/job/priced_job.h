// One job with its numbers: the texts it was made from, the checked sheet, the plan, the values,
// and what was said on the way. It does not change once it is made, and it is made in one place
// (engine/driver.h). Every question is a function of it.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/field/laid_field.h"
#include "engine/job/used_texts.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/compile.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

struct JobField {      // a boundary that a job names, laid out with the job's own spacing
    std::string entry; // whose ground it is; empty: the whole job
    LaidField field;
};

class PricedJob {
  public:
    const lang::Request& request() const { return request_; } // with the values of its boundaries
    const UsedTexts& used() const { return used_; }
    const lang::SourceMap& sources() const { return *sources_; }
    std::shared_ptr<const lang::SourceMap> shared_sources() const { return sources_; }
    const lang::CheckedSheet& checked() const { return *sheet_; }
    const lang::Sheet& sheet() const { return **sheet_; }
    const Compiled& compiled() const { return *compiled_; }
    const Plan& plan() const { return compiled_->plan; }
    const Values& values() const { return values_; }
    const std::vector<JobField>& fields() const { return fields_; }
    const lang::Diagnostics& diagnostics() const { return diagnostics_; } // warnings

    // The value of a line; NaN: it has none, or no answer. none: NaN.
    double value(lang::LineId line) const;

    // The same job with other numbers, by index of Plan::inputs: nothing is read again. What was
    // said of it, and of who set its givens, stays as it was.
    std::shared_ptr<const PricedJob> with_inputs(std::span<const double> inputs) const;

    PricedJob(const PricedJob&) = delete;
    PricedJob& operator=(const PricedJob&) = delete;

  private:
    friend class Driver;
    PricedJob() = default;

    lang::Request request_;
    UsedTexts used_;
    std::shared_ptr<const lang::SourceMap> sources_;
    lang::Diagnostics diagnostics_;
    std::shared_ptr<const lang::CheckedSheet> sheet_; // with other numbers it is the same
    std::optional<Compiled> compiled_;
    Values values_;
    std::vector<JobField> fields_;
};

using Job = std::shared_ptr<const PricedJob>;

} // namespace acre::engine
