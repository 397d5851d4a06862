#include "tests/fuzz/small_folder.h"

#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"
#include "tests/fuzz/scratch.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"

namespace acre::fuzz {
namespace {

constexpr const char* square =
    R"({"type":"Polygon","coordinates":[[[-119.7,36.6],[-119.698,36.6],[-119.698,36.602],)"
    R"([-119.7,36.602],[-119.7,36.6]]]})";
constexpr const char* daily_log = "date,machine,meter_start,meter_stop,acres,gallons,amount."
                                  "haul\n2027-03-14,crawler,100,109.5,22,310,\n"
                                  "2027-03-15,crawler,109.5,118,19,270,$3600\n";
constexpr const char* wording = ": crew.name = Tamarack Flat Ground Works\n== Scope\nRip {acres} "
                                "for {job.for}.\n\n@items\n@cautions\n";

std::map<std::string, std::string> files() {
    std::map<std::string, std::string> all = small_files();
    all["f.job"] = small_job();
    all["map.job"] = "job \"From a map\"\nmodel \"plain\"\nfield \"f.geojson\" heading 12 deg\n";
    all["plain.rate"] = "model \"Plain\"\ngiven area = 4 ac\ngiven run = 100 ft\ngiven travel = 1 "
                        "mi\ngiven pulls = 3\n"
                        "layout_spacing : ft = 30 ft\ncost rip : $/mi = $90/mi over travel\nprice "
                        "\"Rip\" per ac of area\n";
    all["f.geojson"] = square;
    all["log.csv"] = daily_log;
    all["words.wording"] = wording;
    all["broken.rate"] = "model \"b\"\ngiven area = 4 acer\nx : ft = area +\n";
    return all;
}

} // namespace

const std::map<std::string, std::string>& small_folder() {
    static const std::map<std::string, std::string> all = [] {
        std::map<std::string, std::string> made = files();
        set_out(made);
        cli::Console console;
        HOLDS_FOR(
            hold_command({"quote", "f.job", "--book", "book", "--date", "2027-03-14", "--json"},
                         console) == 0,
            console.err);
        const auto record = engine::read_canonical(console.out);
        HOLDS(record.has_value());
        made["book/000001.json"] = console.out;
        return made;
    }();
    return all;
}

} // namespace acre::fuzz
