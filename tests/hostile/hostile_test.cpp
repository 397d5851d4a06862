// A stranger wrote every text: whatever command shows it, in whatever form, it stays text.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"
#include "engine/book/seal.h"
#include "tests/hostile/judge.h"
#include "tests/hostile/media.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/small_firm.h"

namespace hostile_test {

using namespace acre::tests;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

// Steers a terminal, turns the direction of writing, hides, ends a line, ends an element or an
// attribute, begins a formula: what the notation takes inside quotes; what JSON can carry into a
// text, and what a file that is no notation can. The page is tried with the same words.
std::vector<std::string> words_of(const char* kind) {
    return Json::parse(file_text(std::string(ACREWRIGHT_ROOT) + "/tests/hostile/words.json"))
        .at(kind);
}
const std::vector<std::string>& notation_words() {
    static const std::vector<std::string> words = words_of("notation");
    return words;
}
const std::vector<std::string>& any_words() {
    static const std::vector<std::string> words = words_of("any");
    return words;
}

// In a folder of its own, which is where the program is then.
void settle(const ScratchFolder& scratch, const Files& files) {
    for (const auto& [name, text] : files)
        scratch.write(name, text);
    fs::current_path(scratch.path());
}

Files hostile_firm(const std::string& word, const std::string& loose) {
    Files files = small_firm(word);
    // A brace begins a name there, and a comma the next cell.
    std::string plain = word;
    std::replace(plain.begin(), plain.end(), '{', '(');
    files["words.wording"] = small_firm(plain)["words.wording"];
    std::replace(plain.begin(), plain.end(), ',', ';');
    for (const char* name : {"log.csv", "bill.csv"})
        files[name] = small_firm(plain)[name];
    // Here anything goes: JSON's own escapes, a quoted cell, a text without quotes.
    Json field = Json::parse(small_firm("")["field.geojson"]);
    field["properties"]["name"] = loose + " meadow";
    files["field.geojson"] = files["more/long.geojson"] =
        field.dump(-1, ' ', true, Json::error_handler_t::replace);
    return files;
}

// Every text of the record with the word before it, but for those of these names.
using Kept = std::set<std::string>;
void spoil(Json& value, const std::string& word, const std::string& name, const Kept& kept) {
    if (kept.contains(name))
        return;
    if (value.is_string())
        value = word + value.get<std::string>();
    else if (value.is_object())
        for (auto& [member, inner] : value.items())
            spoil(inner, word, member, kept);
    else if (value.is_array())
        for (Json& inner : value)
            spoil(inner, word, name, kept);
}

// Sealed anew, as whoever wrote it would.
void spoil_book(const std::string& word, const Kept& kept) {
    std::string previous;
    constexpr int records = 4; // of all_commands()
    for (int i = 1; i <= records; ++i) {
        const std::string path = "book/00000" + std::to_string(i) + ".json";
        Json record = Json::parse(file_text(path));
        spoil(record, word, "", kept);
        if (!previous.empty())
            record["previous"] = previous;
        record.erase("seal");
        record["seal"] = previous = acre::engine::sha256(acre::engine::canonical(record));
        fs::permissions(path, fs::perms::owner_all);
        std::ofstream(path, std::ios::binary) << acre::engine::canonical(record) << "\n";
    }
    std::ofstream("book/head") << records << " " << previous << "\n";
}

} // namespace

TEST_CASE("the checks of this test find what they are for") {
    std::set<std::string> seen;
    for (const std::string& text : any_words())
        CHECK_MESSAGE(terminal_fault(text) != "", text);
    CHECK(terminal_fault("caf\xc3\xa9\n") == "");
    CHECK(markup_fault("<!DOCTYPE html><p class=\"a\">x &lt; y</p>", seen) == "");
    CHECK(seen == std::set<std::string>{"p", "p@class"});
    for (const char* text :
         {"<p>", "<p></b></p>", "<p a=b></p>", "<p onclick=\"x\"></p>", "<script></script>",
          "a & b", "a > b", "<p a=\"<\"></p>", "<style><b></style>", "</p>"})
        CHECK_MESSAGE(markup_fault(text, seen) != "", text);
    CHECK(csv_fault("a,b\r\n-1,\"c,\"\"d\"\r\n") == "");
    for (const char* text : {"a\r\n=1+1\r\n", "a\r\n\"=1\"\r\n", "a,b\r\nc\r\n", "a\n",
                             "a\r\n\" @x\"\r\n", "a\r\nb\"c\r\n"})
        CHECK_MESSAGE(csv_fault(text) != "", text);
    CHECK(json_fault("{\"a\": \"\\u001b\"}\n") == "");
    CHECK(json_fault("{\"a\": \"\xe2\x80\xae\"}") != "");
    CHECK(forged("a\n  FORGED"));
    CHECK(!forged("a FORGED\n"));
}

TEST_CASE("a stranger's texts stay text in every command and every form") {
    const fs::path home = fs::current_path();
    Judge judge;
    std::set<std::string> known;
    {
        const ScratchFolder scratch;
        settle(scratch, small_firm());
        for (const Judged& judged : all_commands())
            judge.run(judged, true, known);
    }
    CHECK(known.size() > 40);
    std::size_t turn = 0;
    for (const std::string& word : notation_words()) {
        CAPTURE(word);
        const ScratchFolder scratch;
        settle(scratch, hostile_firm(word, any_words()[turn++ % any_words().size()]));
        std::set<std::string> seen;
        for (const Judged& judged : all_commands())
            judge.run(judged, true, seen);
        for (const std::string& element : seen)
            CHECK_MESSAGE(known.contains(element), element);
    }
    fs::current_path(home);
    MESSAGE(judge.runs << " command lines");
}

TEST_CASE("a stranger's book, log, boundary and words of a quote stay text") {
    const fs::path home = fs::current_path();
    Judge judge;
    for (const std::string& word : any_words()) {
        CAPTURE(word);
        const ScratchFolder scratch;
        settle(scratch, hostile_firm("", word));
        std::set<std::string> seen;
        for (const Judged& judged : all_commands())
            if (judged.words[0] == "quote" || judged.words[0] == "mark")
                judge.run(judged, true, seen);
        std::string cell = word;
        for (std::size_t at = cell.find('"'); at != std::string::npos; at = cell.find('"', at + 2))
            cell.insert(at, 1, '"');
        scratch.write("log.csv", "date,machine,operator,meter_start,meter_stop,acres,gallons,fuel_"
                                 "price,down_hours,down_cause,\"amount." +
                                     cell + "\",note\n2027-06-14,\"" + cell + "\",\"" + cell +
                                     "\",100.0,107.0,33,41,4.45,0.5,\"" + cell + "\",120,\"" +
                                     cell + "\"\n2027-06-15,mower,,107.0,113.5,27,40,4.45,,,,\n");
        scratch.write("words.wording", ": crew.name = " + word + "\n: crew.line = x " + word +
                                           "\n== " + word + "\n" + word + " {acres}\n- " + word +
                                           "\n@items\n? " + word + "\nx\n@" + word + "\n{" + word +
                                           "}\n");
        // First so that everything is still worked out, then all but what makes it a quote.
        for (const Kept& kept :
             {Kept{"schema", "kind", "quote", "issued", "valid_until", "state", "date", "written",
                   "texts", "references", "request", "unit", "svg", "wording", "pages"},
              Kept{"schema", "kind"}}) {
            spoil_book(word, kept);
            for (const Judged& judged : all_commands())
                judge.run(judged, false, seen);
        }
        CHECK(!seen.contains("script"));
        CHECK(!seen.contains("b@onmouseover"));
    }
    fs::current_path(home);
    MESSAGE(judge.runs << " command lines");
}

TEST_CASE("names of files and words of the command line stay text in what is said of them") {
    const fs::path home = fs::current_path();
    Judge judge;
    for (const std::string& word : any_words()) {
        CAPTURE(word);
        const ScratchFolder scratch;
        settle(scratch, small_firm());
        std::string name = word.substr(0, 60);
        std::erase(name, '/');
        std::set<std::string> seen;
        for (const char* ending : {".job", ".rate", ".season", ".geojson", ".csv", ".wording"}) {
            // A wording's lines are its writer's own, and stand on the page as they are.
            scratch.write(name + ending, std::string(ending) == ".wording"
                                             ? small_firm()["words.wording"]
                                             : "job \"" + word + "\"\nmodel " + word + "\n");
            scratch.write("sound" + name + ending, small_firm()[std::string("meadow.job")]);
        }
        for (const Judged& judged : all_commands()) {
            // The word in the place of each word, one by one: the file, the option, its value.
            for (std::size_t i = 0; i < judged.words.size(); ++i) {
                Judged other = judged;
                std::string& place = other.words[i];
                const std::size_t dot = place.rfind('.');
                place = dot != std::string::npos && place.size() - dot < 9 && i > 0
                            ? (i % 2 == 0 ? "sound" : "") + name + place.substr(dot)
                        : place.starts_with("--") ? place + name
                                                  : word;
                other.file.clear();
                judge.run(other, false, seen);
            }
            Judged more = judged;
            more.words.insert(more.words.end(), {"--set", word + "=1"});
            judge.run(more, false, seen);
            more.words.back() = "area=" + word;
            judge.run(more, false, seen);
            more.words.end()[-2] = "--option";
            more.words.back() = word;
            judge.run(more, false, seen);
        }
        for (const Line& words : std::vector<Line>{
                 {word},
                 {"help", word},
                 {"library", word},
                 {"codes", word},
                 {"verify", name},
                 {"price", name + ".txt"},
                 {"price", "meadow.job", "--models", name},
                 {"explain", "meadow.job", word},
                 {"sensitivity", "meadow.job", "--of", word},
                 {"break-even", "meadow.job", "--vary", "area", "--until", word + "=1"},
                 {"break-even", "meadow.job", "--vary", "area", "--until", "margin=" + word},
                 {"break-even", "meadow.job", "--vary", "area", "--price", word},
                 {"break-even", "meadow.job", "--vary", "area", "--price", "$1", "--between",
                  "1 ac.." + word},
                 {"break-even", "meadow.job", "--vary", "area", "--market", word},
                 {"price", "meadow.job", "--part", word},
                 {"compare", "meadow.job", "--with", word},
                 {"risk", "meadow.job", "--trials", "256", "--hold", word},
                 {"grid", "meadow.job", "--along", word + "=1,2"},
                 {"grid", "meadow.job", "--along", "area=1 ac," + word},
                 {"grid", "meadow.job", "--along", "ground=flat," + word},
                 {"compare", "meadow.job", "bank.job", "--over", word + " 20 ac..100 ac"},
                 {"compare", "meadow.job", "bank.job", "--over", "area 20 ac.." + word},
                 {"rate-card", "meadow.job", "--rows", word + "=1,2", "--columns", "pace=4 ac/h"},
                 {"season", ".", "--fleet", word + "=2"},
                 {"field", "field.geojson", "--picture", "missing/" + name + ".svg"}})
            judge.run({words}, false, seen);
    }
    fs::current_path(home);
    MESSAGE(judge.runs << " command lines");
}

} // namespace hostile_test
