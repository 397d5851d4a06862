// The figures of a quote by name, and which of them a wording may put in.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/book/record.h"
#include "lang/diag/diagnostic.h"

namespace acre::cli {

struct QuoteFigure {
    double value = 0;
    std::string unit, choice;
};

class QuoteFigures {
  public:
    // For the crew every line may be read that is no cost and not in money.
    enum class Reader { Customer, Crew };
    QuoteFigures(const engine::QuoteRecord& record, Reader reader);

    const QuoteFigure* find(std::string_view name) const; // null: the quote has no such line
    // A cost, an overhead, a margin, that the model does not show.
    bool is_inner(std::string_view name) const { return inner_.contains(name); }
    Reader reader() const { return reader_; }
    // There, or known to be inner, and not for the customer.
    bool is_hidden(std::string_view name) const;
    std::vector<std::string_view> readable() const; // names
    // The entries of a list that have such a line which may be read, in the order of the record:
    // "home" for "home.method".
    std::vector<std::string> entries(std::string_view line) const;

  private:
    bool may_be_read(std::string_view name) const;

    Reader reader_;

    std::map<std::string, QuoteFigure, std::less<>> figures_;
    std::vector<std::string> order_; // names, as the record has them
    std::set<std::string, std::less<>> inner_, shown_;
    bool says_shown_ = false; // records from before models said it do not
};

// Why a name cannot be put in, and how that is mended.
struct NameFault {
    std::string title, label;
    std::vector<lang::Help> helps;
};
NameFault hidden_name(const QuoteFigures& figures, std::string_view name);
NameFault unknown_name(const QuoteFigures& figures, std::string_view name,
                       const std::map<std::string, std::string>& words);

// Surcharges of `rows` steps of the fuel price from a base in $/gal on, for gallons per unit of the
// price; nothing if the units are others.
struct FuelTable;
std::optional<FuelTable> fuel_table(const QuoteFigure& base, const QuoteFigure& per, double step,
                                    int rows);

} // namespace acre::cli
