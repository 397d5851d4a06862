// Logs as they come from a truck, each wrong in its own way: the message names row and column, and
// nothing of the log is taken.
#include "engine/log/job_log.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

namespace bad_logs_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::vector<CountedLine> counted = {
    {"machine_hours", "h", Counting::Meter, "crawler", 120, {}},
    {"acres", "ac", Counting::Work, "", 118, {}},
    {"gallons", "gal", Counting::Fuel, "", 4700, {}},
    {"days", "day", Counting::Days, "", 7, {}},
    {"crew_trips", "trip", Counting::Work, "", 14, {}, true}};

const std::string head = "date,machine,meter_start,meter_stop,acres,gallons,fuel_price,down_hours,"
                         "down_cause,crew_waited,hourly_hours,refused_at,amount.tips";
const std::string good = "2027-06-21,Hazel,100,120,20,800,4.60,,,,,,";

struct Bad {
    const char* what;
    std::string text;
    const char* code;
    std::uint32_t row, column; // of the text, from 1; column counts characters
    const char* head;          // that the message names, or nothing of the whole row
};

std::string with(const std::string& row) {
    return head + "\n" + good + "\n" + row + "\n";
}

const Bad logs[] = {
    {"nothing", "", "J001", 1, 1, ""},
    {"a first row alone", head + "\n", "J001", 1, 1, ""},
    {"no column of dates", "machine,meter_start,meter_stop,acres\nHazel,1,2,3\n", "J001", 1, 1,
     "date"},
    {"no column of work", "date,meter_start,meter_stop\n2027-06-21,1,2\n", "J001", 1, 1, "acres"},
    {"no meter", "date,meter_start,acres\n2027-06-21,1,2\n", "J001", 1, 1, "meter_stop"},
    {"a column nobody knows", "date,meter_start,meter_stop,acres,color\n2027-06-21,1,2,3,red\n",
     "J001", 1, 35, "color"},
    {"a column twice", "date,meter_start,meter_stop,acres,acres\n2027-06-21,1,2,3,3\n", "J001", 1,
     35, "acres"},
    {"dates in two ways", "date,date mm/dd/yyyy,meter_start,meter_stop,acres\n2027-06-21,,1,2,3\n",
     "J001", 1, 6, "date mm/dd/yyyy"},
    {"a quote that nobody closes", with("2027-06-22,\"Hazel,120,140,20,800,4.60,,,,,,"), "J001", 4,
     1, ""},
    {"a word for a figure", with("2027-06-22,Hazel,120,140,twenty,800,4.60,,,,,,"), "J002", 3, 26,
     "acres"},
    {"not a number at all", with("2027-06-22,Hazel,120,140,nan,800,4.60,,,,,,"), "J002", 3, 26,
     "acres"},
    {"a unit in the cell", with("2027-06-22,Hazel,120,140,20,800 gal,4.60,,,,,,"), "J002", 3, 29,
     "gallons"},
    {"below zero", with("2027-06-22,Hazel,120,140,-20,800,4.60,,,,,,"), "J002", 3, 26, "acres"},
    {"a decimal comma", with("2027-06-22,Hazel,120,140,\"20,5\",800,4.60,,,,,,"), "J002", 3, 26,
     "acres"},
    {"a decimal comma between semicolons",
     "date;meter_start;meter_stop;acres\n2027-06-21;100;120;20,5\n", "J002", 2, 20, "acres"},
    {"a comma that may be either, between semicolons",
     "date;meter_start;meter_stop;acres\n2027-06-21;8,412;8,430;20\n", "J002", 2, 12,
     "meter_start"},
    {"two numbers in a cell", with("2027-06-22,Hazel,120,140,20 5,800,4.60,,,,,,"), "J002", 3, 26,
     "acres"},
    {"a cell too many", with("2027-06-22,Hazel,120,140,20,800,4.60,,,,,,,9"), "J002", 3, 44, ""},
    {"a first row of figures cut short", head + "\n2027-06-22,Hazel,120\n" + good + "\n", "J002", 2,
     18, ""},
    {"a row cut short", with("2027-06-22,Hazel,120,140,20"), "J002", 3, 26, ""},
    {"fuel for nothing", with("2027-06-22,Hazel,120,140,20,800,0,,,,,,"), "J002", 3, 33,
     "fuel_price"},
    {"money that is none", with("2027-06-22,Hazel,120,140,20,800,4.60,,,,,,a lot"), "J002", 3, 43,
     "amount.tips"},
    {"a cause without hours", with("2027-06-22,Hazel,120,140,20,800,4.60,,rain,,,,"), "J002", 3, 38,
     "down_hours"},
    {"more than a day down", with("2027-06-22,Hazel,120,140,20,800,4.60,25,rain,,,,"), "J002", 3,
     38, "down_hours"},
    {"a crew that waits for nothing", with("2027-06-22,Hazel,120,140,20,800,4.60,,,yes,,,"), "J002",
     3, 40, "crew_waited"},
    {"neither yes nor no", with("2027-06-22,Hazel,120,140,20,800,4.60,2,rain,maybe,,,"), "J002", 3,
     45, "crew_waited"},
    {"hours by the hour without a place", with("2027-06-22,Hazel,120,140,0,800,4.60,,,,8,,"),
     "J002", 3, 40, "hourly_hours"},
    {"half an hour by the hour without a place",
     with("2027-06-22,Hazel,120,140,0,800,4.60,,,,0.5,,"), "J002", 3, 40, "hourly_hours"},
    {"a little more by the hour than on the meter",
     with("2027-06-22,Hazel,120,140,0,800,4.60,,,,20.005,row 12,"), "J002", 3, 40, "hourly_hours"},
    {"more by the hour than on the meter",
     with("2027-06-22,Hazel,120,140,0,800,4.60,,,,21,row 12,"), "J002", 3, 40, "hourly_hours"},
    {"no date", with(",Hazel,120,140,20,800,4.60,,,,,,"), "J003", 3, 1, "date"},
    {"a day that does not exist", with("2027-02-29,Hazel,120,140,20,800,4.60,,,,,,"), "J003", 3, 1,
     "date"},
    {"an American date that nobody announced", with("6/22/2027,Hazel,120,140,20,800,4.60,,,,,,"),
     "J003", 3, 1, "date"},
    {"a month of 13 in an American log",
     "date mm/dd/yyyy,meter_start,meter_stop,acres\n22/6/2027,100,120,20\n", "J003", 2, 1, "date"},
    {"a year of two digits", "date mm/dd/yyyy,meter_start,meter_stop,acres\n6/22/27,100,120,20\n",
     "J003", 2, 1, "date"},
    {"a meter that runs backward", with("2027-06-22,Hazel,140,120,20,800,4.60,,,,,,"), "J004", 3,
     22, "meter_stop"},
    {"one reading of two", with("2027-06-22,Hazel,120,,20,800,4.60,,,,,,"), "J004", 3, 22,
     "meter_stop"},
    {"a day of thirty hours", with("2027-06-22,Hazel,120,150,20,800,4.60,,,,,,"), "J004", 3, 22,
     "meter_stop"},
    {"the last half hour that another row has", with("2027-06-22,Hazel,119.5,120,1,20,4.60,,,,,,"),
     "J004", 3, 18, "meter_start"},
    {"a row told twice", with(good), "J004", 3, 18, "meter_start"},
    {"hours that another row has", with("2027-06-22,Hazel,119,139,20,800,4.60,,,,,,"), "J004", 3,
     18, "meter_start"},
};

} // namespace

TEST_CASE("more than thirty kinds of bad logs: each has row and column in its message") {
    CHECK(std::size(logs) >= 30);
    std::set<std::string> kinds;
    for (const Bad& bad : logs) {
        CAPTURE(bad.what);
        kinds.insert(bad.what);
        const lang::Outcome<JobLog> log = read_job_log("log.csv", bad.text, counted);
        CHECK(!log.value.has_value()); // none half read
        REQUIRE(!log.said.diagnostics.all().empty());
        const lang::Diagnostic& said = log.said.diagnostics.all()[0];
        CAPTURE(said.title);
        CHECK(std::string(lang::name_of(said.code)) == bad.code);
        REQUIRE(log.said.sources);
        const auto at =
            log.said.sources->file(said.primary.span.file).position(said.primary.span.begin);
        CHECK(at.line == bad.row);
        CHECK(at.column == bad.column);
        CHECK(said.title.find(bad.head) != std::string::npos);
    }
    CHECK(kinds.size() == std::size(logs));
}

TEST_CASE("what is just not wrong is taken, cell by cell") {
    const lang::Outcome<JobLog> log = read_job_log(
        "log.csv",
        head + ",operator,note\n"
               "2027-06-21,Hazel,100,124,20,800,4.60,24,rain,yes,24,row 12,,Ada,wet\n" // all day
               "2027-06-22,Hazel,124,124,0,0,0.01,0.5,,Yes,,,0,,\n" // from where it stopped
               "2027-06-22,Walt,100,120,0,,,0,,NO,,,,,\n"           // another machine's meter
               "2027-06-23,Hazel,,,,,,1,wind,no,,,,,\n",
        counted);
    REQUIRE_MESSAGE(log, log.said.diagnostics.all()[0].title);
    REQUIRE(log->rows.size() == 4);
    const LogRow& first = log->rows[0];
    CHECK(first.machine == "Hazel");
    CHECK(first.operator_name == "Ada");
    CHECK(first.note == "wet");
    CHECK(first.has_meter);
    CHECK(first.meter_start == 100);
    CHECK(first.meter_stop == 124);
    CHECK(first.hours == 24);
    CHECK(first.hourly_hours == 24);
    CHECK(first.refused_at == "row 12");
    CHECK(first.down_hours == 24);
    CHECK(first.down_cause == "rain");
    CHECK(first.crew_waited);
    CHECK(first.fuel == 800);
    CHECK(first.amounts.empty());
    CHECK(log->line(first) == 2);
    const LogRow& second = log->rows[1];
    CHECK(second.crew_waited);
    CHECK(second.down_hours == 0.5);
    CHECK(second.fuel_price == 0.01);
    CHECK(second.has_meter);
    CHECK(second.amounts.at("tips") == 0);
    CHECK_FALSE(log->rows[2].crew_waited);
    CHECK_FALSE(log->rows[3].has_meter);
    CHECK(log->rows[3].counted.empty());
    CHECK(log->columns.size() == 2);
    CHECK(log->fuels.size() == 1);
}

TEST_CASE("all that is wrong in a log is told at once") {
    const lang::Outcome<JobLog> log =
        read_job_log("log.csv", with("2027-06-31,Hazel,140,120,x,y,4.60,,,,,,"), counted);
    CHECK(!log);
    CHECK(log.said.diagnostics.error_count() == 4);
}

TEST_CASE("a cell that cannot be read brings no second complaint about what it would mean") {
    for (const char* row : {"2027-06-22,Hazel,120,140,20,800,4.60,x,,,,,", // no cause for them
                            "2027-06-22,Hazel,120,140,20,800,4.60,,,,x,,", // nor a place
                            "2027-06-22,Hazel,120,140,20,800,4.60,,,,-1,,",
                            "2027-06-22,Hazel,120,140,20,800,4.60,x,rain,yes,,,",
                            "2027-06-22,Hazel,120,x,20,800,4.60,,,,,,",  // the meter runs backward?
                            "2027-06-22,Hazel,-1,140,20,800,4.60,,,,,,", // or a day of 140 hours?
                            "2027-06-22,Hazel,x,140,20,800,4.60,,,,7,row 12,",
                            "2027-06-22,Hazel,120,140,20,800,x,,,,,,"}) {
        CAPTURE(row);
        CHECK(read_job_log("log.csv", with(row), counted).said.diagnostics.error_count() == 1);
    }
}

TEST_CASE("a row that is short or long brings no other complaint") {
    for (const char* row : {"2027-06-22,Hazel,120", "2027-06-22,Hazel,120,x,,,,,,,,,,"}) {
        CAPTURE(row);
        CHECK(read_job_log("log.csv", with(row), counted).said.diagnostics.error_count() == 1);
    }
}

TEST_CASE("a log has two hundred columns at most") {
    const std::string named = "date,meter_start,meter_stop,acres";
    const auto text = [&](std::size_t columns) { // all but four are empty
        const std::string commas(columns - 4, ',');
        return named + commas + "\n2027-06-21,1,2,3" + commas + "\n";
    };
    CHECK(read_job_log("log.csv", text(200), counted).value.has_value());
    const lang::Outcome<JobLog> wide = read_job_log("log.csv", text(201), counted);
    REQUIRE(wide.said.diagnostics.all().size() == 1);
    CHECK(wide.said.diagnostics.all()[0].title == "the log has more than 200 columns");
}

TEST_CASE("who writes a comma in a figure is told what it parts, and nobody else") {
    const auto helps = [](const std::string& text) {
        const lang::Outcome<JobLog> log = read_job_log("log.csv", text, counted);
        REQUIRE(!log);
        const auto& all = log.said.diagnostics.all()[0].helps;
        return all.empty() ? "" : all[0].text;
    };
    CHECK(helps(with("2027-06-22,Hazel,120,140,\"20,5\",800,4.60,,,,,,")) ==
          "a comma parts thousands; write decimals with a point");
    CHECK(helps("date;meter_start;meter_stop;acres\n2027-06-21;100;120;20,5\n") ==
          "between semicolons or tabs write no comma: 8412.3, 1200");
    CHECK(helps(with("2027-06-22,Hazel,120,140,twenty,800,4.60,,,,,,")) == "");
    CHECK(helps(with("2027-06-22,Hazel,120,140,\"-2,000\",800,4.60,,,,,,")) == "");
}

TEST_CASE("a row and its cells are found again where they stood") {
    const lang::Outcome<JobLog> log =
        read_job_log("log.csv",
                     "note,date,meter_start,meter_stop,acres\n"
                     "\"two\nlines\",2027-06-21,1,2,33\n,2027-06-22,2,3,44\n",
                     counted);
    REQUIRE(log);
    CHECK(log->line(log->rows[0]) == 2); // where it begins
    CHECK(log->line(log->rows[1]) == 4);
    const auto text = [&](std::string_view column) {
        return log->sources->text(log->place(log->rows[1], column));
    };
    CHECK(text("acres") == "44");
    CHECK(text("date") == "2027-06-22");
    CHECK(text("gallons") == ""); // no such column: the first cell
    CHECK(log->place(log->rows[1], "gallons").begin == log->rows[1].cells[0].begin);
    JobLog bare; // not read from any text
    LogRow row;
    CHECK(bare.line(row) == 0);
    row.cells.push_back({0, 0, 1});
    CHECK(bare.line(row) == 0);
}

TEST_CASE("hours told twice are found under both names of a machine") {
    const std::vector<CountedLine> of_entry = {
        {"walt.hours", "h", Counting::Meter, "walt.rig", 120, {}}};
    const std::string columns = "date,machine,meter_start,meter_stop\n";
    for (const char* row :
         {"2027-06-21,Walt.rig,115,125\n", "2027-06-21,WALT,115,125\n", "2027-06-21,,115,125\n"}) {
        CAPTURE(row);
        const lang::Outcome<JobLog> log = read_job_log(
            "log.csv", columns + "2027-06-20,walt,90,100\n2027-06-21,walt.rig,100,120\n" + row,
            of_entry);
        CHECK(!log);
        REQUIRE(log.said.diagnostics.error_count() == 1);
        CHECK(log.said.diagnostics.all()[0].code == lang::Code::J004);
    }
    CHECK(read_job_log("log.csv",
                       columns + "2027-06-21,walt.rig,100,120\n2027-06-21,Walter,115,125\n",
                       of_entry)
              .value.has_value());
}

TEST_CASE("dates as Americans write them, where the file says so; semicolons; money") {
    const lang::Outcome<JobLog> log = read_job_log(
        "log.csv",
        "Date (MM/DD/YYYY);machine;meter_start;meter_stop;acres;gallons;fuel_price;amount.tips\n"
        "6/21/2027;Hazel;100;120.5;20;800;$4.60;$95\n06/02/2027;Walt;7;9;1;80;;\n",
        counted);
    REQUIRE(log);
    REQUIRE(log->rows.size() == 2);
    CHECK(log->rows[0].date == "2027-06-21");
    CHECK(log->rows[1].date == "2027-06-02"); // the second of June, never the sixth of February
    CHECK(log->rows[0].hours == doctest::Approx(20.5));
    CHECK(log->rows[0].fuel_price == doctest::Approx(4.60));
    CHECK(log->rows[0].amounts.at("tips") == doctest::Approx(95));
}

TEST_CASE("a log as a spreadsheet writes it: capitals, tabs, columns and rows of nothing") {
    const lang::Outcome<JobLog> log =
        read_job_log("log.txt",
                     "Date\tMachine\tMeter Start\tMETER_STOP\tAcres\tGallons\tAmount.tips\t\t\r\n"
                     "2027-06-21\tHazel\t100\t120.5\t20\t800\t$95\t\t\r\n"
                     "\t\t\t\t\t\t\t\t\r\n",
                     counted);
    REQUIRE(log);
    REQUIRE(log->rows.size() == 1);
    CHECK(log->rows[0].hours == doctest::Approx(20.5));
    CHECK(log->rows[0].counted.at("acres") == doctest::Approx(20));
    CHECK(log->rows[0].amounts.at("tips") == doctest::Approx(95));
    // A figure in a column without a name is nobody's guess; no more is a column named twice.
    for (const char* text :
         {"date,machine,meter_start,meter_stop,acres,\n2027-06-21,Hazel,1,2,3,4\n",
          "date,Acres,meter_start,meter_stop,acres\n2027-06-21,1,1,2,3\n"}) {
        const lang::Outcome<JobLog> wrong = read_job_log("log.csv", text, counted);
        REQUIRE(!wrong);
        CHECK(wrong.said.diagnostics.all().front().code == lang::Code::J001);
    }
}

TEST_CASE("an empty cell is not zero") {
    const lang::Outcome<JobLog> log =
        read_job_log("log.csv",
                     "date,meter_start,meter_stop,acres,gallons\n2027-06-21,0,10,10,400\n"
                     "2027-06-22,10,20,8,\n2027-06-23,20,30,12,0\n2027-06-24,30,40,11,440\n",
                     counted);
    REQUIRE(log);
    CHECK(log->rows[0].counted.at("gallons") == 400);
    CHECK(!log->rows[1].counted.contains("gallons"));
    CHECK(log->rows[2].counted.at("gallons") == 0);
    const LogTotals sum = totals(*log);
    CHECK(sum.unlogged.at("gallons").days == 1);
    CHECK(sum.unlogged.at("gallons").hours == doctest::Approx(10));
    CHECK(!sum.unlogged.contains("acres"));
    // Three days with a figure: (400 + 0 + 440) / 30. With the empty day as zero it would be 21.
    const Learned burn = learned_per_hour(*log, "gallons");
    CHECK(burn.days == 3);
    CHECK(burn.value == doctest::Approx(28));
}

TEST_CASE("trips, nights, permits and invoices may be in a log, and need not") {
    const lang::Outcome<JobLog> log = read_job_log(
        "log.csv",
        "date,meter_start,meter_stop,acres,crew_trips,permit,invoice,amount.haul.state_permit\n"
        "2027-06-20,,,0,2,S-4471,INV 12,16\n2027-06-21,0,10,10,2,,,\n",
        counted);
    REQUIRE(log);
    CHECK(log->rows[0].permit == "S-4471");
    CHECK(log->rows[0].invoice == "INV 12");
    CHECK(totals(*log).counted.at("crew_trips") == 4);
    CHECK(totals(*log).amounts.at("haul.state_permit") == 16);
}

} // namespace bad_logs_test
