#include "engine/billing/standby.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "engine/billing/bill_items.h"
#include "engine/log/log_cells.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

// What people write for a cause, and the clause that it falls under. A clause is also known by its
// own name: not ready, lines, weather, repairs.
struct Word {
    std::string_view word, clause;
};
constexpr auto words = std::to_array<Word>({
    {"grower", "not_ready"},    {"owner", "not_ready"},
    {"not ready", "not_ready"}, {"ground not ready", "not_ready"},
    {"water", "not_ready"},     {"access", "not_ready"},
    {"line", "lines"},          {"unmarked line", "lines"},
    {"utility", "lines"},       {"pipe", "lines"},
    {"rain", "weather"},        {"wet", "weather"},
    {"mud", "weather"},         {"wind", "weather"},
    {"red flag", "weather"},    {"parts", "repairs"},
    {"repair", "repairs"},      {"breakdown", "repairs"},
    {"broken", "repairs"},      {"mechanical", "repairs"},
});

// A day of standby, as the quote works it out.
struct Day {
    double hours = 0;         // of which it is made
    bool less_worked = false; // hours worked on the day come off them
    std::string term;
};

std::optional<Day> day_of(const Terms& terms) {
    const auto from = [&](std::string_view name, bool less) -> std::optional<Day> {
        const RecordLine* line = terms.find(name);
        if (line == nullptr || !(line->value > 0))
            return std::nullopt;
        return Day{line->value, less, line->name};
    };
    if (terms.choice("standby_by") == "public_rate")
        return from("standby_hours", true);
    // Of a machine in shifts, or of a day crew.
    return terms.find("standby_by") != nullptr ? from("meter_per_day", false)
                                               : from("day_hours", false);
}

class Standby {
  public:
    Standby(const BillQuestion& question, const Terms& terms, std::vector<BillLine>& lines)
        : question_(question),
          log_(*question.log),
          terms_(terms),
          lines_(lines),
          day_(day_of(terms)),
          machines_(std::max(1.0, terms.inner_value("machines").value_or(1))) {}

    std::optional<lang::Said> all() {
        for (const LogRow& row : log_.rows)
            worked_[{row.date, row.machine}] += row.hours;
        for (const LogRow& row : log_.rows)
            if (row.down_hours > 0)
                if (auto failure = one(row))
                    return failure;
        for (const auto& [key, sum] : sums_)
            put(key, sum);
        return std::nullopt;
    }

  private:
    struct Key {
        std::string clause;
        bool crew;
        std::string machine; // whose rate it is; empty: one of all alike
        friend bool operator<(const Key& a, const Key& b) {
            return std::tie(a.clause, a.crew, a.machine) < std::tie(b.clause, b.crew, b.machine);
        }
    };
    struct Sum {
        double hours = 0, billed = 0;
        std::set<std::string> causes;
    };
    using OfDay = std::map<std::pair<std::string, std::string>, double>;
    const BillQuestion& question_;
    const JobLog& log_;
    const Terms& terms_;
    std::vector<BillLine>& lines_;
    std::optional<Day> day_;
    double machines_;
    OfDay worked_, stood_;
    std::map<Key, Sum> sums_;

    std::optional<lang::Said> one(const LogRow& row) {
        const std::string clause = clause_of_cause(row.down_cause, question_.causes);
        if (clause.empty())
            return at_row(
                log_, row, row.down_cause.empty() ? "down_hours" : "down_cause",
                row.down_cause.empty()
                    ? "hours down without a cause: nobody can tell who pays"
                    : fmt::format("no clause is known for the cause `{}`", row.down_cause),
                "who pays for this?",
                {{"causes are not ready, lines, weather and repairs; `--cause "
                  "\"WORD=not_ready\"` says which another word means",
                  {}}});
        Key key{clause, row.crew_waited && pays(clause), {}};
        std::string machine = plain_word(row.machine);
        std::replace(machine.begin(), machine.end(), ' ', '_');
        if (pays(clause) && terms_.find(machine + ".standby_each") != nullptr)
            key.machine = machine;
        double hours = row.down_hours;
        if (pays(clause)) {
            const std::pair day(row.date, row.machine);
            double& stood = stood_[day];
            const double left = day_->hours - stood - (day_->less_worked ? worked_[day] : 0);
            hours = std::clamp(left, 0.0, hours);
            stood += hours;
        }
        Sum& sum = sums_[key];
        sum.hours += row.down_hours;
        sum.billed += hours;
        sum.causes.insert(row.down_cause);
        return std::nullopt;
    }

    bool pays(const std::string& clause) const {
        return terms_.choice("standby_" + clause) == "grower" &&
               terms_.stated("standing_by") != nullptr && day_;
    }

    // Money a day, as the quote shows it, in cents; and the lines that it rests on.
    double rate(const Key& key, std::vector<std::string>& terms) const {
        const RecordLine& all = *terms_.stated("standing_by");
        const RecordLine& own =
            key.machine.empty() ? all : *terms_.find(key.machine + ".standby_each");
        double rate = key.machine.empty() ? all.value / machines_ : own.value;
        terms.push_back(own.name);
        const RecordLine* with = terms_.stated("standing_by_with_crew");
        if (key.crew && with != nullptr) {
            rate += (with->value - all.value) / machines_;
            terms.push_back(with->name);
        }
        return static_cast<double>(cents_of(rate)) / 100;
    }

    std::string said(const Key& key, const Sum& sum) const {
        std::string causes;
        for (const std::string& cause : sum.causes)
            causes += (causes.empty() ? "`" : ", `") + cause + "`";
        return fmt::format("{} h {} (in the log: {})", lang::fixed_text(sum.hours, 2),
                           key.crew ? "with the crew" : "of the machine", causes);
    }

    void put(const Key& key, const Sum& sum) {
        std::string title = key.clause;
        std::replace(title.begin(), title.end(), '_', ' ');
        BillLine line{"standby",
                      "standby_" + key.clause,
                      (key.crew ? "standby with crew: " : "standby: ") + title,
                      "day",
                      0,
                      0,
                      0,
                      {},
                      {}};
        const RecordLine* who = terms_.find("standby_" + key.clause);
        if (who != nullptr)
            line.terms.push_back(who->name);
        if (!pays(key.clause)) {
            line.clause = said(key, sum) + (who == nullptr ? ": the quote does not bill it"
                                                           : ": not billed, ours to bear");
            lines_.push_back(std::move(line));
            return;
        }
        line.rate = rate(key, line.terms);
        line.quantity = sum.billed / day_->hours;
        line.cents = cents_of(line.rate * line.quantity, question_.quote->money.step);
        line.terms.push_back(day_->term);
        line.clause = fmt::format(
            "{}{}; a day is {} h{}{}", said(key, sum),
            key.machine.empty() ? "" : ", " + key.machine, lang::number_text(day_->hours),
            day_->less_worked ? ", less the hours worked" : "",
            sum.billed < sum.hours - 1e-9 ? fmt::format(", and no more than a day is billed: {} h",
                                                        lang::fixed_text(sum.billed, 2))
                                          : "");
        lines_.push_back(std::move(line));
    }
};

} // namespace

std::string clause_of_cause(const std::string& cause,
                            const std::map<std::string, std::string>& further) {
    const std::string word = plain_word(cause);
    if (const auto own = further.find(word); own != further.end())
        return own->second;
    for (const std::string_view clause : {"not_ready", "lines", "weather", "repairs"})
        if (word == plain_word(clause))
            return std::string(clause);
    for (const Word& known : words)
        if (word == known.word)
            return std::string(known.clause);
    return {};
}

std::optional<lang::Said> bill_standby(const BillQuestion& question, const Terms& terms,
                                       std::vector<BillLine>& lines) {
    return Standby(question, terms, lines).all();
}

} // namespace acre::engine
