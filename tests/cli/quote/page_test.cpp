#include "cli/shared/quote_page/page.h"

#include <doctest/doctest.h>

#include <string>
#include <variant>

#include "lang/diag/codes.h"

namespace page_test {

using namespace acre;
using namespace acre::cli;

namespace {

engine::QuoteRecord record() {
    engine::QuoteRecord quote;
    quote.lines = {{"acres", "ac", "", 152},
                   {"depth", "ft", "", 6},
                   {"method", "", "tree_rows", engine::no_value},
                   {"gallons_per_acre", "gal/ac", "", 33.16},
                   {"base", "$/gal", "", 4.2},
                   {"cost.total", "$", "", 99999},
                   {"margin", "%", "", 15},
                   {"zero", "h", "", 0}};
    quote.inner = {"cost.total", "margin"};
    quote.items = {{"Ripping", "ripping", "ac", 152, 821, 1, 12479200, {}},
                   {"Move", "move", "", 0, 0, 1, 610000, {}}};
    quote.price_cents = 13089200;
    quote.per = "ac";
    quote.per_quantity = 152;
    quote.price_per_unit = 861.13;
    quote.cost_total = 2;
    quote.cautions = {"Call before <digging>"};
    return quote;
}
struct Filled {
    std::optional<WordedPage> page;
    std::string code;
};
Filled fill(const std::string& wording) {
    const lang::Outcome<WordedPage> page = fill_in(
        "w", wording, record(),
        {{"job.title", "Block \x1b[31m<b>"}, {"job.for", "=Grower"}, {"firm.name", "F & Co"}});
    Filled result{page.value, {}};
    if (!page.said.diagnostics.all().empty())
        result.code = std::string(lang::name_of(page.said.diagnostics.all()[0].code));
    return result;
}
std::string text_of(const std::string& wording) {
    const Filled filled = fill(wording);
    REQUIRE(filled.page);
    return quote_page_text(*filled.page, record());
}

} // namespace

TEST_CASE("figures and words are filled in, conditions choose blocks") {
    const std::string text =
        text_of(": crew = Firm\n== Scope\nRip {acres} at {depth}, {method}.\n\n? method is "
                "one_way\nfull field\n\n"
                "? method is tree_rows\nrows only\n\n? not zero\nno standby\n\n? nothing\nleft out "
                "{nothing}\n\n- a point\n- another {acres}\n");
    CHECK(text.find("Rip 152 ac at 6 ft, tree rows.") != std::string::npos);
    CHECK(text.find("rows only") != std::string::npos);
    CHECK(text.find("full field") == std::string::npos);
    CHECK(text.find("no standby") != std::string::npos);
    CHECK(text.find("left out") == std::string::npos);
    CHECK(text.find("- another 152 ac") != std::string::npos);
}

TEST_CASE("prices of blocks come with the words that they share a rate, but on pages of before") {
    engine::QuoteRecord quote = record();
    const auto page = [&](std::int64_t layout) {
        quote.page_layout = layout;
        const lang::Outcome<WordedPage> filled = fill_in("w", "== Price\n@items\n", quote, {});
        REQUIRE(filled);
        return quote_page_text(*filled, quote);
    };
    const std::string words = "Each rate is the same in every block";
    CHECK(page(2).find(words) == std::string::npos); // nothing by block
    quote.blocks = {{"East", "90 ac", "6 ft", "", 7000000}, {"West", "62 ac", "6 ft", "", 5479200}};
    CHECK(page(2).find(words) != std::string::npos);
    CHECK(page(1).find(words) == std::string::npos);
    CHECK(page(0).find(words) == std::string::npos);
}

TEST_CASE("a block ends where the next one begins, with an empty line between them or without") {
    const std::string lines[] = {"One",     "two",  "- point",  "- more",    "three",
                                 "@items",  "four", "crew = F", "five",      "== Head",
                                 "six",     "- at", "# unseen", "? nothing", "seven",
                                 "? acres", "nine", "@cautions"};
    const auto blocks = [&](bool apart) {
        std::string text;
        for (const std::string& line : lines)
            text += (apart && line != "two" && line != "- more" && line != "seven" && line != "nine"
                         ? "\n"
                         : "") +
                    std::string(line.starts_with("crew") ? ": " : "") + line + "\n";
        const Filled filled = fill(text);
        REQUIRE(filled.page);
        std::string all;
        for (const PageBlock& block : filled.page->blocks) {
            if (const auto* paragraph = std::get_if<Paragraph>(&block))
                all += "[" + paragraph->text + "]";
            else if (const auto* heading = std::get_if<Heading>(&block))
                all += "=" + heading->text + "=";
            else if (const auto* made = std::get_if<Made>(&block))
                all += *made == Made::Items ? "@items" : "@cautions";
            else if (const auto* points = std::get_if<Points>(&block))
                for (const std::string& point : points->texts)
                    all += "-" + point;
            all += " ";
        }
        return all;
    };
    const std::string right = "[One two] -point-more [three] @items [four] [five] =Head= [six] -at "
                              "[nine] @cautions ";
    CHECK(blocks(false) == right);
    CHECK(blocks(true) == right);
}

TEST_CASE("who it is for and where stand at the head, and a period has its plural") {
    engine::QuoteRecord quote = record();
    quote.lines.push_back({"pay_days", "day", "", 30});
    const auto page = fill_in("w", "Paid within {pay_days}, said {job.gate}.\n", quote,
                              {{"job.for", "Pell"},
                               {"job.address", "12 Weir <Road>"},
                               {"job.title", "East"},
                               {"job.place", "By the yard"},
                               {"job.gate", "at the gate"}});
    REQUIRE(page);
    CHECK(quote_page_text(*page, quote).find("For Pell\n12 Weir <Road>\nEast\nBy the yard\n") !=
          std::string::npos);
    CHECK(quote_page_text(*page, quote).find("Paid within 30 days, said at the gate.") !=
          std::string::npos);
    CHECK(quote_html(*page, quote)
              .find("<b>Pell</b><br>12 Weir &lt;Road&gt;<br>East<br>By the yard</p>") !=
          std::string::npos);
    CHECK(text_of("@items\n").find("For =Grower\nBlock") != std::string::npos);
}

TEST_CASE("the crew's page has no money, and no customer's page has the crew's notes") {
    const CrewParts crew{{"second <gate>"},
                         {{"", ""}, {{"rip depth", "6 ft"}}, 0},
                         {{"Day", "Work"}, {{"Monday", "moving in"}}, 0},
                         {{"Block", "Acres", "Depth", "Soil"}, {}, 0},
                         {{"Date", "Meter"}, {}, 2}};
    const auto of = [&](const std::string& wording) {
        return fill_in("w", wording, record(), {{"quote.number", "2027-001"}}, &crew);
    };
    for (const char* money :
         {"{cost.total}\n", "{base}\n", "? base\nfuel\n", "? cost.total\nx\n", "{margin}\n"}) {
        CAPTURE(money);
        const auto page = of(money);
        REQUIRE(!page);
        CHECK(lang::name_of(page.said.diagnostics.all().front().code) == "W001");
    }
    for (const char* part : {"@items\n", "@options\n", "@signatures\n",
                             "@fuel-steps base=base per=gallons_per_acre step=0.25 rows=3\n"}) {
        CAPTURE(part);
        const auto page = of(part);
        REQUIRE(!page);
        CHECK(lang::name_of(page.said.diagnostics.all().front().code) == "W002");
    }
    for (const char* part : {"@notes\n", "@figures\n", "@days\n", "@blocks\n", "@log-sheet\n"})
        CHECK(fill(part).code == "W002");
    const auto page =
        of("Burns {gallons_per_acre}.\n\n@figures\n@days\n@blocks\n@notes\n@log-sheet\n");
    REQUIRE(page);
    const std::string text = quote_page_text(*page, record());
    for (const char* said : {"Crew's page, quote 2027-001", "Burns 33.16 gal/ac.",
                             "rip depth  6 ft", "moving in", "- second <gate>", "Date   Meter"})
        CHECK_MESSAGE(text.find(said) != std::string::npos, text);
    CHECK(text.find("Block") == text.find("Block \x1b"));
    const std::string html = quote_html(*page, record());
    CHECK(html.find("<li>second &lt;gate&gt;</li>") != std::string::npos);
    CHECK(html.find("<tr><td></td><td></td></tr>\n<tr><td></td><td></td></tr>") !=
          std::string::npos);
}

TEST_CASE("a part of the page for every entry of a list") {
    engine::QuoteRecord blocks = record();
    blocks.lines.push_back({"home.area", "ac", "", 62});
    blocks.lines.push_back({"home.way", "", "one_way", 0});
    blocks.lines.push_back({"river_piece.area", "ac", "", 28});
    blocks.lines.push_back({"river_piece.way", "", "tree_rows", 0});
    const auto of = [&](const char* wording) { return fill_in("w", wording, blocks, {}); };
    const auto page =
        of("Blocks:\n@each way\n? way is one_way\n- {entry}: {area}, all of it\n? way "
           "is tree_rows\n- {entry}: {area}, rows, {depth} deep\n@end\nafter {acres}\n");
    REQUIRE(page);
    const std::string text = quote_page_text(*page, blocks);
    CHECK(text.find("- Home: 62 ac, all of it") != std::string::npos);
    CHECK(text.find("- River piece: 28 ac, rows, 6 ft deep") != std::string::npos);
    CHECK(text.find("28 ac, all") == std::string::npos);
    CHECK(text.find("after 152 ac") != std::string::npos);
    // No entries, no lines; and outside there is no entry to name.
    CHECK(of("@each nothing\n- {entry}\n@end\n")->blocks.empty());
    CHECK(!of("@each way\n@end\n{entry}\n"));
    CHECK(!of("@each way\n- {area}\n"));               // not closed
    CHECK(!of("@each way\n@each area\n@end\n@end\n")); // one in another
    CHECK(!of("@each way\n- {cost.total}\n@end\n"));   // inner stays inner
}

TEST_CASE("what is inner, unknown or malformed is an error, and no page is made") {
    for (const auto& [wording, code] :
         {std::pair{"pay {cost.total}", "W001"},
          {"margin {margin}", "W001"},
          {"{acrs}", "W001"},
          {"{acres", "W002"},
          {"@unknown", "W002"},
          {": no equals", "W002"},
          {"@fuel-steps base=base", "W002"},
          {"@fuel-steps base=base per=gallons_per_acre step=900000000000000 rows=3", "W002"},
          {"@fuel-steps base=acres per=depth step=0.25 rows=3", "W002"}}) {
        CAPTURE(wording);
        const Filled filled = fill(wording);
        CHECK(!filled.page);
        CHECK(filled.code == code);
    }
}

TEST_CASE("a wording names what the model shows and nothing else, behind `?` too") {
    engine::QuoteRecord shown = record();
    shown.shown = {"acres", "method", "margin"};
    shown.inner = {"cost.total"};
    const auto code_of = [&](const std::string& wording) {
        const lang::Outcome<WordedPage> page = fill_in("w", wording, shown, {{"job.for", "Pell"}});
        CHECK(page.value.has_value() == page.said.diagnostics.all().empty());
        return page ? std::string("filled")
                    : std::string(lang::name_of(page.said.diagnostics.all()[0].code));
    };
    for (const auto& [wording, code] :
         {std::pair{"{acres}, {method}, {job.for}", "filled"},
          {"? method is tree_rows\nrows", "filled"},
          {"? nothing\n{nothing}", "filled"},
          {"{margin}", "filled"}, // the model shows it, and whoever issued the quote knew
          {"{depth}", "W001"},
          {"? depth\ndeep", "W001"},
          {"? not zero\nnone of it", "W001"},
          {"? zero is x\nnone", "W001"},
          {"{cost.total}", "W001"},
          {"? cost.total\ndear", "W001"},
          {"@fuel-steps base=base per=gallons_per_acre step=0.10 rows=7", "W001"}}) {
        CAPTURE(wording);
        CHECK(code_of(wording) == code);
    }
}

TEST_CASE("a word of nothing is reported where it stands, not anywhere in memory") {
    for (const std::string wording :
         {": ", "== x\n:   ", "{ } {}", "?  \n@fuel-steps base= per= step=1 rows=1"}) {
        CAPTURE(wording);
        const lang::Outcome<WordedPage> page = fill_in("w", wording, {}, {});
        for (const lang::Diagnostic& diagnostic : page.said.diagnostics.all()) {
            CHECK(diagnostic.primary.span.begin <= diagnostic.primary.span.end);
            CHECK(diagnostic.primary.span.end <= wording.size());
        }
    }
}

TEST_CASE("the fuel table is in whole cents of each step") {
    // 33.16 gal/ac, base 4.20, seven steps of 0.10 make $23.21 an acre (trade arithmetic).
    const std::string text =
        text_of("@fuel-steps base=base per=gallons_per_acre step=0.10 rows=7\n");
    CHECK(text.find("$4.90 a gallon and above") != std::string::npos);
    CHECK(text.find("$23.21/ac") != std::string::npos);
    CHECK(text.find("below $4.30 a gallon") != std::string::npos);
}

TEST_CASE(
    "the page shows items and total, escapes what users wrote, and holds nothing of the inside") {
    const Filled filled = fill(": crew = F & Co\n@items\n\n@cautions\n\n@signatures\n");
    REQUIRE(filled.page);
    const std::string html = quote_html(*filled.page, record());
    const std::string text = quote_page_text(*filled.page, record());
    for (const std::string& page : {html, text}) {
        CHECK(page.find("$124,792.00") != std::string::npos);
        CHECK(page.find("$130,892.00") != std::string::npos);
        CHECK(page.find("99999") == std::string::npos);
        CHECK(page.find("99,999") == std::string::npos);
        CHECK(page.find('\x1b') == std::string::npos);
    }
    CHECK(html.find("F &amp; Co") != std::string::npos);
    CHECK(html.find("&lt;b&gt;") != std::string::npos);
    CHECK(html.find("<digging>") == std::string::npos);
    CHECK(text.find("Call before <digging>") != std::string::npos);
}

} // namespace page_test
