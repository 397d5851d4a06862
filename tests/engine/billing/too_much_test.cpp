// What a bill doubts or refuses. June 21, 2027 is a Monday.
#include <doctest/doctest.h>

#include "tests/engine/billing/small_bills.h"

namespace too_much_test {

using namespace acre;
using namespace acre::engine;
using namespace small_bills;

TEST_CASE("all of what no log measures is doubted while the job is not finished") {
    QuoteRecord terms = quote();
    terms.items.push_back({"Planting", "planting", "tree", 500, 2, 0, 100'000, {}});
    terms.items.push_back({"Discing", "discing", "h", 0, 2, 0, 0, {}});
    terms.items.push_back({"Move", "move", "", 0, 0, 0, 90'000, {}});
    const JobLog log = log_of(terms, "2027-06-21,40\n");
    BillQuestion question;
    CHECK(asked(terms, log, question).said.diagnostics.all().empty());
    question.finished = false;
    const lang::Outcome<BillAnswer> answer = asked(terms, log, question);
    CHECK(answer->lines.size() == 3); // no discing: none was quoted
    REQUIRE(answer.said.diagnostics.all().size() == 1);
    CHECK(answer.said.diagnostics.all()[0].code == lang::Code::L841);
    CHECK(answer.said.diagnostics.all()[0].title ==
          "the bill has all that was quoted of Planting, and the job is not finished");
}

TEST_CASE("a bill is not of a day before its work was accepted, or before the bill it takes off") {
    const QuoteRecord terms = quote();
    const JobLog log = log_of(terms, "2027-06-21,40\n");
    BillQuestion question;
    question.date = question.accepted = "2027-06-22";
    CHECK(billed(terms, log, question).due_cents == 400'000);
    question.accepted = "2072-06-22";
    CHECK(refusal(asked(terms, log, question)) ==
          "the bill is of June 22, 2027, and the work was accepted on June 22, 2072");
    question.accepted = "2027-06-01";
    question.before = BilledBefore{"2027-B001", "2027-06-22", 100'000};
    CHECK(billed(terms, log, question).due_cents == 300'000);
    question.before->date = "2027-06-23";
    CHECK(refusal(asked(terms, log, question)) == "the bill is of June 22, 2027, before bill "
                                                  "2027-B001 that it takes off, of June 23, 2027");
}

TEST_CASE("a deposit that was taken off by mistake is put back") {
    const QuoteRecord terms = quote();
    const JobLog log = log_of(terms, "2027-06-21,40\n");
    BillQuestion question;
    question.before = BilledBefore{"2027-B001", "2027-06-22", 400'000, {{"2027-B001", 50'000}}};
    question.deposits = {-45'000};
    const BillAnswer bill = billed(terms, log, question);
    CHECK(bill.due_cents == 45'000);
    CHECK(bill.lines.back().title == "deposit put back");
    CHECK(bill.lines.back().kind == "deposit");
    question.deposits = {-30'000, -20'001};
    CHECK(refusal(asked(terms, log, question)) ==
          "$500.01 of deposits are put back, and earlier bills of the quote took off $500.00");
    question.before.reset();
    question.deposits = {-1};
    CHECK(refusal(asked(terms, log, question)) ==
          "$0.01 of deposits are put back, and earlier bills of the quote took off $0.00");
}

TEST_CASE("acres rest on the rate and on the tolerance, whichever way they come out") {
    const std::vector<std::string> both = {"ripping.rate", "acre_tolerance"};
    QuoteRecord terms = quote();
    CHECK(billed(terms, log_of(terms, "2027-06-21,41\n")).lines.at(0).terms == both);
    CHECK(billed(terms, log_of(terms, "2027-06-21,43\n")).lines.at(0).terms == both);
    terms.lines[0].value = 0; // none but the very acres that were quoted
    CHECK(billed(terms, log_of(terms, "2027-06-21,40\n")).lines.at(0).clause ==
          "measured 40.00 ac, within 0 % of the 40.00 ac quoted: the quoted acres apply");
}

TEST_CASE("nothing done of an item that has no minimum is billed at nothing") {
    const QuoteRecord terms = quote();
    const BillAnswer bill = billed(terms, log_of(terms, "2027-06-21,0\n"));
    REQUIRE(bill.lines.size() == 1);
    CHECK(bill.lines[0].cents == 0);
}

TEST_CASE("work in a column that nobody filled in is billed as quoted") {
    const QuoteRecord terms = quote();
    const BillAnswer bill = billed(terms, log_of(terms, "2027-06-21,,wet\n", "date,acres,note\n"));
    REQUIRE(bill.lines.size() == 1);
    CHECK(bill.lines[0].as_quoted);
    CHECK(bill.lines[0].cents == 400'000);
}

} // namespace too_much_test
