// The terms of a sealed quote, by the names that models give them: acre_tolerance, fuel_base,
// standing_by. The wording of a quote, its log and its bill read the same lines.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/book/record.h"

namespace acre::engine {

class Terms {
  public:
    explicit Terms(const QuoteRecord& quote) : quote_(quote) {}

    // A line of that name: the job's own, or else that of a used model, if all that are called so
    // say the same. Null: there is none.
    const RecordLine* find(std::string_view name) const;
    // The same, if the customer could read it: what nobody was shown is no term.
    const RecordLine* stated(std::string_view name) const;

    std::optional<double> value(std::string_view name) const;       // of `stated`
    std::optional<double> inner_value(std::string_view name) const; // of `find`
    std::string choice(std::string_view name) const;                // of `find`; or empty

    // The least that an item is billed at, as its price says (`at least`), in dollars. Empty: it
    // has none; `fault` says that it cannot be told, and why.
    std::optional<double> minimum(const RecordItem& item, std::string& term,
                                  std::string& fault) const;

  private:
    const QuoteRecord& quote_;
};

} // namespace acre::engine
