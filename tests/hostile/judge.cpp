#include "tests/hostile/judge.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "cli/command.h"
#include "tests/hostile/media.h"
#include "tests/support/scratch_folder.h"

namespace acre::tests {

namespace fs = std::filesystem;

Said say(const Line& words, bool color) {
    acre::cli::Console console;
    console.color_out = console.color_err = color;
    Said said;
    said.code = acre::cli::run(words, console);
    said.out = console.out;
    said.err = console.err;
    return said;
}

std::string shown(const Line& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

bool forged(const std::string& text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::size_t first = text.find_first_not_of(" |=", at);
        if (first != std::string::npos && first < end && text.compare(first, 6, "FORGED") == 0)
            return true;
        at = end + 1;
    }
    return false;
}

std::string without_ink(const std::string& text) {
    std::string plain;
    for (std::size_t at = 0; at < text.size();) {
        bool ink = false;
        for (const std::string known :
             {"\x1b[0m", "\x1b[1m", "\x1b[2m", "\x1b[33m", "\x1b[1;31m", "\x1b[1;33m", "\x1b[36m",
              "\x1b[34m", "\x1b[4m", "\x1b[1;32m"})
            if (!ink && text.compare(at, known.size(), known) == 0) {
                at += known.size();
                ink = true;
            }
        if (!ink)
            plain += text[at++];
    }
    return plain;
}

Said Judge::run(const Judged& judged, bool work, std::set<std::string>& markup) {
    ++runs;
    CAPTURE(shown(judged.words));
    const Said said = say(judged.words);
    if (work)
        CHECK_MESSAGE(said.code == judged.code, said.err);
    CHECK(said.code != 70);
    CHECK(terminal_fault(said.err) == "");
    CHECK(!forged(said.err));
    if (said.code == 0 && judged.form == Form::Json)
        CHECK(json_fault(said.out) == "");
    else if (said.code == 0 && judged.form == Form::Csv)
        CHECK(csv_fault(said.out) == "");
    else if (judged.form == Form::Text)
        CHECK(terminal_fault(said.out) == "");
    if (judged.form == Form::Text || judged.form == Form::Csv) {
        CHECK(!forged(said.out));
        if (judged.words[0] != "quote" &&
            judged.words[0] != "mark") { // these would go on to the next record
            const Said inked = say(judged.words, true);
            CHECK(without_ink(inked.err) == said.err);
            CHECK(without_ink(inked.out) == said.out);
        }
    }
    if (!judged.file.empty() && fs::exists(judged.file))
        file(judged.file, markup);
    return said;
}

void Judge::file(const std::string& path, std::set<std::string>& markup) {
    CAPTURE(path);
    const std::string text = file_text(path);
    if (path.ends_with(".html") || path.ends_with(".svg"))
        CHECK(markup_fault(text, markup) == "");
    else if (path.ends_with("json"))
        CHECK(json_fault(text) == "");
    else
        CHECK(terminal_fault(text) == "");
    CHECK(!forged(text));
    if (path.ends_with(".season")) {
        const Said checked = say({"check", path});
        CHECK_MESSAGE(checked.err.find("error") == std::string::npos, checked.err);
    }
    fs::remove(path);
}

namespace {

Line with(Line words, const Line& more) {
    words.insert(words.end(), more.begin(), more.end());
    return words;
}

Line with_card(const Line& more) {
    return with({"rate-card", "meadow.job", "--rows", "area=20 ac,40 ac", "--columns",
                 "pace=4 ac/h,5 ac/h", "--bands", "haul=$100,$200", "--date", "2027-01-15"},
                more);
}

const std::vector<Judged> once = {
    {{"quote", "meadow.job", "--book", "book", "--date", "2027-03-01", "--wording", "words.wording",
      "--page", "p.html", "--text", "p.txt"},
     Form::Text,
     "p.html"},
    {{"quote", "bank.job", "--book", "book", "--date", "2027-03-01", "--by", "Okafor", "--wording",
      "words.wording", "--text", "p.txt", "--json"},
     Form::Json,
     "p.txt"},
    {{"quote", "meadow.job", "--draft", "--date", "2027-03-01", "--wording", "words.wording"}},
    {{"mark", "2027-001", "accepted", "--book", "book", "--date", "2027-03-09", "--note",
      "by telephone"}},
    {{"bill", "2027-001", "bill.csv", "--book", "book", "--draft", "--date", "2027-07-01",
      "--deposit", "$100", "--note", "by the gate", "--page", "p.html"},
     Form::Text,
     "p.html"},
    {{"bill", "2027-001", "bill.csv", "--book", "book", "--draft", "--date", "2027-07-01", "--csv"},
     Form::Csv},
    {{"bill", "2027-001", "bill.csv", "--book", "book", "--draft", "--date", "2027-07-01",
      "--json"},
     Form::Json},
    {{"mark", "2027-001", "finished", "--book", "book", "--date", "2027-07-09", "--log",
      "log.csv"}},
    {{"quote", "2027-001", "--book", "book"}},
    {{"quote", "2027-001", "--book", "book", "--page", "p.html"}, Form::Text, "p.html"},
    {{"quote", "2027-001", "--book", "book", "--json"}, Form::Json},
    {{"book", "book", "--journal"}},
    {{"compare", "meadow.job", "bank.job", "--over", "area 20 ac..100 ac", "--svg", "c.svg"},
     Form::Text,
     "c.svg"},
    {{"compare", "meadow.job", "--flip", "pace"}},
    {{"compare", "meadow.job", "--with", "pace=6 ac/h; area=50 ac"}},
    {{"compare", "meadow.job", "bank.job", "--json"}, Form::Json},
    {with_card({})},
    {with_card({"--earns", "--page", "card.html"}), Form::Text, "card.html"},
    {with_card({"--csv"}), Form::Csv},
    {with_card({"--json"}), Form::Json},
    {{"grid", "meadow.job", "--along", "area=20 ac,40 ac", "--along", "ground=flat,rough", "--svg",
      "g.svg"},
     Form::Text,
     "g.svg"},
    {{"grid", "meadow.job", "--along", "area=20 ac..60 ac by 20 ac", "--csv", "--svg", "g.svg"},
     Form::Csv,
     "g.svg"},
    {{"break-even", "meadow.job", "--vary", "area", "--against", "bank.job"}},
    {{"break-even", "meadow.job", "--vary", "fuel_price", "--price", "$1,500", "--between",
      "$1/gal..$19/gal", "--json"},
     Form::Json},
    {{"bridge", "meadow.job", "bank.job", "--svg", "b.svg"}, Form::Text, "b.svg"},
    {{"bridge", "2027-001", "again", "--season", "later.season", "--book", "book"}},
    {{"bridge", "2027-001", "2027-002", "--book", "book", "--json"}, Form::Json},
    {{"risk", "meadow.job", "--trials", "256", "--threads", "1", "--svg", "r.svg"},
     Form::Text,
     "r.svg"},
    {{"sensitivity", "meadow.job", "--svg", "s.svg"}, Form::Text, "s.svg"},
    {{"season", ".", "--page", "season.html"}, Form::Text, "season.html"},
    {{"field", "field.geojson", "--lines", "lines.geojson", "--picture", "f.svg"},
     Form::Text,
     "lines.geojson"},
    {{"field", "field.geojson", "--picture", "f.svg", "--json"}, Form::Json, "f.svg"},
    // What it writes is the season as its reader has it, whose characters stay as they are.
    {{"learn", "--book", "book", "--season", "season.season", "--write", "learned.season",
      "--json"},
     Form::Json},
    {{"crew", "2027-001", "--book", "book", "--page", "crew.html"}, Form::Text, "crew.html"},
    {{"crew", "2027-001", "--book", "book", "--json"}, Form::Json},
    {{"book", "book", "--season", "later.season"}},
    {{"book", "book", "--csv"}, Form::Csv},
    {{"book", "book", "--cost-csv"}, Form::Csv},
    {{"check", "meadow.job", "models/mowing.rate", "season.season"}},
    {{"tidy", "models/mowing.rate"}, Form::Source},
    {{"page", "meadow.job", "bank.job", "--for-grower", "--write", "p.html"}, Form::Text, "p.html"},
    {{"quote", "more/mapped.job", "--book", "second", "--date", "2027-03-01", "--wording",
      "words.wording", "--page", "p.html"},
     Form::Text,
     "p.html"},
    {{"mark", "2027-001", "accepted", "--book", "second", "--date", "2027-03-09"}},
    {{"price", "more/slow.job"}, Form::Text, {}, 1},
    {{"check", "more/slow.job", "more/mapped.job", "models/terms.rate"}, Form::Text, {}, 1},
    {{"compare", "more/blocks.job", "more/mapped.job"}},
    {{"variance", "2027-001", "log.csv", "--book", "second"}},
    {{"workbook", "meadow.job", "--write", "w.xlsx"}},
    {{"workbook", "more/blocks.job", "--write", "w.xlsx", "--json"}, Form::Json},
    {{"workbook", "meadow.job", "--read", "log.csv"}, Form::Text, {}, 1},
    {{"library"}},
    {{"codes"}},
    {{"shell", "complete", "--", "price", "meadow.job", "--set", ""}, Form::Source},
    {{"shell", "complete", "--", "explain", "more/blocks.job", ""}, Form::Source},
    {{"shell", "bash"}, Form::Source},
    {{"manual", "acrewright-rate.5"}, Form::Source},
    {{"editor", "--print", "syntax"}, Form::Source},
};

// As a page and as JSON.
const std::vector<Line> twice = {
    {"price", "meadow.job"},
    {"price", "meadow.job", "--names"},
    {"price", "models/mowing.rate"},
    {"price", "more/blocks.job"},
    {"price", "more/mapped.job"},
    {"price", "meadow.job", "--set", "pace=6 ac/h"},
    {"explain", "meadow.job", "pace", "--set", "pace=6 ac/h"},
    {"break-even", "meadow.job", "--vary", "area", "--market", "$40/ac"},
    {"explain", "more/blocks.job"},
    {"sensitivity", "more/blocks.job"},
    {"explain", "meadow.job"},
    {"risk", "meadow.job", "--trials", "256", "--threads", "1"},
    {"sensitivity", "meadow.job", "--all"},
    {"calendar", "meadow.job"},
    {"season", "."},
    {"variance", "2027-001", "log.csv", "--book", "book"},
    {"variance", "--book", "book"},
    {"crew", "2027-001", "--book", "book"},
    {"learn", "--book", "book", "--season", "later.season"},
    {"outcomes", "--book", "book"},
    {"book", "book"},
    {"book", "book", "--season", "later.season"},
    {"verify", "book"},
    {"check", "bank.job"},
    {"try", "fuel_price * 2", "--job", "meadow.job"},
    {"words", "given"},
    {"measures"},
    {"measures", "45 gal/h", "in", "L/h"},
    {"grid", "meadow.job", "--along", "pace=4 ac/h,5 ac/h"}};

} // namespace

std::vector<Judged> all_commands() {
    std::vector<Judged> all = once;
    for (const Line& words : twice) {
        all.push_back({words});
        all.push_back({with(words, {"--json"}), Form::Json});
    }
    return all;
}

} // namespace acre::tests
