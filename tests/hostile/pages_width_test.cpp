// No page is wider than 80 columns, whatever the names and figures of a model are.
#include <doctest/doctest.h>

#include <filesystem>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/glyph.h"
#include "tests/hostile/judge.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/small_firm.h"

namespace pages_width_test {

using namespace acre::tests;
namespace fs = std::filesystem;

namespace {

constexpr std::size_t page_columns = 80;

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

// The prices of the firm with so many digits before the point. From 14 on a price cannot be kept to
// the cent.
Files dear(Files files, std::size_t digits) {
    const auto money = [&](char digit, std::size_t fewer) {
        return "$" + std::string(digits - fewer, digit) + ".99";
    };
    for (auto& [name, text] : files) {
        if (name == "log.csv") {
            replace_all(text, ",120,", "," + std::string(digits, '9') + ".99,");
            continue;
        }
        replace_all(text, "$4.20/gal", money('9', 3) + "/gal");
        replace_all(text, "$4.40/gal", money('8', 3) + "/gal");
        replace_all(text, "$5.40/gal", money('9', 3) + "/gal");
        replace_all(text, "$120 ", money('9', 0) + " ");
        replace_all(text, "$12,000/yr", money('9', 0) + "/yr");
        replace_all(text, "$180", money('9', 2));
    }
    return files;
}

// Every command that makes a page.
constexpr std::string_view pages_of[] = {
    "price",  "explain",  "compare", "bridge",   "sensitivity", "break-even", "grid",
    "risk",   "quote",    "mark",    "book",     "verify",      "variance",   "rate-card",
    "season", "field",    "check",   "library",  "codes",       "words",      "measures",
    "try",    "workbook", "learn",   "outcomes", "crew",        "bill"};

// Those of the hostile test, and tables of many columns, long searches and sums of every line.
std::vector<Judged> all_pages() {
    std::vector<Judged> pages = all_commands();
    for (const Line& words : std::vector<Line>{
             {"rate-card", "meadow.job", "--rows", "area=10 ac,20 ac,30 ac", "--columns",
              "pace=4 ac/h,4.25 ac/h,4.5 ac/h,4.75 ac/h,5 ac/h,5.25 ac/h,5.5 ac/h,6 ac/h",
              "--pages", "ground=flat,rough", "--date", "2027-01-15", "--earns"},
             {"grid", "meadow.job", "--along", "area=20 ac..200 ac by 20 ac", "--along",
              "pace=4 ac/h,5 ac/h,6 ac/h", "--of", "price.total", "--of", "cost.total"},
             {"grid", "meadow.job", "--along", "ground=flat,rough", "--along", "area=20 ac,40 ac",
              "--along", "pace=4 ac/h,5 ac/h,6 ac/h"},
             {"grid", "meadow.job", "--along", "area=20 ac,40 ac,60 ac", "--of", "price.total",
              "--of", "cost.total", "--of", "price.per_unit", "--of", "fuel.amount", "--of",
              "owning.amount"},
             {"break-even", "meadow.job", "--vary", "fuel_price", "--price", "$1,500", "--between",
              "$1/gal..$19/gal"},
             {"break-even", "meadow.job", "--vary", "area", "--until", "cost=$2,000"},
             {"compare", "meadow.job", "bank.job", "--flip", "area"},
             {"bridge", "meadow.job", "bank.job", "--total"},
             {"explain", "meadow.job", "price.per_unit", "--depth", "30"}})
        pages.push_back({words});
    return pages;
}

void check_width(const std::string& page, const Line& words) {
    for (std::size_t at = 0; at < page.size();) {
        const std::size_t end = std::min(page.find('\n', at), page.size());
        const std::string line = page.substr(at, end - at);
        const std::size_t columns = line.empty() ? 0 : acre::lang::text_columns(line);
        CHECK_MESSAGE(columns <= page_columns, shown(words), "\n", columns, ": ", line);
        at = end + 1;
    }
}

int check_pages(const Files& files) {
    const ScratchFolder scratch;
    for (const auto& [name, text] : files)
        scratch.write(name, text);
    fs::current_path(scratch.path());
    int pages = 0;
    std::set<std::string> seen;
    for (const Judged& judged : all_pages()) {
        const Said said = say(judged.words);
        if (judged.form != Form::Text)
            continue;
        CHECK_MESSAGE(said.code == judged.code, shown(judged.words), "\n", said.err);
        check_width(said.out, judged.words);
        pages += said.out.empty() ? 0 : 1;
        seen.insert(judged.words[0]);
        if (fs::exists("p.txt")) {
            check_width(file_text("p.txt"), judged.words);
            fs::remove("p.txt");
        }
    }
    for (const std::string_view name : pages_of)
        CHECK_MESSAGE(seen.contains(std::string(name)), name);
    return pages;
}

} // namespace

TEST_CASE("every page fits 80 columns with any names and figures") {
    const fs::path home = fs::current_path();
    const std::vector<std::string> words{
        "", " of the upper bench beyond the second canal and next to the old road to the quarry",
        " 日本の畑です日本の畑です日本の畑です日本の畑です日本の畑です",
        " e\xcc\x81t\xcc\x81u\xcc\x81t\xcc\x81 " + std::string(120, 'x')};
    for (const std::string& word : words) {
        CAPTURE(word);
        CHECK(check_pages(small_firm(word)) > 30);
        CHECK(check_pages(dear(small_firm(word), 10)) > 30);
        CHECK(check_pages(dear(small_firm(word), 13)) > 30);
    }
    fs::current_path(home);
}

} // namespace pages_width_test
