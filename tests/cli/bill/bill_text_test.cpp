// The bill of a customer on paper, whole and by its parts.
#include <doctest/doctest.h>

#include <string>

#include "cli/bill/bill_page.h"

namespace bill_text_test {

using namespace acre;
using namespace acre::cli;

namespace {

engine::BillLine line_of(const std::string& per, double quantity, double rate, std::int64_t cents) {
    engine::BillLine line;
    line.kind = "item";
    line.title = "Ripping";
    line.per = per;
    line.quantity = quantity;
    line.rate = rate;
    line.cents = cents;
    line.clause = "as quoted";
    return line;
}

BillPage page_of() {
    BillPage page;
    page.date = "2027-07-06";
    page.work.quote.number = "2027-001-C1";
    page.work.quote.model = "deep-rip";
    page.work.record.index = 12;
    page.work.record.seal = "0123456789abcdef0123";
    page.work.contract.steps = {{"2027-001", "", "2027-05-14", 2, 1'000'000}};
    page.answer.lines = {line_of("ac", 10, 800, 800'000)};
    page.answer.work_cents = page.answer.due_cents = 800'000;
    return page;
}

// Change orders, a firm with words of its own, and more taken off than there is.
BillPage whole_page() {
    BillPage page = page_of();
    page.number = "2027-B001";
    page.note = "Gate code by phone";
    page.work.quote.firm = "Tamarack Flat";
    page.work.quote.firm_words = {{"insurance", "insured"},
                                  {"line", "left out"},
                                  {"license", "TF-0417"},
                                  {"address", "18 Quarry Yard Road"}};
    page.work.quote.who = "Quillon";
    page.work.quote.title = "Home ranch";
    page.work.contract.steps.push_back({"2027-001-C1", "Deeper", "2027-06-01", 5, 1'250'050});
    page.work.contract.steps.push_back({"2027-001-C2", "", "2027-06-02", 6, 1'200'050});
    page.answer.due = "2027-08-05";
    page.answer.lines.push_back(line_of("", 0, 0, -100'000));
    page.answer.lines.back().kind = "deposit";
    page.answer.lines.back().title = "deposit";
    page.answer.lines.back().terms = {"deposit"};
    page.answer.lines.push_back(line_of("", 0, 0, -800'000));
    page.answer.lines.back().kind = "before";
    page.answer.lines.back().title = "billed before";
    page.answer.due_cents = -100'000;
    return page;
}

// What stands between the tags, from the first paragraph on.
std::string told(const std::string& html) {
    std::string out;
    bool tag = false;
    for (const char c : html.substr(html.find("</style>"))) {
        if (c == '<' && !out.empty() && out.back() != '|')
            out += '|';
        tag = c == '<' || (tag && c != '>');
        if (!tag && c != '>' && c != '\n')
            out += c;
    }
    return out;
}

const std::string foot =
    "\nThe terms are those of quote 2027-001-C1, record 12 of the book, sealed\n"
    "0123456789abcdef. A computed account of the work, for the firm's invoice: taxes\n"
    "and payments are kept there.\n";

} // namespace

TEST_CASE("a quantity is counted where it is whole and no unit of measure; a lump sum has none") {
    const struct {
        const char* per;
        double quantity;
        std::int64_t cents;
        const char* shown;
    } rows[] = {{"ac", 118, 1, "118.00 ac"},
                {"ac", 1234.567, 1, "1,234.57 ac"},
                {"stump", 12, 1, "12 stump"},
                {"stump", 12.5, 1, "12.50 stump"},
                {"day", 2, 1, "2.0000 day"},
                {"day", 0.09091, 1, "0.0909 day"},
                {"ac", 0, 5, "0.00 ac"},
                {"ac", 0, 0, ""},
                {"ac", 3, 0, "3.00 ac"},
                {"", 3, 5, ""},
                {"st\x1bump", 1, 1, "1 st\\x1bump"}};
    for (const auto& row : rows)
        CHECK(quantity_of(line_of(row.per, row.quantity, 0, row.cents)) == row.shown);
}

TEST_CASE("a rate is shown with all its figures, unless nothing is billed at none") {
    CHECK(rate_of(line_of("ac", 1, 809, 1)) == "$809.00/ac");
    CHECK(rate_of(line_of("ac", 1, 3.9845, 1)) == "$3.9845/ac");
    CHECK(rate_of(line_of("ac", 0, 0, 0)) == "");
    CHECK(rate_of(line_of("ac", 1, 0, 0)) == "$0.00/ac");
    CHECK(rate_of(line_of("ac", 0, 0, 1)) == "$0.00/ac");
    CHECK(rate_of(line_of("ac", 0, 5, 0)) == "$5.00/ac");
    CHECK(rate_of(line_of("", 1, 5, 5)) == "");
    engine::BillLine line = line_of("ac", 1, 5, 5);
    CHECK(rests_on(line, "2027-001") == "");
    line.terms = {"ripping.rate"};
    CHECK(rests_on(line, "2027-001") == "quote 2027-001: ripping.rate");
    line.terms.push_back("fuel_base");
    CHECK(rests_on(line, "2027-001") == "quote 2027-001: ripping.rate, fuel_base");
}

TEST_CASE("a draft of next to nothing is a bill of its model") {
    CHECK(bill_text(page_of(), false) == "Draft of a bill, July 6, 2027\n"
                                         "  deep-rip\n"
                                         "\n"
                                         "What was agreed\n"
                                         "                  accepted      change   stands at\n"
                                         "  quote 2027-001  May 14, 2027          $10,000.00\n"
                                         "\n"
                                         "What is billed\n"
                                         "              quantity        rate     amount\n"
                                         "  1  Ripping  10.00 ac  $800.00/ac  $8,000.00\n"
                                         "                                    ---------\n"
                                         "  to be paid                        $8,000.00\n"
                                         "\n"
                                         "What each line rests on\n"
                                         "  1  as quoted\n" +
                                             foot);
}

TEST_CASE("change orders differ from what stood before them, and work is summed before what is "
          "taken off") {
    CHECK(bill_text(whole_page(), false) ==
          "Tamarack Flat\n"
          "18 Quarry Yard Road; TF-0417; insured\n"
          "\n"
          "Bill 2027-B001, July 6, 2027\n"
          "  for Quillon: Home ranch\n"
          "  to be paid by August 5, 2027\n"
          "  Gate code by phone\n"
          "\n"
          "What was agreed\n"
          "                                    accepted          change   stands at\n"
          "  quote 2027-001                    May 14, 2027              $10,000.00\n"
          "  change order 2027-001-C1, Deeper  Jun 1, 2027   +$2,500.50  $12,500.50\n"
          "  change order 2027-001-C2          Jun 2, 2027     -$500.00  $12,000.50\n"
          "\n"
          "What is billed\n"
          "                    quantity        rate      amount\n"
          "  1  Ripping        10.00 ac  $800.00/ac   $8,000.00\n"
          "                                          ----------\n"
          "  work                                     $8,000.00\n"
          "  2  deposit                              -$1,000.00\n"
          "  3  billed before                        -$8,000.00\n"
          "                                          ----------\n"
          "  to be credited                          -$1,000.00\n"
          "\n"
          "What each line rests on\n"
          "  1  as quoted\n"
          "  2  as quoted [quote 2027-001-C1: deposit]\n"
          "  3  as quoted\n" +
              foot);
}

TEST_CASE("the page for a browser says what the page of text says") {
    const std::string terms =
        "The terms are those of quote 2027-001-C1, record 12 of the book, sealed "
        "0123456789abcdef. A computed account of the work, for the firm&#39;s "
        "invoice: taxes and payments are kept there.|";
    CHECK(told(bill_html(whole_page())) ==
          "Tamarack Flat|insured|TF-0417|18 Quarry Yard Road|Bill 2027-B001, July 6, 2027|"
          "for Quillon: Home ranch|to be paid by August 5, 2027|Gate code by phone|"
          "What was agreed|accepted|change|stands at|"
          "quote 2027-001|May 14, 2027|$10,000.00|"
          "change order 2027-001-C1, Deeper|June 1, 2027|+$2,500.50|$12,500.50|"
          "change order 2027-001-C2|June 2, 2027|-$500.00|$12,000.50|"
          "What is billed|quantity|rate|amount|rests on|"
          "Ripping|10.00 ac|$800.00/ac|$8,000.00|as quoted|"
          "deposit|-$1,000.00|as quoted [quote 2027-001-C1: deposit]|"
          "billed before|-$8,000.00|as quoted|"
          "work|$8,000.00|to be credited|-$1,000.00|" +
              terms);
    CHECK(told(bill_html(page_of())) ==
          "Draft of a bill, July 6, 2027|deep-rip|What was agreed|accepted|change|stands at|"
          "quote 2027-001|May 14, 2027|$10,000.00|What is billed|quantity|rate|amount|rests on|"
          "Ripping|10.00 ac|$800.00/ac|$8,000.00|as quoted|work|$8,000.00|to be paid|$8,000.00|" +
              terms);
}

} // namespace bill_text_test
