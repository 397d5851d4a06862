// Standby as a quote's own terms bill it, and the terms themselves; worked out by hand.
#include "engine/billing/standby.h"

#include <map>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/billing/bill.h"
#include "engine/billing/terms.h"

namespace standby_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Two machines at $2,400 a day together, $3,400 with their crews; a day of 10 h on the meter. The
// grower pays while the ground is not ready, the firm bears the weather.
QuoteRecord quote() {
    QuoteRecord out;
    out.lines = {{"standing_by", "$/day", "", 2'400},
                 {"standing_by_with_crew", "$/day", "", 3'400},
                 {"machines", "1", "", 2},
                 {"standby_by", "", "shifts", no_value},
                 {"meter_per_day", "h", "", 10},
                 {"standby_hours", "h", "", 8},
                 {"day_hours", "h", "", 9},
                 {"standby_not_ready", "", "grower", no_value},
                 {"standby_weather", "", "firm", no_value}};
    return out;
}
RecordLine& line(QuoteRecord& quote, const std::string& name) {
    for (RecordLine& one : quote.lines)
        if (one.name == name)
            return one;
    return quote.lines.emplace_back(RecordLine{name, "", "", no_value});
}

struct Row {
    const char* date;
    const char* machine;
    double hours, down;
    const char* cause;
    bool crew = false;
};
JobLog log_of(const std::vector<Row>& rows) {
    JobLog log;
    for (const Row& row : rows) {
        LogRow& out = log.rows.emplace_back();
        out.date = row.date;
        out.machine = row.machine;
        out.hours = row.hours;
        out.down_hours = row.down;
        out.down_cause = row.cause;
        out.crew_waited = row.crew;
    }
    return log;
}

std::vector<BillLine> billed(const QuoteRecord& quote, const std::vector<Row>& rows) {
    const JobLog log = log_of(rows);
    BillQuestion question;
    question.quote = &quote;
    question.log = &log;
    std::vector<BillLine> lines;
    REQUIRE_FALSE(bill_standby(question, Terms(quote), lines).has_value());
    return lines;
}

constexpr const char *monday = "2027-06-21", *tuesday = "2027-06-22";

} // namespace

TEST_CASE("hours down are shares of a day at the rate of one machine, with its crew if it waited") {
    const auto lines = billed(quote(), {{monday, "Walt", 0, 4, "grower"},
                                        {monday, "Hazel", 0, 1, "Water"},
                                        {tuesday, "Walt", 3, 2, "not ready", true},
                                        {tuesday, "Hazel", 3, 6, "rain"},
                                        {tuesday, "Walt", 3, 1, "mechanical", true}});
    REQUIRE(lines.size() == 4); // by clause: ready without crew, with crew, repairs, weather
    CHECK(lines[0].title == "standby: not ready");
    CHECK(lines[0].quantity == 0.5);
    CHECK(lines[0].rate == 1'200);
    CHECK(lines[0].cents == 60'000);
    CHECK(lines[0].clause ==
          "5.00 h of the machine (in the log: `Water`, `grower`); a day is 10 h");
    CHECK(lines[0].terms ==
          std::vector<std::string>{"standby_not_ready", "standing_by", "meter_per_day"});
    CHECK(lines[1].title == "standby with crew: not ready");
    CHECK(lines[1].quantity == 0.2);
    CHECK(lines[1].rate == 1'700);
    CHECK(lines[1].cents == 34'000);
    CHECK(lines[1].clause == "2.00 h with the crew (in the log: `not ready`); a day is 10 h");
    CHECK(lines[1].terms == std::vector<std::string>{"standby_not_ready", "standing_by",
                                                     "standing_by_with_crew", "meter_per_day"});
    CHECK(lines[2].name == "standby_repairs");
    CHECK(lines[2].cents == 0);
    CHECK(lines[2].clause ==
          "1.00 h of the machine (in the log: `mechanical`): the quote does not bill it");
    CHECK(lines[3].name == "standby_weather");
    CHECK(lines[3].cents == 0);
    CHECK(lines[3].clause ==
          "6.00 h of the machine (in the log: `rain`): not billed, ours to bear");
    CHECK(lines[3].terms == std::vector<std::string>{"standby_weather"});
    CHECK(billed(quote(), {{monday, "Walt", 8, 0, ""}}).empty());
}

TEST_CASE("no machine stands by for more than a day a day") {
    const auto lines = billed(quote(), {{monday, "Walt", 0, 7, "grower"},
                                        {monday, "Walt", 0, 6, "grower"},
                                        {monday, "Walt", 0, 2, "grower"},
                                        {monday, "Hazel", 0, 6, "grower"},
                                        {tuesday, "Walt", 0, 10, "grower"}});
    REQUIRE(lines.size() == 1); // 10 + 6 + 10 of 31
    CHECK(lines[0].quantity == 2.6);
    CHECK(lines[0].cents == 312'000);
    CHECK(lines[0].clause == "31.00 h of the machine (in the log: `grower`); a day is 10 h, and no "
                             "more than a day is billed: 26.00 h");
}

TEST_CASE(
    "by the public rate hours worked come off a day, and without shifts a day is the crew's") {
    QuoteRecord by_rate = quote();
    line(by_rate, "standby_by").choice = "public_rate";
    const auto lines = billed(by_rate, {{monday, "Walt", 5, 6, "grower"},
                                        {monday, "Hazel", 5, 2, "grower"},
                                        {tuesday, "Walt", 9, 4, "grower"}});
    REQUIRE(lines.size() == 1); // 3 + 2 + 0 of 12
    CHECK(lines[0].quantity == 0.625);
    CHECK(lines[0].cents == 75'000);
    CHECK(lines[0].clause == "12.00 h of the machine (in the log: `grower`); a day is 8 h, less "
                             "the hours worked, and no more than a day is billed: 5.00 h");
    QuoteRecord crew = quote();
    std::erase_if(crew.lines, [](const RecordLine& one) { return one.name == "standby_by"; });
    CHECK(billed(crew, {{monday, "Walt", 5, 4.5, "grower"}}).at(0).quantity == 0.5);
    // No day at all: nothing can be billed by it.
    line(crew, "day_hours").value = 0;
    CHECK(billed(crew, {{monday, "Walt", 5, 4.5, "grower"}}).at(0).cents == 0);
}

TEST_CASE("a machine with a rate of its own stands by at it") {
    QuoteRecord own = quote();
    own.lines.push_back({"big_walt.standby_each", "$/day", "", 1'500.004});
    const auto lines = billed(own, {{monday, "Big Walt", 0, 5, "grower"},
                                    {monday, "Hazel", 0, 5, "grower"},
                                    {tuesday, "big-walt", 0, 5, "grower", true}});
    REQUIRE(lines.size() == 3);
    CHECK(lines[0].cents == 60'000);
    CHECK(lines[1].rate == 1'500); // in whole cents
    CHECK(lines[1].cents == 75'000);
    CHECK(lines[1].clause.find(", big_walt; a day is 10 h") != std::string::npos);
    CHECK(lines[1].terms.at(1) == "big_walt.standby_each");
    CHECK(lines[2].rate == 2'000); // and the crew of one of two
}

TEST_CASE("the clause of a cause, in the words of a log or further ones") {
    const std::map<std::string, std::string> further = {{"pump", "lines"}, {"rain", "not_ready"}};
    struct Cause {
        const char *cause, *clause;
    };
    for (const Cause& one :
         {Cause{"Not Ready", "not_ready"}, Cause{"not_ready", "not_ready"},
          Cause{"OWNER", "not_ready"}, Cause{"lines", "lines"}, Cause{"utility", "lines"},
          Cause{"weather", "weather"}, Cause{"red flag", "weather"}, Cause{"wind", "weather"},
          Cause{"repairs", "repairs"}, Cause{"broken", "repairs"}, Cause{"pump", "lines"},
          Cause{"rain", "not_ready"}, Cause{"raining", ""}, Cause{"", ""}}) {
        CAPTURE(one.cause);
        CHECK(clause_of_cause(one.cause, further) == one.clause);
    }
    CHECK(clause_of_cause("rain", {}) == "weather");
}

TEST_CASE("a term is the job's own line, or what all used models say alike, if it was shown") {
    QuoteRecord out;
    out.lines = {{"north.pay_days", "day", "", 30},
                 {"a.south.pay_days", "day", "", 30},
                 {"north.tolerance", "%", "", 5},
                 {"south.tolerance", "%", "", 4},
                 {"base", "$", "", 3},
                 {"north.base", "$", "", 4},
                 {"north.way", "", "up", no_value},
                 {"south.way", "", "up", no_value},
                 {"odd", "$", "", no_value}};
    const Terms terms(out);
    CHECK(terms.find("pay_days")->name == "north.pay_days"); // the shortest name
    CHECK(terms.value("pay_days") == 30);
    CHECK(terms.find("tolerance") == nullptr); // they differ
    CHECK(terms.value("base") == 3);
    CHECK(terms.choice("way") == "up");
    CHECK(terms.choice("days") == "");
    CHECK(terms.find("days") == nullptr); // not the end of a word
    CHECK_FALSE(terms.value("odd").has_value());
    CHECK_FALSE(terms.inner_value("way").has_value());
    out.inner = {"base"};
    CHECK(terms.stated("base") == nullptr);
    CHECK_FALSE(terms.value("base").has_value());
    CHECK(terms.inner_value("base") == 3);
    out.shown = {"base"}; // what the customer could read is told, and only that
    CHECK(terms.value("base") == 3);
    CHECK_FALSE(terms.value("pay_days").has_value());
}

} // namespace standby_test
