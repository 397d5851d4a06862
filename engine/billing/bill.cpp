#include "engine/billing/bill.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

#include <fmt/format.h>

#include "engine/billing/bill_items.h"
#include "engine/billing/standby.h"
#include "engine/billing/terms.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

lang::Diagnostic no_bill(std::string title, std::vector<std::string> notes = {},
                         std::vector<std::string> helps = {}) {
    return lang::placeless(lang::Code::R010, std::move(title), std::move(notes), std::move(helps));
}

// Prices in whole cents, so that a step is a step: (4.90 - 4.20) / 0.10 is a little under 7.
std::int64_t whole_cents(double price) {
    return cents_of(price);
}

// Whole steps that the posted price is above the base, or below it where the quote goes both ways.
std::int64_t steps(std::int64_t now, std::int64_t base, std::int64_t step, bool both_ways) {
    const std::int64_t whole = (now - base) / step;
    return both_ways ? whole : std::max<std::int64_t>(whole, 0);
}

std::string steps_text(std::int64_t count) {
    if (count == 0)
        return "no step";
    return fmt::format("{} step{}{}", std::abs(count), std::abs(count) == 1 ? "" : "s",
                       count < 0 ? " down" : "");
}

class Fuel {
  public:
    Fuel(const BillQuestion& question, const Terms& terms, const BilledAcres& acres,
         std::vector<BillLine>& lines)
        : question_(question),
          terms_(terms),
          acres_(acres),
          lines_(lines) {}

    std::optional<lang::Diagnostic> all() {
        const RecordLine* base = terms_.stated("fuel_base");
        const RecordLine* step = terms_.stated("fuel_step");
        const RecordLine* per_acre = terms_.stated("gallons_per_acre");
        if (base == nullptr || step == nullptr || per_acre == nullptr ||
            whole_cents(step->value) < 1 || !(acres_.billed > 0))
            return std::nullopt; // the price holds whatever fuel does
        left_out_ = question_.posted == nullptr && question_.without_fuel;
        if (left_out_)
            return std::nullopt;
        if (question_.posted != nullptr)
            if (auto fault = choose_product())
                return fault;
        const std::map<long, double> weeks = acres_by_week();
        if (auto fault = missing(weeks))
            return fault;
        double before = 0, billed = 0;
        for (const auto& [day, acres] : weeks) {
            before += acres;
            const double so_far = std::round(acres_.billed * before / acres_.measured * 100) / 100;
            week(*question_.posted->find(product_, day), so_far - billed);
            billed = so_far;
        }
        return std::nullopt;
    }
    bool left_out() const { return left_out_; }

  private:
    const BillQuestion& question_;
    const Terms& terms_;
    const BilledAcres& acres_;
    std::vector<BillLine>& lines_;
    std::string product_;
    bool left_out_ = false;
    std::set<std::string> lacking_; // weeks without a price

    std::optional<lang::Diagnostic> choose_product() {
        const std::set<std::string>& known = question_.posted->products;
        product_ = question_.product;
        if (product_.empty() && known.size() == 1)
            product_ = *known.begin();
        if (known.contains(product_))
            return std::nullopt;
        return no_bill(product_.empty()
                           ? "the posted prices have several products"
                           : fmt::format("the posted prices have no product `{}`", product_),
                       {fmt::format("they have {}", fmt::join(known, ", "))},
                       {"`--product NAME` says whose price the quote goes by"});
    }

    // Acres by week: the first day of the posted week, or of the calendar's where none is posted.
    std::map<long, double> acres_by_week() {
        std::map<long, double> weeks;
        for (const LogRow& row : question_.log->rows) {
            const auto done = row.counted.find(acres_.line->name);
            if (done == row.counted.end() || !(done->second > 0))
                continue;
            const long day = *lang::day_number(row.date);
            const PostedPrice* posted =
                question_.posted == nullptr ? nullptr : question_.posted->find(product_, day);
            const long monday = day - (lang::weekday_of(day) + 6) % 7;
            if (posted == nullptr)
                lacking_.insert(lang::date_text(monday));
            weeks[posted == nullptr ? monday : posted->first] += done->second;
        }
        return weeks;
    }

    std::optional<lang::Diagnostic> missing(const std::map<long, double>& weeks) const {
        if (lacking_.empty() || weeks.empty())
            return std::nullopt;
        std::vector<std::string> notes;
        for (const std::string& week : lacking_)
            notes.push_back("the week of Monday, " + lang::day_text(week));
        return no_bill(question_.posted == nullptr
                           ? "the bill goes by posted fuel prices, and none were given"
                           : fmt::format("there is no posted price of {} for {}", product_,
                                         lacking_.size() == 1 ? "a week of the work"
                                                              : "some weeks of the work"),
                       std::move(notes),
                       {"`--posted FILE.csv` has a row for each week: week, product, price, "
                        "source"});
    }

    void week(const PostedPrice& posted, double acres) {
        const RecordLine& base = *terms_.stated("fuel_base");
        const RecordLine& step = *terms_.stated("fuel_step");
        const RecordLine& per_acre = *terms_.stated("gallons_per_acre");
        const bool both = terms_.choice("fuel_way") == "both_ways";
        const double floor = terms_.inner_value("fuel_floor").value_or(0);
        const std::int64_t count = steps(whole_cents(std::max(posted.price, floor)),
                                         whole_cents(base.value), whole_cents(step.value), both);
        BillLine line{"fuel",
                      "fuel." + posted.week,
                      "fuel, week of " + lang::day_text(posted.week),
                      "ac",
                      std::round(acres * 100) / 100,
                      0,
                      0,
                      {},
                      {base.name, step.name, per_acre.name}};
        if (const RecordLine* way = terms_.find("fuel_way"))
            line.terms.push_back(way->name);
        line.rate = static_cast<double>(
                        cents_of(per_acre.value * static_cast<double>(count) * step.value)) /
                    100;
        line.cents = cents_of(line.rate * line.quantity, question_.quote->money.step);
        line.clause =
            fmt::format("posted {} a gallon ({}), base {}: {} of {}, times {}",
                        lang::money_text(posted.price), posted.source, lang::money_text(base.value),
                        steps_text(count), lang::quantity_text(step.value, step.unit),
                        lang::quantity_text(per_acre.value, per_acre.unit));
        lines_.push_back(std::move(line));
    }
};

// Meter hours where the ground refused the shank.
std::optional<lang::Said> bill_hourly(const BillQuestion& question, const Terms& terms,
                                      std::vector<BillLine>& lines) {
    double hours = 0;
    std::set<std::string> places;
    const RecordLine* rate = terms.stated("crawler_by_the_hour");
    for (const LogRow& row : question.log->rows) {
        if (!(row.hourly_hours > 0))
            continue;
        if (rate == nullptr)
            return at_row(*question.log, row, "hourly_hours",
                          "the quote has no rate for work by the hour", "not in its terms");
        hours += row.hourly_hours;
        places.insert(row.refused_at);
    }
    if (!(hours > 0))
        return std::nullopt;
    BillLine line{"hourly",
                  "hourly",
                  "hard ground, by the hour",
                  "h",
                  std::round(hours * 100) / 100,
                  static_cast<double>(cents_of(rate->value)) / 100,
                  0,
                  fmt::format("the ground refused the shank: {}", fmt::join(places, "; ")),
                  {rate->name}};
    line.cents = cents_of(line.rate * line.quantity, question.quote->money.step);
    lines.push_back(std::move(line));
    return std::nullopt;
}

void take_off(const BillQuestion& question, std::vector<BillLine>& lines) {
    if (question.before)
        lines.push_back({"before",
                         "billed_before",
                         "billed before, bill " + question.before->bill,
                         {},
                         0,
                         0,
                         -question.before->cents,
                         "the work in that bill, " + lang::day_text(question.before->date),
                         {}});
    for (const std::int64_t cents : question.deposits) {
        const bool less = cents > 0;
        lines.push_back({"deposit",
                         "deposit",
                         less ? "less deposit" : "deposit put back",
                         {},
                         0,
                         0,
                         -cents,
                         less ? "paid before" : "an earlier bill took off too much",
                         {}});
    }
}

// What may be right, and may be a slip that the customer would pay for, or the firm.
lang::Diagnostics doubts_of(const BillQuestion& question, const BillAnswer& answer) {
    lang::Diagnostics doubts;
    for (const BillLine& line : answer.lines)
        if (line.kind == "minimum" && !question.finished)
            doubts.add(lang::placeless(
                lang::Code::L841,
                fmt::format("the bill has the {}, and the job is not finished", line.title),
                {"if more work comes, less of it is due, or none"},
                {"bill the job when it is done; a later bill takes this one off"}));
    std::string whole;
    for (const BillLine& line : answer.lines)
        if (line.as_quoted && line.cents != 0 && !question.finished)
            whole += (whole.empty() ? "" : ", ") + line.title;
    if (!whole.empty())
        doubts.add(lang::placeless(
            lang::Code::L841,
            fmt::format("the bill has all that was quoted of {}, and the job is not finished",
                        whole),
            {"the log does not measure it, so it is billed as if it were all done"},
            {"bill the job when it is done, or log what was done of it"}));
    std::int64_t deposits = 0;
    for (const std::int64_t cents : question.deposits)
        deposits += cents;
    if (question.before)
        for (const auto& [bill, cents] : question.before->deposits)
            deposits += cents;
    if (deposits > answer.work_cents)
        doubts.add(lang::placeless(lang::Code::L841,
                                   fmt::format("the deposits come to {} in all, and the work to {}",
                                               lang::cents_text(deposits),
                                               lang::cents_text(answer.work_cents)),
                                   {"the bill credits what is over"}));
    if (!question.before)
        return doubts;
    for (const std::int64_t cents : question.deposits)
        for (const auto& [bill, before] : question.before->deposits)
            if (before == cents) {
                doubts.add(lang::placeless(
                    lang::Code::L841,
                    fmt::format("bill {} took off a deposit of {} before", bill,
                                lang::cents_text(cents)),
                    {"the work in that bill is taken off whole, so that its deposit counts once"},
                    {"leave `--deposit` out if it is the same money"}));
                break;
            }
    return doubts;
}

// Days in the wrong order, or more put back than was ever taken off.
std::optional<lang::Diagnostic> why_none(const BillQuestion& question) {
    if (question.date < question.accepted)
        return no_bill(fmt::format("the bill is of {}, and the work was accepted on {}",
                                   lang::day_text(question.date),
                                   lang::day_text(question.accepted)),
                       {}, {"`acrewright mark --corrects` puts the day of a word right"});
    if (question.before && question.date < question.before->date)
        return no_bill(fmt::format("the bill is of {}, before bill {} that it takes off, of {}",
                                   lang::day_text(question.date), question.before->bill,
                                   lang::day_text(question.before->date)));
    if (const std::string last = totals(*question.log).last; question.date < last)
        return no_bill(fmt::format("the bill is of {}, before the last day of its log, {}",
                                   lang::day_text(question.date), lang::day_text(last)));
    std::int64_t taken = 0, back = 0;
    for (const std::int64_t cents : question.deposits)
        back -= std::min<std::int64_t>(cents, 0);
    if (question.before)
        for (const auto& [bill, cents] : question.before->deposits)
            taken += cents;
    if (back > std::max<std::int64_t>(taken, 0))
        return no_bill(
            fmt::format("{} of deposits are put back, and earlier bills of the quote took "
                        "off {}",
                        lang::cents_text(back), lang::cents_text(taken)));
    return std::nullopt;
}

} // namespace

lang::Outcome<BillAnswer> ask(const BillQuestion& question) {
    const Terms terms(*question.quote);
    if (auto fault = why_none(question))
        return std::move(*fault);
    BillAnswer answer;
    BilledAcres acres;
    if (auto failure = bill_items(question, terms, answer.lines, acres))
        return std::move(*failure);
    if (acres.line != nullptr) {
        Fuel fuel(question, terms, acres, answer.lines);
        if (auto fault = fuel.all())
            return std::move(*fault);
        answer.lacks_fuel = fuel.left_out();
    }
    if (auto failure = bill_standby(question, terms, answer.lines))
        return std::move(*failure);
    if (auto failure = bill_hourly(question, terms, answer.lines))
        return std::move(*failure);
    const std::size_t work = answer.lines.size();
    take_off(question, answer.lines);
    for (std::size_t i = 0; i < answer.lines.size(); ++i) {
        const std::int64_t cents = answer.lines[i].cents;
        if (std::abs(cents) >= too_many_cents ||
            __builtin_add_overflow(answer.due_cents, cents, &answer.due_cents))
            return no_bill(
                fmt::format("`{}` comes to more than can be billed", answer.lines[i].title));
        answer.work_cents += i < work ? cents : 0;
    }
    if (question.before && answer.work_cents == question.before->cents && question.deposits.empty())
        return no_bill(
            fmt::format("nothing is left to bill: bill {} has all of it", question.before->bill));
    if (const RecordLine* days = terms.stated("pay_days")) {
        answer.due =
            lang::date_after(question.date, std::lround(std::clamp(days->value, 0.0, 3'650.0)))
                .value_or("");
        answer.due_term = days->name;
    }
    lang::Said said;
    said.diagnostics = doubts_of(question, answer);
    return {std::move(answer), std::move(said)};
}

} // namespace acre::engine
