// A quantity that comes with a question, as the notation writes it ("7 ft", "$9/tree", "62 acres"),
// read as a value of a line of the job: with the nouns and units of its models.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/job/priced_job.h"
#include "engine/questions/subject.h"
#include "lang/diag/outcome.h"
#include "lang/units/catalog.h"

namespace acre::engine {

class QuantityReader {
  public:
    // `where` says what is read: "`--between`: ". The job must outlive the reader.
    QuantityReader(const PricedJob& job, const Subject& line, std::string where = {});
    // As a value in `unit_text`, a unit of the job's models; or of the built-in ones alone, where
    // there is no job.
    QuantityReader(const PricedJob& job, std::string unit_text, std::string where = {});
    explicit QuantityReader(std::string unit_text, std::string where = {});

    // The number in that unit. U314 where it is other money, C003 where it is no number with a
    // unit, or of another kind; what would mend it is in its helps.
    lang::Outcome<double> read(std::string_view text) const;

    const std::string& where() const { return where_; }

  private:
    QuantityReader(const lang::UnitCatalog& units, std::string unit_text, std::string where);

    struct Written { // as the text has it
        double value = 0;
        std::optional<lang::Unit> unit; // none: a bare number
    };
    lang::Outcome<Written> written(std::string_view text) const;
    lang::Outcome<lang::Unit> unit_named(std::string_view text) const;
    lang::Diagnostic unread(std::string why) const;

    const lang::UnitCatalog& units_;
    lang::Currency money_; // of the firm whose job it is
    std::optional<lang::Unit> unit_;
    std::string unit_text_; // "1" of a plain number
    std::string where_;
};

} // namespace acre::engine
