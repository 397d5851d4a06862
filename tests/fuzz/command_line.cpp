// A whole command line, one word a line, run in process in a folder of small files. No word leads
// out of the folder.
#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"
#include "tests/fuzz/scratch.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"

namespace command_line_fuzz {

using namespace acre;

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
    std::map<std::string, std::string> all = fuzz::small_files();
    all["f.job"] = fuzz::small_job();
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

// A book of one quote, as the program itself writes it.
const std::map<std::string, std::string>& files_and_book() {
    static const std::map<std::string, std::string> all = [] {
        std::map<std::string, std::string> made = files();
        fuzz::set_out(made);
        cli::Console console;
        HOLDS_FOR(fuzz::hold_command(
                      {"quote", "f.job", "--book", "book", "--date", "2027-03-14", "--json"},
                      console) == 0,
                  console.err);
        const auto record = engine::read_canonical(console.out);
        HOLDS(record.has_value());
        made["book/000001.json"] = console.out;
        return made;
    }();
    return all;
}

// Whoever asks for many trials waits for them; that is no fault. Every other number may be as large
// as it likes: an answer or a refusal must come in time.
bool asks_for_little(const std::vector<std::string>& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string_view word = words[i];
        const bool counts = word.starts_with("--trials") || word.starts_with("--threads") ||
                            (i > 0 && (words[i - 1] == "--trials" || words[i - 1] == "--threads"));
        if (counts && std::count_if(word.begin(), word.end(),
                                    [](char c) { return c >= '0' && c <= '9'; }) > 4)
            return false;
    }
    return true;
}

} // namespace

ACREWRIGHT_TARGET(command_line, text) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size() && words.size() < 24;) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (text.substr(at, end - at).find('\0') == std::string_view::npos)
            words.emplace_back(text.substr(at, end - at));
        at = end + 1;
    }
    if (!fuzz::stays_inside(words) || !asks_for_little(words))
        return;
    if (!words.empty() && words[0] == "risk") {
        words.emplace_back("--trials");
        words.emplace_back("300");
        words.emplace_back("--threads");
        words.emplace_back("1");
    }
    fuzz::set_out(files_and_book());
    cli::Console console;
    fuzz::hold_command(words, console);
}

} // namespace command_line_fuzz
