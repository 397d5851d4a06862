// A record of a quote book: read as canonical JSON, then sealed anew as anybody can, and given to
// every command that reads books.
#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"
#include "engine/book/record.h"
#include "engine/book/seal.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/scratch.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"

namespace record_fuzz {

using namespace acre;

namespace {

constexpr const char* daily_log =
    "date,machine,meter_start,meter_stop,acres,gallons,amount.haul\n"
    "2027-03-14,crawler,100,109.5,22,310,\n2027-03-15,crawler,109.5,118,19,270,$3600\n";
constexpr const char* wording =
    ": crew.name = Tamarack Flat Ground Works\n== Scope\nRip {acres} for {job.for}.\n- "
    "{north.area}\n"
    "? method is full_field\nThe whole field.\n\n@items\n@cautions\n@picture\n"
    "@fuel-steps base=crawler.fuel_price per=gallons step=0.25 rows=3\n@signatures\n";

} // namespace

ACREWRIGHT_TARGET(record, text) {
    const auto canonical = engine::read_canonical(text);
    const auto as_written = [](const nlohmann::json& json) {
        return json.is_object() && engine::is_version_1(json) ? engine::canonical_1(json)
                                                              : engine::canonical(json);
    };
    bool deep = false;
    nlohmann::json record = nlohmann::json::parse(
        text,
        [&](int depth, nlohmann::json::parse_event_t, nlohmann::json&) {
            return !(deep = deep || depth > 60);
        },
        false);
    // What is read is what another reader of JSON reads, written out again; and the other way
    // round.
    const bool is_canonical = !record.is_discarded() && as_written(record) + "\n" == text;
    HOLDS(deep || canonical.has_value() == is_canonical);
    if (record.is_discarded() || deep || !record.is_object())
        return;
    record["record"] = 1;
    for (const char* own : {"previous", "seal", "signature", "signer"})
        record.erase(own);
    const std::string seal = engine::sha256(as_written(record));
    record["seal"] = seal;
    const std::string bytes = as_written(record) + "\n";
    const engine::ReadRecord read = engine::read_record(bytes);
    // A number may be too large for a double.
    HOLDS(!read.whole || read.fault != "was changed after it was sealed");

    std::map<std::string, std::string> files = fuzz::small_files();
    files["book/000001.json"] = bytes;
    files["book/head"] = "1 " + seal + "\n";
    files["log.csv"] = daily_log;
    files["words.wording"] = wording;
    files["f.job"] = fuzz::small_job();
    fuzz::set_out(files);
    const auto it = record.find("quote");
    const std::string number =
        it != record.end() && it->is_string() && !it->get<std::string>().empty()
            ? it->get<std::string>()
            : "2027-001";
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"verify", "book"},
             {"verify", "book", "--json"},
             {"book", "book"},
             {"book", "book", "--csv"},
             {"book", "book", "--cost-csv"},
             {"book", "book", "--journal"},
             {"book", "book", "--as-of", "2027-04-01"},
             {"book", "book", "--json", "--season", "2027.season"},
             {"book", "book", "--season", "2027.season"},
             {"variance", "--book", "book", "--", number, "log.csv"},
             {"variance", "--json", "--book", "book", "--", number, "log.csv"},
             {"bridge", "--book", "book", "--season", "2027.season", "--", number, "again"},
             {"bridge", "--book", "book", "--total", "--json", "--", number, "f.job"},
             {"quote", "--book", "book", "--", number},
             {"mark", "--book", "book", "--date", "2027-04-01", "--", number, "accepted"},
             {"quote", "f.job", "--book", "book", "--date", "2027-04-02", "--replaces", number}}) {
        cli::Console console;
        fuzz::hold_command(words, console);
    }
}

} // namespace record_fuzz
