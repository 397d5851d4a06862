#include "engine/book/record.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "engine/book/again.h"
#include "engine/book/make_record.h"
#include "engine/book/seal.h"
#include "engine/book/texts.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "engine/words/money.h"
#include "tests/support/memory_loader.h"

namespace record_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string model =
    "model \"m\"\nuse \"prices\"\nuse \"library/field-work\"\ngiven area = 80 ac \"net "
    "acres\"\ngiven rate = $300/h\n"
    "given share = 12 %\nhours : h = area / field_capacity(1.5 mi/h, 7 ft, 83 %)\ncost machine : "
    "$/h = rate over hours\n"
    "cost fuel : $/gal = prices.diesel over 35 gal/h * hours\nprice \"Ripping\" per ac of area\n  "
    "overhead 9 %\n  margin share\n"
    "  at least $4,000\n";
const std::string prices = "model \"p\"\ngiven diesel : $/gal\n";
const std::string season = "season \"2027\"\nset prices.diesel = $4.35/gal because \"dock\"\n";
const std::string job =
    "job \"j\"\nmodel \"m\"\nseason \"2027\"\nset area = 152 ac because \"walked\"\n";

Record made(const std::string& text = job, const std::string& of = model) {
    lang::Request request;
    request.name = "j.job";
    request.text = text;
    request.sets = {{"share", "15 %"}};
    tests::MemoryLoader files({{"m.rate", of}, {"prices.rate", prices}, {"2027.season", season}});
    const lang::Outcome<Job> made_job = make_job(request, files);
    REQUIRE(made_job.value.has_value());
    const lang::Outcome<Estimate> priced = estimate(**made_job);
    REQUIRE(priced.value.has_value());
    Record record;
    QuoteRecord quote = quote_of(**made_job, *priced);
    quote.number = "2027-001";
    quote.issued = "2027-03-01";
    quote.valid_until = "2027-03-31";
    quote.risk = risk_of(**made_job);
    record.body = std::move(quote);
    record.program = "0";
    record.written = "2027-03-01T12:00:00Z";
    record.counter = {{"2027", 1}};
    return record;
}
QuoteRecord& quote_in(Record& record) {
    return std::get<QuoteRecord>(record.body);
}
std::vector<std::string> differences(const Record& record) {
    return price_again(record).differences;
}
double line_of(const QuoteRecord& quote, const std::string& name) {
    for (const RecordLine& line : quote.lines)
        if (line.name == name)
            return line.value;
    FAIL("no line " << name);
    return 0;
}

// As a record was before its third notation: no line for overhead and contribution, and the profit
// is before overhead; of version 1, which had no steps and no risk.
void make_old(Record& record) {
    record.version = 1;
    QuoteRecord& quote = quote_in(record);
    const double contribution = line_of(quote, "contribution.total");
    const double share = line_of(quote, "contribution.share");
    std::vector<RecordLine> lines;
    for (RecordLine line : quote.lines) {
        if (line.name == "overhead.total" || line.name.starts_with("contribution."))
            continue;
        if (line.name == "profit.total")
            line.value = contribution;
        if (line.name == "profit.share")
            line.value = share;
        lines.push_back(line);
    }
    quote.lines = lines;
    std::erase_if(quote.inner, [](const std::string& name) {
        return name == "overhead.total" || name.starts_with("contribution.");
    });
    for (RecordItem& item : quote.items)
        item.steps.clear();
}

// A text of the record put in another's place.
void replace_text(QuoteRecord& quote, const std::string& name, const std::string& text) {
    quote.texts[name] = carry(quote, text);
}

} // namespace

TEST_CASE("a record prices again to the same cents from its own texts alone, after its file too") {
    Record one = made();
    CHECK(differences(one).empty());
    const std::string bytes = seal_record(one, 1, "", "");
    ReadRecord back = read_record(bytes);
    CHECK(back.fault == "");
    QuoteRecord& quote = quote_in(back.record);
    CHECK(fetch_texts(
              quote,
              [](const std::string&) {
                  return FoundText{{}, "is not there"};
              }) == "its text `2027.season` is not there");
    CHECK(fetch_texts(quote, [&](const std::string& seal) {
              return FoundText{*carried_text(quote_in(one), seal), {}};
          }) == "");
    CHECK(differences(back.record).empty());
    CHECK(seal_record(back.record, 1, "", "") == bytes);
}

TEST_CASE("what a record does not know is sealed and carried") {
    Record one = made();
    one.other = R"({"weather":["dry",1.5],"züge":{"n":null}})";
    const std::string bytes = seal_record(one, 1, "", "");
    CHECK(bytes.find(R"("weather":["dry",1.5])") != std::string::npos);
    ReadRecord back = read_record(bytes);
    CHECK(back.fault == "");
    CHECK(back.record.other == one.other);
    std::string changed = bytes;
    changed.replace(changed.find("\"dry\""), 5, "\"wet\"");
    CHECK(read_record(changed).fault == "was changed after it was sealed");
}

TEST_CASE("a record of a kind that nobody knows is read, and keeps its members") {
    const std::string open =
        R"({"counter":{"2027":1},"kind":"weather","record":1,"schema":"acrewright.record/2","wind":3})";
    std::string sealed = open;
    sealed.insert(open.find(",\"wind\""), ",\"seal\":\"" + sha256(open) + "\"");
    const ReadRecord read = read_record(sealed + "\n");
    CHECK(read.fault == "");
    CHECK(read.record.other == R"({"wind":3})");
    CHECK(std::holds_alternative<OtherRecord>(read.record.body));
}

TEST_CASE("a record keeps its firm, and prices are rounded to the step of its money") {
    lang::Request request;
    request.name = "j.job";
    request.text = "job \"j\"\nmodel \"n\"\nfirm \"kestrel\"\n";
    tests::MemoryLoader files(
        {{"n.rate", "model \"n\"\nmoney CHF\ngiven rate = 31.27 CHF/h\nhours : h = 7 h\n"
                    "cost labor : CHF/h = rate over hours\nprice \"Work\" lump\n  margin 10 %\n"},
         {"kestrel.firm", "firm \"Kestrel <b>\"\nmoney CHF \"CHF\" to 0.05\n"
                          ": address = \"18 Bench Road\"\n"}});
    const lang::Outcome<Job> job = make_job(request, files);
    REQUIRE(job.value.has_value());
    const lang::Outcome<Estimate> priced = estimate(**job);
    REQUIRE(priced.value.has_value());
    CHECK(priced->price_cents == 24320); // 7 h at 31.27 over 0.9: 243.2111, to 0.05
    Record record;
    record.body = quote_of(**job, *priced);
    CHECK(differences(record).empty());
    const ReadRecord back = read_record(seal_record(record, 1, "", ""));
    CHECK(back.fault == "");
    CHECK(back.record.quote()->firm == "Kestrel <b>");
    CHECK(back.record.quote()->firm_words.front().second == "18 Bench Road");
    CHECK(back.record.quote()->money == lang::Currency{"CHF", "CHF", 5});
    for (const lang::Currency& money :
         {lang::Currency{"CHF", "<b>", 5}, {"XTS", "CHF", 5}, {"CHF", "CHF", 0}}) {
        Record bad = record;
        quote_in(bad).money = money;
        CHECK(read_record(seal_record(bad, 1, "", "")).fault.find("money") != std::string::npos);
    }
    quote_in(record).texts.erase("kestrel.firm");
    CHECK(!differences(record).empty());
    lang::show_money({});
}

TEST_CASE("overhead is read from a record that has no line for it") {
    Record record = made();
    const double overhead = line_of(quote_in(record), "overhead.total");
    // 9 % of the cost, by the model's text.
    CHECK(overhead == doctest::Approx(0.09 * line_of(quote_in(record), "ripping.cost")));
    CHECK(overhead_of(quote_in(record)) == overhead);
    make_old(record);
    quote_in(record).request.notation = 2;
    CHECK(overhead_of(quote_in(record)) == doctest::Approx(overhead).epsilon(1e-12));
    CHECK(differences(record).empty());
}

TEST_CASE("a record's texts keep the rules of the version that it states") {
    Record record = made();
    CHECK(quote_in(record).request.notation == lang::current_notation);
    std::string text = model;
    text.replace(text.find("overhead 9 %"), 12, "overhead 0.09");
    replace_text(quote_in(record), "m.rate", text);
    CHECK_FALSE(differences(record).empty()); // S124
    quote_in(record).request.notation = 1;
    make_old(record);
    const auto found = differences(record);
    REQUIRE(found.size() == 1); // rates were not rounded then
    CHECK(found[0].starts_with("items.ripping.rate: 549.00046 in the record, 549.0004556"));
}

TEST_CASE("a quote sealed before quantities were rounded keeps its cents") {
    Record record = made("job \"j\"\nmodel \"m\"\nseason \"2027\"\nset area = 152.004 ac\n",
                         model + "  round up to $1/ac\n");
    QuoteRecord& quote = quote_in(record);
    CHECK(quote.items[0].quantity == 152);
    CHECK(differences(record).empty());
    const double rate = quote.items[0].rate;
    CHECK(static_cast<double>(quote.price_cents) == rate * 15200);
    quote.request.notation = 1; // as it was written then
    CHECK_FALSE(differences(record).empty());
    const std::int64_t unrounded = to_cents(rate * 152.004);
    quote.price_cents = quote.items[0].cents = unrounded;
    quote.items[0].quantity = quote.per_quantity = 152.004;
    quote.price_per_unit = rate;
    make_old(record);
    CHECK(differences(record).empty());
}

TEST_CASE("one input gives one record, byte for byte") {
    Record one = made();
    Record other = made();
    CHECK(seal_record(one, 1, "", "") == seal_record(other, 1, "", ""));
}

TEST_CASE("a record keeps who set what, where and because of what") {
    Record record = made();
    const QuoteRecord& quote = quote_in(record);
    const auto given = [&](const std::string& name) {
        for (const RecordGiven& entry : quote.givens)
            if (entry.name == name)
                return entry;
        return RecordGiven();
    };
    CHECK(given("area").set_by == "job");
    CHECK(given("area").because == "walked");
    CHECK(given("prices.diesel").set_by == "season");
    CHECK(given("prices.diesel").place == "2027.season:2");
    CHECK(given("share").set_by == "command line");
    CHECK(quote.texts.contains("m.rate"));
    CHECK(quote.texts.size() == 5);
    for (const auto& [name, seal] : quote.texts)
        CHECK(sha256(*carried_text(quote, seal)) == seal);
}

TEST_CASE("costs, steps and what makes them are marked as inner; acres and the price are not") {
    Record record = made();
    const std::vector<std::string>& inner = quote_in(record).inner;
    const auto is_inner = [&](const char* name) {
        return std::find(inner.begin(), inner.end(), name) != inner.end();
    };
    for (const char* name :
         {"machine", "machine.amount", "fuel", "cost.total", "overhead.total", "contribution.total",
          "contribution.share", "profit.total", "profit.share", "ripping.cost", "ripping.overhead",
          "ripping.margin", "share"})
        CHECK_MESSAGE(is_inner(name), name);
    for (const char* name :
         {"area", "hours", "ripping.amount", "ripping.rate", "price.total", "prices.diesel"})
        CHECK_MESSAGE(!is_inner(name), name);
}

TEST_CASE("a record that was tampered with tells what differs") {
    const auto found = [](auto change) {
        Record record = made();
        change(quote_in(record));
        const std::vector<std::string> all = differences(record);
        REQUIRE(all.size() == 1);
        return all[0];
    };
    CHECK(found([](QuoteRecord& quote) { ++quote.price_cents; }).starts_with("price.cents: "));
    CHECK(found([](QuoteRecord& quote) {
              quote.costs[0].rate *= 1 + 1e-8;
          }).starts_with("costs.machine.rate: "));
    CHECK(found([](QuoteRecord& quote) {
              quote.costs[1].quantity += 1;
          }).starts_with("costs.fuel.quantity: "));
    CHECK(found([](QuoteRecord& quote) { quote.items[0].title = "Free"; }) ==
          "items.ripping.title: Free in the record, Ripping now");
    CHECK(found([](QuoteRecord& quote) {
              quote.items[0].steps[0].added = 1;
          }).starts_with("items.ripping.steps.1.added: "));
    CHECK(found([](QuoteRecord& quote) {
              quote.givens[0].because = "measured";
          }).starts_with("givens."));
    CHECK(found([](QuoteRecord& quote) {
              quote.price_per_unit += 0.01;
          }).starts_with("price.per_unit: "));
    CHECK(found([](QuoteRecord& quote) { quote.who = "another"; }).starts_with("job.for: "));
    CHECK(
        found([](QuoteRecord& quote) { quote.lines.pop_back(); }).ends_with(": not in the record"));
    CHECK(found([](QuoteRecord& quote) {
              replace_text(quote, "m.rate", model + "extra : h = hours\n");
          }) == "lines.extra: not in the record");
    CHECK(found([](QuoteRecord& quote) { quote.texts.erase("prices.rate"); }).find("F701") !=
          std::string::npos);
    // what is within one part in a billion is the same
    Record near = made();
    quote_in(near).costs[0].rate *= 1 + 1e-11;
    CHECK(differences(near).empty());
}

TEST_CASE("the function that a difference begins with is named") {
    Record record = made();
    for (RecordLine& line : quote_in(record).lines)
        if (line.name == "hours" || line.name == "machine.amount")
            line.value *= 1.01;
    CHECK(price_again(record).because == "field_capacity, in `hours`");
}

TEST_CASE("held and drawn inputs stand in a record, with quantiles in order") {
    std::string swinging = model;
    swinging.replace(swinging.find("given rate = $300/h"), 19,
                     "given rate = $300/h swing $250/h .. $350/h");
    Record record = made(job, swinging);
    const RecordRisk& risk = quote_in(record).risk;
    CHECK(risk.trials == record_trials);
    REQUIRE(risk.drawn.size() == 1);
    CHECK(risk.drawn[0].name == "rate");
    REQUIRE(risk.spreads.size() == 3);
    for (const RecordSpread& spread : risk.spreads) {
        REQUIRE(spread.quantiles.size() == 7);
        for (std::size_t i = 1; i < spread.quantiles.size(); ++i)
            CHECK(spread.quantiles[i - 1].value <= spread.quantiles[i].value);
    }
    CHECK(differences(record).empty());
    quote_in(record).risk.spreads[0].quantiles[0].value -= 10;
    CHECK(differences(record).size() == 1);
    Record still = made();
    CHECK(quote_in(still).risk.trials == 0);
}

TEST_CASE("a malformed record has no request") {
    CHECK(!made_from(QuoteRecord()));
    QuoteRecord quote;
    quote.request.name = "j.job";
    quote.texts["j.job"] = "none";
    CHECK(!made_from(quote));
}

} // namespace record_test
