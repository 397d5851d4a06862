#include "engine/billing/bill_items.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "engine/billing/minimum_again.h"
#include "engine/log/row_work.h"
#include "engine/words/billing.h"
#include "engine/words/money.h"
#include "lang/units/catalog.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

bool is_noun(const std::string& per) {
    return !lang::UnitCatalog().is_built_in(per);
}

// Whether the job's count is the quantity of the item, which is rounded as quotes are.
bool is_counted_by(const RecordItem& item, const CountedLine& line) {
    const bool kind = line.how == Counting::Work || line.how == Counting::Meter;
    const double rounding = is_noun(item.per) ? 0.51 : 0.0051;
    return kind && !line.optional && line.unit == item.per &&
           std::abs(line.quoted - item.quantity) <= rounding;
}

std::ptrdiff_t dots(const std::string& name) {
    return std::count(name.begin(), name.end(), '.');
}

// The first row of a day on which the meter ran and nobody wrote down what was done.
const LogRow* unlogged_row(const JobLog& log, const std::string& column) {
    std::set<std::string_view> told;
    for (const LogRow& row : log.rows)
        if (row.counted.contains(column) || (log.several_services && !row.services.empty()))
            told.insert(row.date);
    for (const LogRow& row : log.rows)
        if (row.hours > row.hourly_hours && !told.contains(row.date) &&
            !is_of_other_work(log, row, column))
            return &row;
    return nullptr;
}

std::string quantity(double value, const std::string& per) {
    return lang::fixed_text(value, is_noun(per) && value == std::floor(value) ? 0 : 2) + " " + per;
}

class Items {
  public:
    Items(const BillQuestion& question, const Terms& terms, std::vector<BillLine>& lines,
          BilledAcres& acres)
        : question_(question),
          quote_(*question.quote),
          terms_(terms),
          lines_(lines),
          acres_(acres) {}

    std::optional<lang::Said> all() {
        for (const RecordItem& item : quote_.items)
            if (auto failure = one(item))
                return failure;
        return std::nullopt;
    }

  private:
    const BillQuestion& question_;
    const QuoteRecord& quote_;
    const Terms& terms_;
    std::vector<BillLine>& lines_;
    BilledAcres& acres_;

    std::optional<lang::Said> one(const RecordItem& item) {
        // No line: nothing of it was measured.
        const Measured done = item.per.empty()
                                  ? Measured()
                                  : measured(quote_, item, *question_.log).value_or(Measured());
        if (done.line != nullptr && done.line->how == Counting::Work)
            if (const LogRow* row = unlogged_row(*question_.log, done.line->name))
                return at_row(*question_.log, *row, done.line->name,
                              "what was done on this day is not known",
                              fmt::format("the meter ran {} h", lang::fixed_text(row->hours, 1)),
                              {{"write what was measured, or 0 for none", {}}});
        BillLine line{
            "item",     item.name, item.title,           item.per, item.quantity, item.rate,
            item.cents, {},        {item.name + ".rate"}};
        if (item.per.empty()) {
            line.quantity = line.rate = 0;
            line.terms = {item.name + ".amount"};
            line.clause = "a lump sum, as quoted";
        } else if (done.line == nullptr) {
            line.clause = fmt::format("{} as quoted: the log does not measure it",
                                      quantity(item.quantity, item.per));
            line.as_quoted = true;
        } else {
            take_measured(item, done, line);
        }
        if (line.cents == 0 && item.cents == 0 && (!(line.quantity > 0) || item.cost == 0))
            return std::nullopt; // nothing of it on this job
        if (item.per == "ac" && done.line != nullptr && acres_.line == nullptr)
            acres_ = {done.line, done.quantity, line.quantity};
        const std::int64_t cents = line.cents;
        lines_.push_back(std::move(line));
        return cents < item.cents ? minimum(item, cents) : std::nullopt;
    }

    void take_measured(const RecordItem& item, const Measured& done, BillLine& line) {
        const std::string there = quantity(done.quantity, item.per);
        const auto tolerance =
            item.per == "ac" ? terms_.value("acre_tolerance") : std::optional<double>();
        const RecordLine* said = terms_.stated("acre_tolerance");
        const double share = tolerance ? *tolerance / (said->unit == "%" ? 100 : 1) : 0;
        const double off = std::abs(done.quantity - item.quantity);
        if (tolerance && off <= share * item.quantity * (1 + 1e-12)) {
            line.terms.push_back(said->name);
            line.clause = fmt::format(
                "measured {}, within {} of the {} quoted: the quoted acres apply", there,
                lang::quantity_text(said->value, said->unit), quantity(item.quantity, item.per));
            return;
        }
        line.quantity = bill(item.rate * done.quantity, done.quantity, is_noun(item.per)).quantity;
        line.cents = line.quantity == item.quantity
                         ? item.cents
                         : cents_of(item.rate * line.quantity, quote_.money.step);
        line.clause = fmt::format("measured; {} were quoted", quantity(item.quantity, item.per));
        if (tolerance) {
            line.terms.push_back(said->name);
            line.clause += fmt::format(", and this is more than {} from them",
                                       lang::quantity_text(said->value, said->unit));
        }
    }

    std::optional<lang::Said> minimum(const RecordItem& item, std::int64_t cents) {
        std::string term, fault;
        std::optional<double> least = terms_.minimum(item, term, fault);
        if (!fault.empty() && !(least = minimum_again(quote_, item))) {
            lang::Said failure;
            failure.diagnostics.add(
                lang::placeless(lang::Code::R010, std::move(fault),
                                {"less was measured than was quoted, so the minimum may apply"}));
            return failure;
        }
        const std::int64_t wanted = least ? cents_of(*least, quote_.money.step) : 0;
        if (cents < wanted)
            lines_.push_back(
                {"minimum",
                 item.name + ".minimum",
                 "minimum charge, " + item.title,
                 {},
                 0,
                 0,
                 wanted - cents,
                 fmt::format("what is missing to the minimum of {}", lang::cents_text(wanted)),
                 {term}});
        return std::nullopt;
    }
};

} // namespace

std::int64_t cents_of(double dollars, std::int64_t step) {
    return has_cents(dollars) ? to_cents(dollars, step) : too_many_cents;
}

lang::Said at_row(const JobLog& log, const LogRow& row, std::string_view head,
                  const std::string& what, std::string label, std::vector<lang::Help> helps) {
    lang::Said said;
    said.sources = log.sources;
    said.diagnostics.add({lang::Code::R010,
                          fmt::format("row {}, column `{}`: {}", log.line(row), head, what),
                          {log.place(row, head), std::move(label)},
                          {},
                          {},
                          std::move(helps)});
    return said;
}

const CountedLine* measured_by(const QuoteRecord& quote, const RecordItem& item) {
    const CountedLine* found = nullptr;
    for (const CountedLine& line : quote.counted)
        if (is_counted_by(item, line) && (found == nullptr || dots(line.name) < dots(found->name)))
            found = &line;
    return found;
}

std::optional<Measured> measured(const QuoteRecord& quote, const RecordItem& item,
                                 const JobLog& log) {
    const CountedLine* found = measured_by(quote, item);
    if (found == nullptr)
        return std::nullopt;
    const LogTotals sum = totals(log);
    if (found->how == Counting::Work) {
        const auto done = sum.counted.find(found->name);
        return done == sum.counted.end() ? std::nullopt
                                         : std::optional(Measured{found, done->second});
    }
    // Hours of the only machine are all that the meter ran; those billed otherwise are not twice.
    const auto meters = std::count_if(quote.counted.begin(), quote.counted.end(),
                                      [](auto& line) { return line.how == Counting::Meter; });
    if (meters == 1)
        return Measured{found, sum.hours - sum.hourly};
    const std::optional<double> own = hours_of(sum, found->machine);
    if (!own)
        return std::nullopt;
    double otherwise = 0;
    for (const LogRow& row : log.rows)
        if (names_machine(row.of, found->machine))
            otherwise += row.hourly_hours;
    return Measured{found, *own - otherwise};
}

std::optional<lang::Said> bill_items(const BillQuestion& question, const Terms& terms,
                                     std::vector<BillLine>& lines, BilledAcres& acres) {
    return Items(question, terms, lines, acres).all();
}

} // namespace acre::engine
