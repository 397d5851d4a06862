// What was typed over the sheet of givens, read back as lines of the job.
#include "engine/workbook/changed_givens.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/support/priced.h"

namespace changed_givens_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string model = "model \"Rip\"\n"
                          "given area = 80 ac  \"net acres\"\n"
                          "given depth = 5 ft  \"depth\" within 3 ft .. 7 ft\n"
                          "given ground = one_way | loaded  \"ground\"\n"
                          "given fuel = $5.07/gal  \"fuel\"\n"
                          "given part_of = 20 %  \"share\"\n"
                          "given dusk = 18:00  \"dusk\"\n"
                          "cost own : $/ac = $2/ac/ft * depth over area  \"crawler\"\n"
                          "price \"Ripping\" per ac of area\n";
const std::string job = "job \"Bench\"\nmodel \"rip\"\nset area = 80 ac\n"
                        "option \"Deep\"\n  set depth = 6 ft\n"
                        "option \"Wide\"\n  set area = 90 ac\n";
const std::string head = "name,what it is,value,Deep,Wide,unit,from,to,your reason\n";
const std::string as_written = "area,,80,80,90,ac\ndepth,,5,6,5,ft,3,7\nground,,one way,one way,"
                               "one way,,,\nfuel,,5.07,5.07,5.07,$/gal\npart_of,,20,20,20,%\n"
                               "dusk,,18:00,18:00,18:00,clock\n";

struct Read {
    std::vector<ChangedGiven> changes;
    std::string text;               // as lines of the job
    std::vector<std::string> fault; // title: help
};
Read read(const std::string& table, bool options = true) {
    tests::Choices choices{{{"rip.rate", model}}};
    const auto base = tests::priced_ok(job, choices);
    std::vector<WorkbookQuestion::Option> beside;
    for (const char* title : {"Deep", "Wide"})
        if (choices.option = title; options)
            beside.push_back({title, *tests::priced_ok(job, choices).made});
    const auto found = changed_givens(base, beside, "g.csv", table);
    Read out;
    if (found) {
        out.changes = *found;
        out.text = set_lines(*found);
    }
    for (const lang::Diagnostic& one : found.said.diagnostics.all())
        out.fault.push_back(one.title + (one.helps.empty() ? "" : ": " + one.helps.front().text));
    return out;
}
// One given, without options: the value that is set, or what is wrong.
std::string typed(const std::string& name, const std::string& value, const std::string& unit) {
    const Read out =
        read("name,value,unit,your reason\n" + name + "," + value + "," + unit + ",\n", false);
    return !out.fault.empty() ? out.fault.front()
                              : (out.changes.empty() ? "" : out.changes.front().value);
}

} // namespace

TEST_CASE("a sheet that nobody changed changes nothing, titles above and between it or not") {
    const Read same = read("Givens\n\n" + head + "Field\n" + as_written + ",,\nOthers,,,\nx\n");
    CHECK(same.fault.empty());
    CHECK(same.changes.empty());
}

TEST_CASE("changes stand by job and option, with what was before and why") {
    const Read out = read(head + "depth,,6.5,6.5,5,ft,3,7,\"wet \"\"year\"\"\"\n"
                                 "area,,81,80,95,ac,,,more\n"
                                 "ground,,loaded,loaded,loaded,,,,\n");
    REQUIRE(out.fault.empty());
    CHECK(
        out.text ==
        "set depth = 6.5 ft  because \"wet 'year'\"  # was 5 ft, set by the model, rip.rate:3\n"
        "set area = 81 ac  because \"more\"  # was 80 ac, set by the job, test.job:3\n"
        "set ground = loaded  # was one way, set by the model, rip.rate:4\n"
        "option \"Deep\"\n"
        "  set depth = 6.5 ft  because \"wet 'year'\"  # was 6 ft, set by the option, test.job:5\n"
        "option \"Wide\"\n"
        "  set area = 95 ac  because \"more\"  # was 90 ac, set by the option, test.job:7\n");
}

TEST_CASE("a value is one of its given, within its bounds, or it is told why not") {
    CHECK(typed("depth", "3", "ft") == "3 ft");
    CHECK(typed("depth", "7", "ft") == "7 ft");
    CHECK(typed("depth", "2.9", "ft") ==
          "`2.9` of `depth` is outside its allowed range: 3 ft is the least allowed");
    CHECK(typed("depth", "7.1", "ft") ==
          "`7.1` of `depth` is outside its allowed range: 7 ft is the most allowed");
    CHECK(typed("depth", "deep", "ft") == "`deep` of `depth` is no number: write the number "
                                          "alone; it counts in ft");
    CHECK(typed("depth", "5.00000001", "ft") == ""); // a cell shows so many digits
    CHECK(typed("depth", "5.000001", "ft") == "5.000001 ft");
    CHECK(typed("depth", "", "ft") == "the cell of `depth` is empty: type a value; it was 5 ft");
    CHECK(typed("depth", "6", "in").starts_with("`depth` counts in ft"));
    CHECK(typed("fuel", "$6", "$/gal") == "$6/gal");
    CHECK(typed("part_of", "25 %", "%") == "25 %");
    CHECK(typed("part_of", "20", "%") == "");
    CHECK(typed("part_of", "0.2", "%") ==
          "`0.2` of `part_of` may be two things: write  0.2 %  or  20 %");
    CHECK(typed("dusk", "17:30", "clock") == "17:30");
    CHECK(typed("dusk", "18", "clock") == "");
    CHECK(typed("dusk", "18:00", "clock") == "");
    CHECK(typed("dusk", "18:01", "clock") == "18:01");
    CHECK(typed("dusk", "0.73", "clock").starts_with("`0.73` of `dusk` may be two things"));
    CHECK(typed("dusk", "late", "clock").starts_with("`late` of `dusk` is no time of day"));
    CHECK(typed("ground", "loaded", "") == "loaded");
    CHECK(typed("ground", "one way", "") == "");
    CHECK(typed("ground", "wet", "") ==
          "`wet` is not one of `ground`: it is one of: one way, loaded");
    CHECK(typed("dept", "5", "").starts_with("no given named `dept`"));
    CHECK(typed("own", "5", "").starts_with("no given named `own`")); // a line that is computed
    CHECK(typed("dept", "", "") == "");                               // the title of a part
    CHECK(typed("depth", "6", "ft,,\ndepth,6,ft").starts_with("`depth` has two rows"));
}

TEST_CASE("a sheet of another job, or none, is refused") {
    const auto fault = [](const std::string& table, bool options = true) {
        const Read out = read(table, options);
        return out.fault.empty() ? "" : out.fault.front().substr(0, out.fault.front().find(": "));
    };
    CHECK(fault("name,val\ndepth,6\n") == "no row with the titles `name` and `value`");
    CHECK(fault("nam,value\ndepth,6\n") == "no row with the titles `name` and `value`");
    CHECK(fault("name,value,Wide,unit\n") == "no column of the option `Deep`");
    CHECK(fault("name,value,Deep,unit\n") == "no column of the option `Wide`");
    CHECK(fault("name,value,Wide,,Deep,unit\n") == "");
    CHECK(fault("name,value,Deep,Wide,High,unit\n") == "this job has no option `High`");
    CHECK(fault("name,value,Deep,unit\n", false) == "this job has no option `Deep`");
    CHECK(fault("name,value\ndepth,6\n") == ""); // somebody's own table
    CHECK(fault("name,value\n\"depth,6\n") == "this is not valid CSV");
    CHECK(read("name;value;unit\ndepth;6;ft\n", false).text.starts_with("set depth = 6 ft"));
    CHECK(read("value,name\n6,depth\n7\n", false).text.starts_with("set depth = 6 ft"));
}

} // namespace changed_givens_test
