// Bills of small quotes and logs, each worked out by hand. June 21, 2027 is a Monday.
#include "engine/billing/bill.h"

#include <optional>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/billing/bill_items.h"
#include "tests/engine/billing/small_bills.h"

namespace bill_test {

using namespace acre;
using namespace acre::engine;
using namespace small_bills;

TEST_CASE("fuel is billed by whole steps above the base, and below it where both ways are quoted") {
    struct Row {
        double price;
        const char* way;
        std::optional<double> floor;
        double rate; // 20 gal/ac of each step of $0.10
        const char* steps;
    };
    for (const Row& row :
         {Row{4.90, "up_only", {}, 14, "7 steps of $0.10/gal"},
          Row{4.89, "up_only", {}, 12, "6 steps"}, Row{4.30, "up_only", {}, 2, ": 1 step of"},
          Row{4.29, "up_only", {}, 0, "no step"}, Row{4.20, "both_ways", {}, 0, "no step"},
          Row{4.11, "both_ways", {}, 0, "no step"},
          Row{4.10, "both_ways", {}, -2, "1 step down of"}, Row{4.10, "up_only", {}, 0, "no step"},
          Row{0.90, "both_ways", {}, -66, "33 steps down"}, // no floor at all
          Row{3.00, "both_ways", 3.55, -12, "6 steps down"},
          Row{4.90, "both_ways", 3.55, 14, "7 steps"}}) {
        CAPTURE(row.price);
        CAPTURE(std::string(row.way));
        QuoteRecord terms = quote();
        add_fuel(terms, row.way, row.floor);
        const JobLog log = log_of(terms, "2027-06-23,40\n");
        const PostedPrices prices =
            posted("2027-06-21,diesel," + std::to_string(row.price) + ",board\n");
        BillQuestion question;
        question.posted = &prices;
        const BillAnswer bill = billed(terms, log, question);
        REQUIRE(bill.lines.size() == 2);
        const BillLine& fuel = bill.lines[1];
        CHECK(fuel.name == "fuel.2027-06-21");
        CHECK(fuel.quantity == 40);
        CHECK(fuel.rate == row.rate);
        CHECK(fuel.cents == static_cast<std::int64_t>(row.rate * 40 * 100));
        CHECK_MESSAGE(has(fuel.clause, row.steps), fuel.clause);
        CHECK(fuel.terms ==
              std::vector<std::string>{"fuel_base", "fuel_step", "gallons_per_acre", "fuel_way"});
        CHECK(bill.work_cents == 400'000 + fuel.cents);
    }
}

TEST_CASE("the acres of the weeks add up to the acres that are billed") {
    // 39 measured, within 5 % of 40 quoted: 40 / 3 a week, each rounded where the sum before ends.
    QuoteRecord terms = quote();
    add_fuel(terms, "up_only");
    const JobLog log = log_of(terms, "2027-06-27,13\n2027-06-28,12\n2027-07-04,1\n2027-07-05,13\n"
                                     "2027-07-06,0\n2027-07-12,\n");
    const PostedPrices prices = posted("2027-06-21,diesel,4.30,board\n2027-06-28,diesel,4.40,"
                                       "board\n2027-07-05,diesel,4.50,board\n");
    BillQuestion question;
    question.posted = &prices;
    const BillAnswer bill = billed(terms, log, question);
    REQUIRE(bill.lines.size() == 4);
    CHECK(bill.lines[0].quantity == 40);
    CHECK(has(bill.lines[0].clause, "measured 39.00 ac, within 5 % of the 40.00 ac quoted"));
    CHECK(bill.lines[1].quantity == 13.33);
    CHECK(bill.lines[2].quantity == 13.34);
    CHECK(bill.lines[3].quantity == 13.33);
    CHECK(bill.lines[1].cents == 2'666);
    CHECK(bill.lines[2].cents == 5'336);
    CHECK(bill.lines[3].cents == 7'998);
}

TEST_CASE("fuel needs the posted price of each week of work, and of one product") {
    QuoteRecord terms = quote();
    add_fuel(terms, "up_only");
    const JobLog log = log_of(terms, "2027-06-27,20\n2027-06-28,20\n2027-07-05,0\n");
    CHECK(refusal(asked(terms, log)) == "the bill goes by posted fuel prices, and none were given");
    BillQuestion without;
    without.without_fuel = true;
    CHECK(billed(terms, log, without).lines.size() == 1);
    const auto with = [&](const std::string& rows, const std::string& product) {
        const PostedPrices prices = posted(rows);
        BillQuestion question;
        question.posted = &prices;
        question.product = product;
        return asked(terms, log, question);
    };
    const auto lacking = with("2027-06-21,diesel,4.30,board\n", "");
    CHECK(refusal(lacking) == "there is no posted price of diesel for a week of the work");
    CHECK(lacking.said.diagnostics.all()[0].notes ==
          std::vector<std::string>{"the week of Monday, June 28, 2027"});
    const auto none = with("2027-05-31,diesel,4.30,board\n", "diesel");
    CHECK(refusal(none) == "there is no posted price of diesel for some weeks of the work");
    CHECK(none.said.diagnostics.all()[0].notes.size() == 2);
    const std::string two = "2027-06-21,diesel,4.30,board\n2027-06-28,diesel,4.30,board\n"
                            "2027-06-21,clear,5,board\n2027-06-28,clear,5,board\n";
    CHECK(refusal(with(two, "")) == "the posted prices have several products");
    CHECK(refusal(with(two, "gas")) == "the posted prices have no product `gas`");
    const auto clear = with(two, "clear");
    REQUIRE(clear);
    CHECK(clear->lines[1].rate == 16); // 8 steps
}

TEST_CASE("work by the hour is billed at its own rate, with every place that refused the shank") {
    const std::string head = "date,acres,machine,meter_start,meter_stop,hourly_hours,refused_at\n";
    const std::string rows = "2027-06-21,40,Walt,100,112,2.5,row 12\n"
                             "2027-06-22,0,Walt,112,120,,\n"
                             "2027-06-23,0,Walt,120,121.25,1.25,north end\n"
                             "2027-06-24,0,Walt,121.25,122,0.25,row 12\n";
    QuoteRecord terms = quote();
    const auto refused = asked(terms, log_of(terms, rows, head));
    CHECK(refusal(refused) ==
          "row 2, column `hourly_hours`: the quote has no rate for work by the hour");
    terms.lines.push_back({"crawler_by_the_hour", "$/h", "", 185.004});
    const BillAnswer bill = billed(terms, log_of(terms, rows, head));
    REQUIRE(bill.lines.size() == 2);
    const BillLine& hourly = bill.lines[1];
    CHECK(hourly.quantity == 4);
    CHECK(hourly.rate == 185);
    CHECK(hourly.cents == 74'000);
    CHECK(hourly.clause == "the ground refused the shank: north end; row 12");
    CHECK(hourly.terms == std::vector<std::string>{"crawler_by_the_hour"});
    // What stays inside the firm is no term.
    terms.inner = {"crawler_by_the_hour"};
    CHECK(!asked(terms, log_of(terms, rows, head)));
}

TEST_CASE("hours billed otherwise are no hours of the machine that ran them") {
    QuoteRecord terms = quote();
    terms.lines.push_back({"crawler_by_the_hour", "$/h", "", 185});
    terms.items = {{"Crawler", "crawling", "h", 20, 100, 1'500, 200'000, {}},
                   {"Tractor", "discing", "h", 30, 80, 2'000, 240'000, {}}};
    terms.counted = {{"walt_hours", "h", Counting::Meter, "walt.rig", 20, {}, false},
                     {"otto_hours", "h", Counting::Meter, "otto.rig", 30, {}, false}};
    const BillAnswer two =
        billed(terms, log_of(terms,
                             "2027-06-21,Walt,100,112,2.5,row 12\n2027-06-21,otto,50,60,,\n"
                             "2027-06-22,walt.rig,112,120,1.5,row 12\n2027-06-22,Otto,60,75,,\n",
                             "date,machine,meter_start,meter_stop,hourly_hours,refused_at\n"));
    REQUIRE(two.lines.size() == 3);
    CHECK(two.lines[0].quantity == 20 - 4);
    CHECK(two.lines[1].quantity == 25);
    CHECK(two.lines[2].quantity == 4);
}

TEST_CASE("acres within the tolerance are billed as quoted, and others as measured") {
    const auto ripping = [](const QuoteRecord& terms, const std::string& acres) {
        return billed(terms, log_of(terms, "2027-06-21," + acres + "\n")).lines.at(0);
    };
    CHECK(ripping(quote(), "42").cents == 400'000); // 5 % to the acre
    CHECK(ripping(quote(), "38").cents == 400'000);
    CHECK(ripping(quote(), "42.01").cents == 420'100);
    CHECK(ripping(quote(), "37.99").cents == 379'900);
    CHECK(ripping(quote(), "37.99").clause ==
          "measured; 40.00 ac were quoted, and this is more than 5 % from them");
    QuoteRecord bare = quote();
    bare.lines.clear();
    CHECK(ripping(bare, "39.5").cents == 395'000);
    CHECK(ripping(bare, "39.5").clause == "measured; 40.00 ac were quoted");
    bare.lines = {{"acre_tolerance", "1", "", 0.05}};
    CHECK(ripping(bare, "38").cents == 400'000);
}

TEST_CASE("a minimum adds what is missing to it, and nothing where nothing is") {
    struct Row {
        const char* least;
        const char* acres;
        std::int64_t added;
    };
    for (const Row& row : {Row{"at least $3,600", "35", 10'000}, Row{"at least $3,500", "35", 0},
                           Row{"at least $3,499.99", "35", 0}, Row{"at least $3,500.01", "35", 1},
                           Row{"at least $5,000", "45", 0}, // more than was quoted
                           Row{"at least least_charge", "35", 20'000}}) {
        CAPTURE(std::string(row.least));
        QuoteRecord terms = quote();
        terms.lines.push_back({"least_charge", "$", "", 3'700});
        terms.items[0].steps = {{"margin 15 %", 1, 1}, {row.least, 0, 4'000}};
        const BillAnswer bill =
            billed(terms, log_of(terms, "2027-06-21," + std::string(row.acres) + "\n"));
        REQUIRE(bill.lines.size() == (row.added > 0 ? 2 : 1));
        if (row.added == 0)
            continue;
        CHECK(bill.lines[1].name == "ripping.minimum");
        CHECK(bill.lines[1].title == "minimum charge, Ripping");
        CHECK(bill.lines[1].cents == row.added);
    }
    QuoteRecord formula = quote();
    formula.items[0].steps = {{"at least 2 * least_charge", 0, 4'000}};
    CHECK(has(refusal(asked(formula, log_of(formula, "2027-06-21,35\n"))),
              "the minimum of `Ripping` is a formula"));
    CHECK(asked(formula, log_of(formula, "2027-06-21,40\n")).value.has_value());
}

TEST_CASE("a minimum in the middle of a job and a deposit that was taken off before are doubted") {
    QuoteRecord terms = quote();
    terms.items[0].steps = {{"at least $3,600", 0, 4'000}};
    const JobLog log = log_of(terms, "2027-06-21,10\n");
    const auto doubts = [&](const BillQuestion& question) {
        const lang::Outcome<BillAnswer> answer = asked(terms, log, question);
        REQUIRE(answer.value.has_value());
        std::string titles;
        for (const lang::Diagnostic& said : answer.said.diagnostics.all()) {
            CHECK(said.code == lang::Code::L841);
            titles += said.title + "\n";
        }
        return titles;
    };
    BillQuestion question;
    CHECK(doubts(question) == "");
    question.finished = false;
    CHECK(doubts(question) ==
          "the bill has the minimum charge, Ripping, and the job is not finished\n");
    question.finished = true;
    question.deposits = {50'000, 30'000};
    CHECK(doubts(question) == "");
    question.before = BilledBefore{"2027-B002", "2027-06-20", 100'000, {{"2027-B001", 30'000}}};
    CHECK(doubts(question) == "bill 2027-B001 took off a deposit of $300.00 before\n");
    question.before.reset();
    question.deposits = {320'000, 40'000}; // ten acres at $100 come to the minimum
    CHECK(billed(terms, log, question).work_cents == 360'000);
    CHECK(doubts(question) == "");
    question.deposits.push_back(1);
    CHECK(doubts(question) == "the deposits come to $3,600.01 in all, and the work to $3,600.00\n");
    question.deposits = {320'000};
    question.before = BilledBefore{"2027-B002", "2027-06-20", 100'000, {{"2027-B001", 40'001}}};
    CHECK(doubts(question) == "the deposits come to $3,600.01 in all, and the work to $3,600.00\n");
}

TEST_CASE("an item is measured by the first line that counts it, the job's own before a model's") {
    QuoteRecord terms = quote();
    const CountedLine north{"north.acres", "ac", Counting::Work, "", 40, {}, true};
    const CountedLine south{"south.acres", "ac", Counting::Work, "", 40, {}, false};
    const CountedLine other{"acres", "ac", Counting::Work, "", 40.01, {}, false};
    const CountedLine near{"acres", "ac", Counting::Work, "", 40.005, {}, false};
    const auto by = [&](std::vector<CountedLine> counted) {
        terms.counted = std::move(counted);
        JobLog log;
        log.columns = {"acres", "north.acres", "south.acres"};
        log.rows.resize(1);
        log.rows[0].date = "2027-06-21";
        log.rows[0].counted = {{"acres", 1}, {"north.acres", 2}, {"south.acres", 3}};
        const auto found = measured(terms, terms.items[0], log);
        return found ? found->quantity : 0;
    };
    CountedLine west = north;
    west.optional = false;
    CHECK(by({west, south}) == 2);
    CHECK(by({south, west}) == 3);
    CHECK(by({south, west, near}) == 1);
    CHECK(by({near, south}) == 1);
    CHECK(by({north, south}) == 3); // its column may be left out
    CHECK(by({other, south}) == 3); // more than the half of a hundredth from the item's quantity
    CHECK(by({other}) == 0);
    CountedLine hours = near;
    hours.unit = "h";
    CHECK(by({hours}) == 0);
}

TEST_CASE("what was billed before and deposits come off, and the rest is due in days") {
    QuoteRecord terms = quote();
    terms.lines.push_back({"pay_days", "day", "", 30});
    const JobLog log = log_of(terms, "2027-06-21,40\n");
    BillQuestion question;
    question.date = "2027-06-21"; // the last day of the log itself
    question.deposits = {50'000, 1};
    question.before = BilledBefore{"2027-B001", "2027-06-20", 100'000};
    const BillAnswer bill = billed(terms, log, question);
    CHECK(bill.work_cents == 400'000);
    CHECK(bill.due_cents == 249'999);
    CHECK(bill.due == "2027-07-21");
    CHECK(bill.due_term == "pay_days");
    REQUIRE(bill.lines.size() == 4);
    CHECK(bill.lines[1].title == "billed before, bill 2027-B001");
    CHECK(bill.lines[1].cents == -100'000);
    CHECK(bill.lines[3].title == "less deposit");
    CHECK(bill.lines[3].cents == -1);
    question.date = "2027-06-20";
    CHECK(refusal(asked(terms, log, question)) ==
          "the bill is of June 20, 2027, before the last day of its log, June 21, 2027");
    question.date = "2027-06-21";
    question.before->cents = 400'000;
    CHECK(billed(terms, log, question).due_cents == -50'001); // more was paid than is owed
    question.deposits.clear();
    CHECK(refusal(asked(terms, log, question)) ==
          "nothing is left to bill: bill 2027-B001 has all of it");
    question.before->cents = 399'999;
    CHECK(billed(terms, log, question).due_cents == 1);
}

} // namespace bill_test
