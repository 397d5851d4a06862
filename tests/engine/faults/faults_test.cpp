#include "engine/faults/faults.h"
#include "engine/readers/value.h"

#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/engine/faults/found.h"

namespace faults_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;
using LangCode = acre::lang::Code;

TEST_CASE("a job without fault reports nothing") {
    const Found f = faults(ripping);
    CHECK_MESSAGE(f.all().empty(), f.rendered());
}

TEST_CASE("a division by zero is told at its operator, with the zero and who set it") {
    const Found f = faults(ripping, {{"speed", "0 mi/h"}});
    CHECK(f.all().size() == 2); // and a warning: outside its swing
    const lang::Diagnostic d = f.with(LangCode::E501);
    CHECK(d.title == "division by zero in `hours`");
    CHECK(f.at(d.primary.span) == "/");
    REQUIRE(d.others.size() == 1);
    CHECK(f.at(d.others[0].span) == "pace");
    CHECK(d.others[0].text == "0 ac/h");
    REQUIRE(d.notes.size() == 2);
    CHECK(d.notes[0] == "`pace` = width * speed, which is 0 ac/h (test.rate, line 6)");
    CHECK(d.notes[1] == "`speed` is 0 mi/h, set on the command line");
    // `width` is not zero and did not lead there.
    CHECK_FALSE(has_note(d, "`width`"));
}

TEST_CASE("a line on two ways to a fault is told once, nearest first; a divisor leads to no zero") {
    const Found f = faults("model \"m\"\ngiven a = 0 h\ngiven w = 3\nleft : h = a * w\n"
                           "right : h = a / w\nboth : h = left + right\nx : 1/h = 1 / both\n");
    const std::vector<std::string> notes = {
        "`both` = left + right, which is 0 h (test.rate, line 6)",
        "`left` = a * w, which is 0 h (test.rate, line 4)",
        "`right` = a / w, which is 0 h (test.rate, line 5)",
        "`a` is 0 h in the model (test.rate, line 2)"};
    CHECK(f.with(LangCode::E501).notes == notes);
}

TEST_CASE("seven lines before a fault are all told, of eight the nearest six") {
    const auto notes_of = [](int lines) {
        std::string text = "model \"m\"\ngiven a1 = 0 h\n";
        for (int i = 2; i <= lines; ++i)
            text += fmt::format("a{} : h = a{} * 2\n", i, i - 1);
        return faults(text + fmt::format("x : 1/h = 1 / a{}\n", lines)).with(LangCode::E501).notes;
    };
    CHECK(notes_of(6).size() == 6);
    CHECK(notes_of(7).size() == 7);
    CHECK(notes_of(7).back() == "`a1` is 0 h in the model (test.rate, line 2)");
    CHECK(notes_of(8).size() == 7);
    CHECK(notes_of(8)[5] == "`a3` = a2 * 2, which is 0 h (test.rate, line 4)");
    CHECK(notes_of(8).back() == "and 2 more lines and values before these");
}

TEST_CASE("one origin is told once, not again in every line that rests on it") {
    const Found f = faults(
        ripping + "double : h = hours * 2\npart \"More\"\n  cost more : $/h = $5/h over double\n",
        {{"width", "0 ft"}});
    CHECK(f.only().code == LangCode::E501);
}

TEST_CASE("a fault that no answer asks for is not told") {
    const std::string text = ripping + "aside : h = 1 h / (width / 6 ft - 1)\n";
    CHECK(faults(text).all().empty());
    const Found f = faults(text, {}, "aside");
    CHECK(f.only().code == LangCode::E501);
    CHECK(f.only().title == "division by zero in `aside`");
}

TEST_CASE("a value outside its allowed range says by whom and why") {
    const Found f = faults(ripping, {{"speed", "7 mi/h"}});
    CHECK(f.all().size() == 2);
    const lang::Diagnostic d = f.with(LangCode::I602);
    CHECK(d.title == "`speed` is 7 mi/h, outside its allowed range 0 mi/h .. 6 mi/h");
    CHECK(d.primary.text == "set on the command line");
    CHECK(f.at(d.primary.span) == "7 mi/h");
    CHECK(f.at(d.others.at(0).span) == "0 mi/h .. 6 mi/h");
    CHECK(f.with(LangCode::L802).severity() == lang::Severity::Warning);
}

TEST_CASE("a swing that is a formula is looked at when values are known") {
    const Found f = faults("model \"m\"\ngiven run = 100 ft\ngiven reach = 30 ft swing 1 ft .. run "
                           "/ 5\nx : ft = reach\n");
    CHECK(f.only().code == LangCode::L802);
    CHECK(f.only().title == "`reach` is 30 ft, outside its swing 1 ft .. 20 ft");
}

TEST_CASE("a swing of what the job computes is told, with the shares that say the same") {
    const std::string head = "model \"m\"\ngiven power = 400 hp\ngiven pull : hp = power / 2 ";
    const Found f = faults(head + "swing 150 hp .. 260 hp\nx : hp = pull\n");
    CHECK(f.only().code == LangCode::L808);
    CHECK(f.only().title == "`pull` is computed, so risk cannot draw it from 150 hp .. 260 hp");
    CHECK(f.only().helps.at(0).text == "write  swing 75 % .. 130 % of it");
    REQUIRE(f.only().helps[0].edit.has_value());
    CHECK(f.at(f.only().helps[0].edit->span) == "150 hp .. 260 hp");
    for (const char* none : {"swing 75 % .. 130 % of it", ""})
        CHECK(faults(head + none + "\nx : hp = pull\n").all().empty());
    CHECK(faults(head + "swing 150 hp .. 260 hp\nx : hp = pull\n", {{"pull", "180 hp"}})
              .all()
              .empty());
}

TEST_CASE("a range to choose what the job computes from is told, unless a model binds it") {
    const std::string head = "model \"m\"\ngiven power = 400 hp\ngiven pull : hp = power / 2 "
                             "choose 150 hp .. 260 hp\nx : hp = pull\n";
    const Found f = faults(head);
    CHECK(f.only().code == LangCode::L811);
    CHECK(f.only().title == "`pull` is computed, so nothing walks it from 150 hp to 260 hp");
    CHECK(faults(head, {{"pull", "180 hp"}}).all().empty());
}

TEST_CASE("what a refusal costs is not below zero, met or not") {
    const auto of = [](const std::string& depth, const std::string& costs) {
        const Found f = faults(
            "model \"m\"\ngiven depth = " + depth + "\nrequire depth < 7 ft  \"too deep\"  costs " +
            costs + "\nx : ft = depth\ncost c : $/ft = $1/ft over x\nprice \"P\" lump\n");
        std::string codes;
        for (const lang::Diagnostic& d : f.all())
            codes += std::string(lang::name_of(d.code)) + " ";
        return codes;
    };
    CHECK(of("5 ft", "$40 - $100") == "E509 ");
    CHECK(of("8 ft", "-$1") == "E504 E509 ");
    CHECK(of("5 ft", "$0").empty());
}

TEST_CASE("a given that only repeats another is not blamed for it") {
    const Found f = faults("model \"m\"\ngiven row = 15 ft within 1 ft .. 12 ft\ngiven cross : ft "
                           "= row within 1 ft .. 12 ft\n"
                           "a : ft = row\nb : ft = cross\n",
                           {}, "a");
    CHECK(f.only().title == "`row` is 15 ft, outside its allowed range 1 ft .. 12 ft");
}

TEST_CASE("a bound in another unit carries no dust") {
    const std::string text =
        "model \"m\"\ngiven depth : ft = 2.1336 m within 1 ft .. 7 ft\nx : ft = depth\n"; // 7 ft
    CHECK(faults(text).all().empty());
}

TEST_CASE("a range that is a formula tells what moved it") {
    const Found f = faults("model \"m\"\ngiven run = 100 ft\ngiven reach = 30 ft within 1 ft .. "
                           "run / 5\nx : ft = reach\n");
    CHECK(f.only().title == "`reach` is 30 ft, outside its allowed range 1 ft .. 20 ft");
    CHECK(has_note(f.only(), "`run` is 100 ft in the model (test.rate, line 2)"));
}

TEST_CASE("a requirement that is not met gives its message and the values in it") {
    const std::string text = ripping + "given depth = 2.5 ft because \"as dug\"\nrequire width <= "
                                       "2 * depth \"lines this far apart leave a strip\"\n";
    const Found f = faults(text);
    CHECK(f.only().code == LangCode::E504);
    CHECK(f.only().title == "requirement not met: lines this far apart leave a strip");
    CHECK(f.at(f.only().primary.span) == "width <= 2 * depth");
    CHECK(has_note(f.only(), "`width` is 6 ft in the model (test.rate, line 3)"));
    CHECK(has_note(f.only(),
                   "`depth` is 2.5 ft in the model (test.rate, line 12) because \"as dug\""));
    // Asked about a line that has nothing to do with it, it is silent; about one that has, it
    // speaks.
    CHECK(faults(text, {}, "share").all().empty());
    CHECK(faults(text, {}, "pace").only().code == LangCode::E504);
}

TEST_CASE("a margin of the whole price leaves nothing for the cost") {
    for (const char* margin : {"100 %", "120 %"}) {
        const Found f = faults(ripping, {{"share", margin}});
        CHECK(f.only().code == LangCode::E507);
        CHECK(f.only().title ==
              "a margin of " + std::string(margin) + " leaves nothing for the cost");
        CHECK(f.at(f.only().primary.span) == "margin share");
        CHECK(
            has_note(f.only(), "`share` is " + std::string(margin) + ", set on the command line"));
    }
    CHECK(faults(ripping, {{"share", "99 %"}}).only().code == LangCode::L815); // but odd
    CHECK(faults(ripping, {{"share", "60 %"}}).all().empty());
}

TEST_CASE("zero acres have no price per acre, and that is the only complaint") {
    const Found f = faults(ripping, {{"area", "0 ac"}});
    CHECK(f.only().code == LangCode::E508);
    CHECK(f.only().title == "the quantity of \"Ripping\" is 0 ac, so there is no price per ac");
    CHECK(has_note(f.only(), "`area` is 0 ac, set on the command line"));
}

TEST_CASE("an item of which there is nothing costs nothing and has no rate") {
    const std::string text = ripping + "part \"Haul\"\n"
                                       "  given miles = 12 mi  within 0 mi .. 90 mi\n"
                                       "  cost truck : $/mi = $4/mi over miles\n"
                                       "price \"Move\" per mi of miles covers \"Haul\"\n"
                                       "  margin 10 %\n  at least $5/mi\n  round up to $0.25/mi\n";
    CHECK(faults(text).all().empty());
    const Found none = faults(text, {{"miles", "0 mi"}});
    CHECK_MESSAGE(none.all().empty(), none.rendered());
    CHECK(none.p.value("move.amount") == 0);
    CHECK(none.p.value("price.total") == none.p.value("ripping.amount"));
    // The rate itself was asked for, and there is none.
    CHECK(faults(text, {{"miles", "0 mi"}}, "move.rate").only().code == LangCode::E508);
    // Nothing to do, and money for it.
    const std::string fee = text + "  at least $100\n";
    CHECK(faults(fee, {{"miles", "0 mi"}}).with(LangCode::E508).title ==
          "the quantity of \"Move\" is 0 mi, so there is no price per mi");
}

TEST_CASE("an allowed range that moved until it was empty is told as such") {
    const std::string text = "model \"m\"\ngiven widest = 9 ft  \"w\"\n"
                             "given apart = 7 ft  \"apart\"  within 3 ft .. widest\n"
                             "cost c : $/ft = $1/ft over apart\nprice \"P\" lump\n";
    CHECK(faults(text).all().empty());
    const Found f = faults(text, {{"widest", "2 ft"}});
    CHECK(f.only().code == LangCode::I611);
    CHECK(f.only().title == "the allowed range of `apart` is empty: 3 ft .. 2 ft");
    CHECK(has_note(f.only(), "`widest` is 2 ft, set on the command line"));
}

TEST_CASE("a price of nothing is a price, though no share of it is profit") {
    const Found f = faults("model \"m\"\ngiven area = 80 ac\ncost standing : $/ac = $0/ac over "
                           "area\nprice \"Idle\" per ac of area\n");
    CHECK_MESSAGE(f.all().empty(), f.rendered());
}

TEST_CASE("every kind of operation without an answer has its own words") {
    struct Row {
        const char* formula;
        LangCode code;
        const char* title;
        const char* at;
    };
    for (const Row& row : {
             Row{"sqrt(low - 4)", LangCode::E506, "there is no square root of -3 in `x`", "sqrt"},
             Row{"log(low - 1)", LangCode::E506, "there is no logarithm of 0 in `x`", "log"},
             Row{"exp(low * 1000)", LangCode::E502, "a result is too large in `x`", "exp"},
             Row{"(low - 3) ^ 0.5", LangCode::E506, "-2 to the power 0.5 is not a number in `x`",
                 "^"},
             Row{"exp(low * 700) / 0.0000000001", LangCode::E502, "a result is too large in `x`",
                 "/"},
             Row{"(low - 1) ^ -0.5", LangCode::E501, "0 to the power -0.5 is not a number in `x`",
                 "^"},
             Row{"(low / 1,000) ^ -200.5", LangCode::E502,
                 "0.001 to the power -200.5 is not a number in `x`", "^"},
             Row{"burn(low * 110 %) / 1 gal/h", LangCode::E503,
                 "table `burn` is read at 110 % in `x`, outside its rows 20 % .. 100 %", "burn"},
             Row{"eased(low * 50)", LangCode::E505,
                 "`a` of `eased` is 50 in `x`, above its limit of 40", "eased"},
             Row{"inner(low)", LangCode::E501, "division by zero in `x`", "inner(low)"},
         }) {
        CAPTURE(std::string(row.formula));
        const Found f = faults("model \"m\"\ngiven low = 1\n"
                               "table burn (load : %) : gal/h\n  20   8\n  100  38\n"
                               "define eased (a : 1) : 1 = a * 2\n  limit a 0 .. 40\n"
                               "define inner (a : 1) : 1 = 3 / gap\n  gap : 1 = a - 1\n"
                               "x : 1 = " +
                               std::string(row.formula) + "\n");
        CHECK(f.only().code == row.code);
        CHECK(f.only().title == row.title);
        CHECK(f.at(f.only().primary.span) == row.at);
        CHECK(has_note(f.only(), "`low` is 1 in the model (test.rate, line 2)"));
    }
}

TEST_CASE("an operation that two lines share is told in the one that is asked for") {
    const std::string text =
        "model \"m\"\ngiven a = 0 h\nfirst : 1/h = 1 / a\nsecond : 1/h = 2 * (1 / a)\n";
    CHECK(faults(text, {}, "second").only().title == "division by zero in `second`");
    CHECK(faults(text, {}, "first").only().title == "division by zero in `first`");
}

TEST_CASE("a line that rests on a given nobody set says so when it is asked for") {
    const std::string text =
        ripping + "given tank : gal \"fuel tank\"\nfills : 1 = 500 gal / tank\n";
    CHECK(faults(text).all().empty());
    const Found f = faults(text, {}, "fills");
    CHECK(f.only().code == LangCode::I603);
    CHECK(f.only().title == "`tank` is required and has no value");
}

} // namespace faults_test
