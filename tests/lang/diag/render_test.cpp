#include <doctest/doctest.h>

#include <string>

#include "lang/diag/render.h"

namespace render_test {

using namespace acre::lang;

namespace {

// The place of the `nth` (from 0) time `what` stands in the file.
Span find(const SourceMap& map, FileId file, std::string_view what, int nth = 0) {
    std::size_t at = map.file(file).text().find(what);
    for (; nth > 0; --nth)
        at = map.file(file).text().find(what, at + 1);
    return {file, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + what.size())};
}

Diagnostic diagnostic(Code code, std::string title, Label primary, std::vector<Label> others = {},
                      std::vector<std::string> notes = {}, std::vector<Help> helps = {}) {
    return {code,
            std::move(title),
            std::move(primary),
            std::move(others),
            std::move(notes),
            std::move(helps)};
}

} // namespace

TEST_CASE("marks and labels stand under the text they speak of") {
    SourceMap map;
    const FileId file =
        map.add("deep-rip.rate", "model \"Rip\"\ntotal : $/h = fuel_rate + land_charge\n");
    const Diagnostic d = diagnostic(
        Code::U301, "cannot add $/ac to $/h", {find(map, file, "+"), ""},
        {{find(map, file, "fuel_rate"), "$/h"}, {find(map, file, "land_charge"), "$/ac"}},
        {"the two sides differ by a factor of ac/h"},
        {{"`field_rate` (line 9) is in ac/h: write  land_charge * field_rate", {}}});
    CHECK(render(d, map) == R"(deep-rip.rate, line 2
error U301: cannot add $/ac to $/h

  2   total : $/h = fuel_rate + land_charge
                    ......... ^ ........... $/ac
                    $/h

  the two sides differ by a factor of ac/h
  mend: `field_rate` (line 9) is in ac/h: write  land_charge * field_rate
)");
}

TEST_CASE("labels that fit share a row, those that do not hang from dots") {
    SourceMap map;
    const FileId file = map.add("a.rate", "aa + bb + cc\n");
    const Diagnostic d = diagnostic(Code::U301, "title", {find(map, file, "bb"), "the middle one"},
                                    {{find(map, file, "aa"), "a long text that does not fit"},
                                     {find(map, file, "cc"), "right"}},
                                    {}, {});
    CHECK(render(d, map) == R"(a.rate, line 1
error U301: title

  1   aa + bb + cc
      ..   ^^   .. right
      :    the middle one
      a long text that does not fit
)");
}

TEST_CASE("labels on several lines and in several files each show their line") {
    SourceMap map;
    const FileId model =
        map.add("rip.rate", "model \"Rip\"\n\n\ngiven wage : $/h\n\nx : 1 = 1\ny : 1 = 2\n");
    const FileId season = map.add("2027.season", "season \"2027\"\nset wage = 24.50\n");
    const Diagnostic d =
        diagnostic(Code::U304, "`wage` is declared $/h but is given a plain number",
                   {find(map, season, "24.50"), "no unit"},
                   {{find(map, model, "$/h"), "declared here"},
                    {find(map, model, "x"), ""},
                    {find(map, model, "y"), "and here"}},
                   {}, {{"write  24.50 $/h", {}}});
    CHECK(render(d, map) == R"(2027.season, line 2
error U304: `wage` is declared $/h but is given a plain number

  2   set wage = 24.50
                 ^^^^^ no unit

rip.rate, lines 4, 6 and 7

  4   given wage : $/h
                   ... declared here
  :
  6   x : 1 = 1
      .
  7   y : 1 = 2
      . and here

  mend: write  24.50 $/h
)");
}

TEST_CASE("columns hold with tabs, accents, wide characters and escapes before the mark") {
    SourceMap map;
    const FileId file = map.add("a.rate", "\tm\xC3\xBC \xE6\x9E\x97 \x1b x = here\n");
    const Diagnostic d = diagnostic(Code::N201, "title", {find(map, file, "here"), "label"});
    CHECK(render(d, map) == "a.rate, line 1\nerror N201: title\n\n"
                            "  1       m\xC3\xBC \xE6\x9E\x97 \\x1b x = here\n"
                            "                         ^^^^ label\n");
}

TEST_CASE("a mark at the end of a line, and over several lines, stays on the first") {
    SourceMap map;
    const FileId file = map.add("a.rate", "wage =\r\nnext line\n");
    CHECK(render(diagnostic(Code::S103, "t", {{file, 6, 6}, "nothing here"}), map) ==
          "a.rate, line 1\nerror S103: t\n\n  1   wage =\n            ^ nothing here\n");
    CHECK(render(diagnostic(Code::S103, "t", {{file, 5, 14}, "x"}), map) ==
          "a.rate, line 1\nerror S103: t\n\n  1   wage =\n           ^ x\n");
}

TEST_CASE("a long line is cut to a window around the mark") {
    SourceMap map;
    const std::string pad(5'000'000, 'x');
    const FileId file = map.add("a.rate", pad + " here " + pad);
    const std::string out =
        render(diagnostic(Code::N201, "t", {find(map, file, "here"), "label"}), map);
    CHECK(out.size() < 600);
    std::size_t widest = 0;
    std::size_t line_begin = 0;
    std::size_t here = 0;
    std::size_t caret = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        if (out[i] != '\n')
            continue;
        const std::string line = out.substr(line_begin, i - line_begin);
        widest = std::max(widest, line.size());
        if (line.find("x here x") != std::string::npos) {
            here = line.find("here");
            CHECK(line.substr(6, 3) == "...");
            CHECK(line.substr(line.size() - 3) == "...");
        }
        if (line.find("^^^^ label") != std::string::npos)
            caret = line.find("^^^^");
        line_begin = i + 1;
    }
    CHECK(widest <= 80);
    CHECK(here > 0);
    CHECK(here == caret);
}

TEST_CASE("a line a little too wide shows its end when the caret is there") {
    SourceMap map;
    const FileId file = map.add("a.rate", std::string(120, 'x') + "end");
    const std::string out = render(diagnostic(Code::N201, "t", {find(map, file, "end"), ""}), map);
    CHECK(out.find("xend\n") != std::string::npos);
    CHECK(out.find("  1   ...xxx") != std::string::npos);
}

TEST_CASE("titles, notes and mends fold at spaces, and texts that never end are cut") {
    SourceMap map;
    const FileId file = map.add("a.rate", "x\n");
    Diagnostic d = diagnostic(Code::U303,
                              "a title of so many words that no line of eighty columns "
                              "can hold all of them, however short they are",
                              {{file, 0, 1}, ""});
    d.notes.push_back("a year (yr) counts seasons of ownership, an hour (h) counts work, and one "
                      "of them is not a fixed number of the other");
    d.notes.push_back("first\nsecond");
    d.helps.push_back({"write the same again, but this time with all the units that the line above "
                       "asks for, and no others",
                       {}});
    CHECK(render(d, map) == R"(a.rate, line 1
error U303: a title of so many words that no line of eighty columns can hold all
  of them, however short they are

  1   x
      ^

  a year (yr) counts seasons of ownership, an hour (h) counts work, and one of
    them is not a fixed number of the other
  first
    second
  mend: write the same again, but this time with all the units that the line
        above asks for, and no others
)");
    d.title = std::string(1'000'000, 't');
    d.primary.text = d.notes[0] = std::string(1'000'000, 'n');
    CHECK(render(d, map).size() < 5000);
}

TEST_CASE("a number stays with its unit where a text folds") {
    SourceMap map;
    const FileId file = map.add("a.rate", "x\n");
    const Diagnostic d = diagnostic(Code::E503,
                                    "table `burn` is read at 10 % in `fuel`, outside its rows 20 % "
                                    ".. 100 %",
                                    {{file, 0, 1}, ""});
    CHECK(render(d, map).find(" 20 % ..\n  100 %\n") != std::string::npos);
}

TEST_CASE("labels at one place stand below each other, without dots between them") {
    SourceMap map;
    const FileId file = map.add("a.rate", "aa + bb\n");
    const Span a = find(map, file, "aa");
    CHECK(render(diagnostic(Code::U301, "title", {a, "first"},
                            {{a, "second"}, {find(map, file, "bb"), "right"}}),
                 map) == R"(a.rate, line 1
error U301: title

  1   aa + bb
      ^^   .. right
      second
      first
)");
}

TEST_CASE("what stands in no text has a title and notes only") {
    Diagnostic d = diagnostic(Code::F702, "`a.rate` cannot be read", {{no_file, 0, 0}, ""});
    d.notes.push_back("it is a folder");
    CHECK(render(d, SourceMap()) == "error F702: `a.rate` cannot be read\n\n  it is a folder\n");
    SourceMap one;
    d.primary.span.file = one.add("b.rate", "x\n") + 1; // past the last
    CHECK(render(d, one) == "error F702: `a.rate` cannot be read\n\n  it is a folder\n");
    CHECK(one.text(d.primary.span).empty());
}

TEST_CASE("the terse form is one line for each, with the column, whatever the texts are") {
    SourceMap map;
    const FileId file = map.add("a\n.rate", "model \"m\"\nx = y\n");
    Diagnostics all;
    CHECK(render_terse(all, map).empty());
    all.add(diagnostic(Code::N201, "no line\nnamed `y`", {find(map, file, "y"), "label"}, {},
                       {"note"}, {{"help", {}}}));
    all.add(diagnostic(Code::L801, "unused", {find(map, file, "x"), ""}));
    all.add(diagnostic(Code::F704, "`b.rate` is empty", {{no_file, 0, 0}, ""}));
    CHECK(render_terse(all, map) == "a\\x0a.rate:2:5: error: N201 no line\\x0anamed `y`\n"
                                    "a\\x0a.rate:2:1: warning: L801 unused\n"
                                    "error: F704 `b.rate` is empty\n");
}

TEST_CASE("color is put on only when it is asked for, and closed again") {
    SourceMap map;
    const FileId file = map.add("a.rate", "x = \x1b[2J\n");
    const Diagnostic d = diagnostic(Code::N201, "title", {{file, 0, 1}, "label"}, {}, {"n"}, {});
    CHECK(render(d, map).find('\x1b') == std::string::npos);
    const std::string dyed = render(d, map, {true});
    CHECK(dyed.find("\x1b[1;31merror N201: \x1b[0m") != std::string::npos);
    CHECK(dyed.find("\x1b[2J") == std::string::npos);
    std::string bare;
    for (std::size_t i = 0; i < dyed.size(); ++i)
        if (dyed[i] == '\x1b')
            i = dyed.find('m', i);
        else
            bare += dyed[i];
    CHECK(bare == render(d, map));
}

TEST_CASE("all of them end in a count") {
    SourceMap map;
    const FileId file = map.add("a.rate", "x y z\n");
    Diagnostics all;
    CHECK(render(all, map).empty());
    all.add(diagnostic(Code::L801, "w", {{file, 0, 1}, ""}));
    CHECK(render(all, map).find("\n\n1 warning\n") != std::string::npos);
    all.add(diagnostic(Code::U301, "e", {{file, 0, 1}, ""}));
    all.add(diagnostic(Code::U301, "e", {{file, 2, 3}, ""}));
    CHECK(render(all, map).find("\n\n2 errors, 1 warning\n") != std::string::npos);
}

} // namespace render_test
