// The figures of a quote by name, and which of them a wording may put in.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/book/quote_record.h"

namespace acre::cli {

struct QuoteFigure {
    double value = 0;
    std::string unit, choice;
};

class QuoteFigures {
  public:
    explicit QuoteFigures(const engine::QuoteRecord& record);

    const QuoteFigure* find(std::string_view name) const; // null: the quote has no such line
    // A cost, an overhead, a margin, that the model does not show.
    bool is_inner(std::string_view name) const { return inner_.contains(name); }
    // There, or known to be inner, and not for the customer.
    bool is_hidden(std::string_view name) const;
    std::vector<std::string_view> readable() const; // names

  private:
    bool may_be_read(std::string_view name) const {
        return says_shown_ ? shown_.contains(name) : !is_inner(name);
    }

    std::map<std::string, QuoteFigure, std::less<>> figures_;
    std::set<std::string, std::less<>> inner_, shown_;
    bool says_shown_ = false; // records from before models said it do not
};

} // namespace acre::cli
