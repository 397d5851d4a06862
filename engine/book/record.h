// A record of a quote book, as data. Everything that reads or writes one goes through this struct;
// how it stands in a file is engine/book/fields.h, and FORMAT.md says it for other programs.
//
// Money is in hundredths ("cents") or dollars ($) of the record's currency. Dates are
// "2027-06-21", times "2027-06-21T15:04:05Z". What is not there is empty.
#pragma once

#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "engine/log/counting.h"
#include "lang/units/money.h"

namespace acre::engine {

inline constexpr double no_value = std::numeric_limits<double>::quiet_NaN();

struct RecordLine {
    std::string name, unit, choice; // `choice`: the option's name, of a line that chooses
    double value = no_value;
};
struct RecordGiven {
    std::string name, label, unit, choice, set_by, place, because;
    double value = no_value;
};
struct RecordCost {
    std::string name, label, part, rate_unit, quantity_unit;
    double rate = 0, quantity = 0, amount = 0; // amount: $
    double per_unit = no_value;                // $; version 1 has none
};
struct RecordStep {
    std::string text;          // "margin 15 %"
    double added = 0, sum = 0; // $
};
struct RecordItem {
    std::string title, name, per; // `per` empty: a lump sum
    double quantity = 0, rate = 0, cost = 0;
    std::int64_t cents = 0;
    std::vector<RecordStep> steps;
};
struct RecordPicture {
    std::string entry; // whose ground it is; empty: the whole job
    std::string svg;   // the seal of its text
};
struct RecordBlock {                       // what the customer sees of one
    std::string label, acres, depth, soil; // as people read them; perhaps empty
    std::int64_t cents = 0;
};
struct RecordReference { // what a text of the job names, and the text that this is
    std::string kind, reference, from, name;
};
struct RecordRequest {
    std::string name, kind, option, field_sets, season; // `season`: in the place of the job's own
    std::vector<std::pair<std::string, std::string>> sets;
    std::int64_t notation = 1;
};

// Another option of the same job, offered beside at its own price.
struct RecordOption {
    std::string option;
    std::int64_t cents = 0;
    std::vector<RecordItem> items;
};

// How price, cost and profit fall when the inputs are drawn from their swings.
struct RecordDrawn {
    std::string name, kind; // swing or event
    double low = no_value, high = no_value;
};
struct RecordHeld {
    std::string name, reason; // chosen, asked, computed
};
struct RecordQuantile {
    double share = 0, value = 0; // 0 to 1, $
};
struct RecordSpread {
    std::string of; // "cost", "contribution", "profit"
    double mean = 0, spread = 0;
    std::vector<RecordQuantile> quantiles;
};
struct RecordRisk {
    std::int64_t trials = 0, seed = 0, without_answer = 0; // 0 trials: it was not asked
    double loss = no_value;                                // the chance of a loss, 0 to 1
    std::vector<RecordDrawn> drawn;
    std::vector<RecordHeld> held;
    std::vector<RecordSpread> spreads;
};

// How pages of quotes are laid out: from 1 on a change order is called one, and nobody is named
// where the job has no customer or the season no firm; from 2 on the prices of blocks come with the
// words that a rate is the same in all of them. A page that was issued is made again as it was.
inline constexpr std::int64_t current_page_layout = 2;

struct QuoteRecord {
    std::string number, issued, valid_until, by, replaces; // "2027-014", "2027-06-21"
    std::string changes;           // a change order: the number of the quote that it changes
    std::int64_t before_cents = 0; // what the work stood at before this change order
    RecordRequest request;
    std::map<std::string, std::string> texts; // by name: the seal of each, its SHA-256
    std::vector<RecordReference> references;
    std::string title, who, option, model, season, date; // of the job
    std::string start, finish;                           // its first and last day; empty: not known
    std::vector<std::pair<std::string, std::string>> job_words; // for its pages
    std::vector<RecordGiven> givens;
    std::vector<RecordLine> lines;
    std::vector<std::string> inner; // names of lines that stay inside the firm
    // Names of lines that the customer may read. Nothing of records from before models said so:
    // there it is every line that is not inner.
    std::optional<std::vector<std::string>> shown;
    std::vector<CountedLine> counted; // what a log counts
    std::vector<RecordCost> costs;
    std::vector<RecordItem> items;
    std::vector<RecordOption> options; // beside the one that is priced
    std::vector<std::string> cautions;
    std::vector<RecordPicture> pictures;
    std::vector<RecordBlock> blocks;   // none unless the quote was asked by block
    std::vector<std::string> accepted; // codes of warnings
    std::string firm;                  // its name
    std::vector<std::pair<std::string, std::string>> firm_words;
    lang::Currency money;
    std::int64_t price_cents = 0;
    std::string per;           // of the first item with one
    double per_quantity = 0;   // how many of it
    double price_per_unit = 0; // $
    double cost_total = 0;     // $, direct cost
    double overhead = 0;       // $, what the price carries; worked out from the lines
    RecordRisk risk;
    std::string wording, wording_text; // its name, and the seal of its text
    std::string page_html, page_text;  // seals of the pages as issued
    std::int64_t page_layout = 0;      // by which they were laid out
    // The texts themselves by their seals, as far as they are at hand: of a new record, of one of
    // version 1, or fetched (engine/book/texts.h). No member of the record.
    std::map<std::string, std::string> carried;
};

// What became of a quote.
struct WordRecord {
    std::string quote, state, option, date, note;
    std::int64_t corrects = 0; // the number of the record that this one puts right
    std::string log;           // the seal of the job's log
};

// A key that signs from here on, or no longer.
struct KeyRecord {
    std::string action, key, name, date; // admit or retire; 64 hexadecimal digits; whose
};

// The daily log of a job.
struct LogRecord {
    std::string quote, name, text, date; // text: its seal
};

// A line of a bill, with the clause and the lines of the quote that it rests on.
struct RecordBilled {
    std::string title, name, kind, per, clause;
    double quantity = 0, rate = 0;
    std::int64_t cents = 0;
    std::vector<std::string> terms;
};
struct BillRecord {
    std::string quote, bill, date, due, note; // bill: its own number
    std::string terms_of; // the quote or change order by whose terms it was worked out
    std::string log, posted, product, page; // seals of the texts; product: of the posted prices
    std::vector<RecordBilled> items;
    std::int64_t cents = 0;
};

struct OtherRecord {}; // of a kind that this program does not know: sealed and carried

struct Record {
    std::int64_t version = 2;
    std::string kind, program, written, previous, seal, signer, signature;
    std::int64_t index = 0;                      // its number in the book, from 1
    std::map<std::string, std::int64_t> counter; // quotes of each year so far
    std::variant<OtherRecord, QuoteRecord, WordRecord, KeyRecord, LogRecord, BillRecord> body;
    std::string other; // members that this program does not know, as canonical JSON; or empty

    const QuoteRecord* quote() const { return std::get_if<QuoteRecord>(&body); }
    const WordRecord* word() const { return std::get_if<WordRecord>(&body); }
    const BillRecord* bill() const { return std::get_if<BillRecord>(&body); }
    const KeyRecord* key() const { return std::get_if<KeyRecord>(&body); }
};

// Reads the text of a record's file. `fault` says what is wrong with it; `record` then holds what
// could be read.
struct ReadRecord {
    Record record;
    std::string fault;  // empty: whole, as it was sealed, and of the shape of a record
    bool whole = false; // it is canonical JSON at least
};
ReadRecord read_record(std::string_view bytes);

// Puts number, chain, seal and, with an Ed25519 secret `key`, the signature into the record, and
// gives the bytes of its file. The seal is SHA-256 over the canonical text without "seal" and
// "signature"; the signature is over the 64 digits of the seal.
std::string seal_record(Record& record, std::int64_t index, std::string_view previous,
                        std::string_view key);

// A record without seal, as a draft is shown: its JSON in ASCII.
std::string draft_json(const Record& record);

// The overhead of a quote: its own line, or of old records worked out from the steps.
double overhead_of(const QuoteRecord& quote);

// Whether an item's rate times its quantity is its cents: not under the first notation.
bool is_billed_exactly(const QuoteRecord& quote);

} // namespace acre::engine
