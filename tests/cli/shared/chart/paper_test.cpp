// How wide words are when drawn, and what of them fits.
#include "cli/shared/chart/paper.h"

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

namespace paper_test {

using namespace acre::cli;
using Lines = std::vector<std::string>;

TEST_CASE("a word is as wide as its letters: narrow, wide, capitals, others, those past ASCII") {
    const struct {
        const char* words;
        double em; // added up by hand
    } rows[] = {
        {"", 0},
        {"a", 0.556},
        {"z09_~#", 6 * 0.556},
        {"@MW%mw", 6 * 0.89},
        {"ABCDEFGHJKLNOPQRSTUVXYZ", 23 * 0.7}, // without I, M, W
        {"I i!/(tfrjl.,:;'|)[]-", 21 * 0.33},
        {"caf\xc3\xa9", 0.556 + 0.556 + 0.33 + 0.65}, // an accented letter takes one column
        {"\xe6\x97\xa5", 2 * 0.65},                   // U+65E5 takes two
        {"a\x1b", 0.556 + 4 * 0.556},                 // what cannot be drawn, as \x1b
    };
    for (const auto& row : rows) {
        CHECK_MESSAGE(drawn_width(row.words) == doctest::Approx(15 * row.em), row.words);
        CHECK_MESSAGE(drawn_width(row.words, Weight::Bold) == doctest::Approx(15 * row.em * 1.08),
                      row.words);
    }
}

TEST_CASE("words that fit stay whole, and others end in dots where they no longer do") {
    const std::string words = "ZZZZZZ";
    CHECK(fitting(words, drawn_width(words)) == words);
    CHECK(fitting(words, drawn_width(words) - 0.01) == "ZZ..."); // in five columns
    CHECK(fitting(words, drawn_width(words), Weight::Bold) == "ZZ...");
    CHECK(fitting("Creek meadow", drawn_width("Creek me...")) == "Creek me...");
    CHECK(fitting("Creek meadow", drawn_width("Creek me...") - 0.01) == "Creek m...");
}

TEST_CASE("words are broken where the next one no longer fits, four lines at most") {
    const double two = drawn_width("aa aa");
    CHECK(drawn_lines("", two) == Lines{""});
    CHECK(drawn_lines("aa aa aa", two) == Lines{"aa aa", "aa"});
    CHECK(drawn_lines("aa aa aa", two - 0.01) == Lines{"aa", "aa", "aa"});
    CHECK(drawn_lines("aa aa aa", two, Weight::Bold) == Lines{"aa", "aa", "aa"});
    CHECK(drawn_lines("aa aa aa aa aa aa aa aa", two) == Lines{"aa aa", "aa aa", "aa aa", "aa aa"});
    CHECK(drawn_lines("aa aa aa aa aa aa aa aa aa", two) ==
          Lines{"aa aa", "aa aa", "aa aa", "aa ..."});
    CHECK(drawn_lines("ZZZZZZ a", drawn_width("ZZ...")) == Lines{"ZZ...", "a"});
}

TEST_CASE("what is drawn stands where it was put, and the next line below it") {
    Paper paper("Meadow & creek");
    CHECK(paper.below_title() == 46); // its line at 26, and twenty more
    CHECK(Paper(std::string(60, 'w') + " b").below_title() == 66);
    paper.text(10, 20.25, "a<b");
    paper.text(10, 21, "");
    paper.text(10, 22, "c", Anchor::Middle, Ink::Soft);
    paper.text(10, 23, "d", Anchor::End, Ink::Ink, Weight::Bold);
    CHECK(paper.lines(14, 100, drawn_width("aa"), "aa aa aa") == 160);
    CHECK(paper.key(200, {Ink::Fit, "7 4"}, "dashed") == 220);
    CHECK(paper.key(220, {Ink::Ground, ""}, "whole", 3) == 240);
    paper.box(1, 2, 3, 4, Ink::Paper);
    paper.box(1, 2, 3, 4.125, Ink::Paper, Ink::Fault);
    paper.ring(5, 6);
    const std::string svg = std::move(paper).finish(240);
    for (const char* part :
         {"viewBox=\"0 0 480 240\"", "<title>Meadow &amp; creek</title>",
          "<rect width=\"480\" height=\"240\" class=\"f-paper\"/>\n",
          "<text x=\"14.0\" y=\"26.0\" class=\"f-ink\" font-weight=\"bold\">Meadow &amp; "
          "creek</text>\n",
          "<text x=\"10.0\" y=\"20.2\" class=\"f-ink\">a&lt;b</text>\n"
          "<text x=\"10.0\" y=\"22.0\" class=\"f-soft\" text-anchor=\"middle\">c</text>\n"
          "<text x=\"10.0\" y=\"23.0\" class=\"f-ink\" text-anchor=\"end\" "
          "font-weight=\"bold\">d</text>\n"
          "<text x=\"14.0\" y=\"100.0\" class=\"f-ink\">aa</text>\n"
          "<text x=\"14.0\" y=\"120.0\" class=\"f-ink\">aa</text>\n"
          "<text x=\"14.0\" y=\"140.0\" class=\"f-ink\">aa</text>\n"
          "<path d=\"M14.0 195.0h34\" fill=\"none\" class=\"s-fit\" stroke-width=\"2\" "
          "stroke-dasharray=\"7 4\" stroke-linejoin=\"round\"/>\n"
          "<text x=\"56.0\" y=\"200.0\" class=\"f-ink\">dashed</text>\n"
          "<path d=\"M14.0 215.0h34\" fill=\"none\" class=\"s-ground\" stroke-width=\"3\" "
          "stroke-linejoin=\"round\"/>\n",
          "<rect x=\"1.00\" y=\"2.00\" width=\"3.00\" height=\"4.00\" class=\"f-paper\"/>\n",
          "height=\"4.12\" class=\"f-paper s-fault\"/>\n<circle cx=\"5.0\" cy=\"6.0\""})
        CHECK_MESSAGE(svg.find(part) != std::string::npos, part << " is not in\n" << svg);
    CHECK(svg.find("f-tint") == std::string::npos); // no ink that it does not use
}

TEST_CASE("series and shades go round and stay within their ends") {
    for (std::size_t i = 0; i < 8; ++i)
        for (std::size_t j = i + 1; j < 9; ++j)
            CHECK((series(i).ink == series(j).ink && series(i).dashes == series(j).dashes) ==
                  (j - i == 8));
    CHECK(shade_of(-0.5) == 0);
    CHECK(shade_of(0) == 0);
    CHECK(shade_of(1) == shade_of(7));
    CHECK(shade_of(1) > shade_of(0.5));
    CHECK(shade_of(0.5) == (shade_of(1) + 1) / 2);
}

} // namespace paper_test
