// The module's call, without a browser: tests/page compares its answers with the program's.
#include "cli/module/session.h"

#include <doctest/doctest.h>

#include <cmath>

#include <nlohmann/json.hpp>

#include "lang/syntax/parse.h"

namespace session_test {

using acre::cli::PageTexts;
using acre::cli::Session;
using Json = nlohmann::json;

namespace {

const std::string mowing = "model \"Mowing\"\n"
                           "given area = 40 ac within 1 ac .. 900 ac swing 30 ac .. 50 ac\n"
                           "hours : h = area / 5 ac/h\n"
                           "part \"Work\"\n"
                           "  cost mower : $/h = $50/h over hours\n"
                           "price \"Mowing\" per ac of area\n"
                           "  margin 20 %\n";
const std::string creek = "job \"Creek\"\nmodel \"mowing\"\noption \"Half\"\n  set area = 20 ac\n";

PageTexts texts() {
    PageTexts page;
    page.jobs.push_back({"creek.job", {}});
    page.used.texts = {{"creek.job", creek}, {"mowing.rate", mowing}};
    page.used.names[{acre::lang::ReferenceKind::Model, "mowing", "creek.job"}] = "mowing.rate";
    return page;
}

Json asked(Session& session, const std::string& question) {
    return Json::parse(session.answer(question));
}

Session opened() {
    Session session;
    session.take(texts());
    return session;
}

} // namespace

TEST_CASE("texts come back from their document as they went in") {
    PageTexts before = texts();
    before.jobs.push_back(
        {"two.job", {{"", "set area = 3 ac\n", {{"layout_spacing", 5}, {"turn", std::nan("")}}}}});
    before.seasons = {"2027.season"};
    before.used.names[{acre::lang::ReferenceKind::Season, "2027", "creek.job"}] = "2027.season";
    before.used.names[{acre::lang::ReferenceKind::Firm, "kestrel", "2027.season"}] = "kestrel.firm";
    const auto after = acre::cli::read_page_texts(acre::cli::page_texts_json(before));
    REQUIRE(after.has_value());
    CHECK(after->used.texts == before.used.texts);
    CHECK(after->used.names == before.used.names);
    CHECK(after->seasons == before.seasons);
    CHECK(after->jobs.size() == 2);
    CHECK(after->jobs[0].layouts.empty());
    REQUIRE(after->jobs[1].layouts.size() == 1);
    CHECK(after->jobs[1].layouts[0].sets == "set area = 3 ac\n");
    CHECK(acre::engine::laid_alike(after->jobs[1].layouts[0].laid_by,
                                   before.jobs[1].layouts[0].laid_by));
    CHECK_FALSE(acre::cli::read_page_texts("{}").has_value());
    CHECK_FALSE(acre::cli::read_page_texts("no JSON").has_value());
}

// 40 ac at 5 ac/h are 8 h, $400; a margin of 20 % of the price makes that $500.
TEST_CASE("a price is answered, moved and put back") {
    Session session = opened();
    CHECK(asked(session, R"({"ask": "price"})")["price"]["total_cents"] == 50000);
    CHECK(asked(session,
                R"({"ask": "price", "sets": [["area", "80 ac"]]})")["price"]["total_cents"] ==
          100000);
    CHECK(asked(session, R"({"ask": "price", "option": "Half"})")["price"]["total_cents"] == 25000);
    CHECK(asked(session, R"({"ask": "price"})")["price"]["total_cents"] == 50000);
}

TEST_CASE("with every line, a moved given is told as set by hand") {
    Session session = opened();
    const Json full =
        asked(session, R"({"ask": "price", "lines": true, "sets": [["area", "80 ac"]]})");
    CHECK(full["givens"]["area"]["set_by"] == "command line");
    CHECK(full["price"]["total_cents"] == 100000);
}

TEST_CASE("another text answers at once; one that is wrong says where") {
    Session session = opened();
    asked(session, Json{{"ask", "text"},
                        {"name", "creek.job"},
                        {"text", creek + "option \"Large\"\n  set area = 80 ac\n"}}
                       .dump());
    CHECK(asked(session, R"({"ask": "price", "option": "Large"})")["price"]["total_cents"] ==
          100000);
    asked(session,
          Json{{"ask", "text"}, {"name", "creek.job"}, {"text", creek + "  set area = 3 ft\n"}}
              .dump());
    const Json found = asked(session, R"({"ask": "check", "name": "creek.job"})");
    REQUIRE(found["files"][0]["diagnostics"].size() > 0);
    CHECK(found["files"][0]["diagnostics"][0]["start"]["line"] == 5);
}

TEST_CASE("a link of a page sets values, and writes no statement") {
    Session session = opened();
    for (const char* value : {R"(80 ac because \"I say\")", R"(80 ac swing 70 ac .. 90 ac)",
                              R"(80 ac # twice)", R"(80 ac\n  swing 70 ac .. 90 ac)"})
        for (const char* ask : {"price", "givens"}) {
            const Json answer = asked(session, std::string(R"({"ask": ")") + ask +
                                                   R"(", "sets": [["area", ")" + value + "\"]]}");
            CHECK_MESSAGE(answer.value("code", "") == "C003", answer.dump());
        }
}

TEST_CASE("a job that was laid out refuses what would lay it out otherwise") {
    Session session;
    PageTexts page = texts();
    page.used.texts["mowing.rate"] += "layout_spacing : ft = area / 1 ac * 1 ft\n";
    page.jobs[0].layouts = {{"", "", {{"layout_spacing", 40}}},
                            {"Half", "", {{"layout_spacing", 20}}}};
    session.take(page);
    const auto code = [&](const std::string& question) {
        const Json answer = asked(session, question);
        return answer.contains("code") ? answer["code"].get<std::string>() : "";
    };
    CHECK(asked(session, R"({"ask": "price"})")["price"]["total_cents"] == 50000);
    CHECK(code(R"({"ask": "price", "sets": [["area", "80 ac"]]})") == "Q005");
    // An option has a layout of its own.
    CHECK(asked(session, R"({"ask": "price", "option": "Half"})")["price"]["total_cents"] == 25000);
    page.jobs[0].layouts.pop_back();
    session.take(page);
    CHECK(code(R"({"ask": "price", "option": "Half"})") == "Q005");
    // And another text needs one too.
    asked(session, Json{{"ask", "text"},
                        {"name", "creek.job"},
                        {"text", "job \"Creek\"\nmodel \"mowing\"\nset area = 50 ac\n"}}
                       .dump());
    CHECK(code(R"({"ask": "price"})") == "Q005");
}

TEST_CASE("whatever is asked, there is an answer") {
    Session session = opened();
    for (const char* question :
         {"", "null", "[]", "{", R"({"ask": 5})", R"({"ask": "no such"})",
          R"({"ask": "price", "job": -1})", R"({"ask": "price", "job": 1e300})",
          R"({"ask": "price", "lines": "yes"})", R"({"ask": "risk", "trials": 1})",
          R"({"ask": "grid", "along": 5})", R"({"ask": "compare", "over": {}})",
          R"({"ask": "rate-card", "rows": []})", R"({"ask": "bridge", "to": "that"})",
          R"({"ask": "texts"})", R"({"ask": "text"})", R"({"ask": "explain", "line": "x"})"})
        CHECK_MESSAGE(asked(session, question)["schema"] == "acrewright.failure/1", question);
    CHECK(asked(session, std::string(acre::cli::max_question_bytes + 1, ' '))["code"] == "C005");
    const auto code_of = [&](std::size_t bytes) {
        const Json text = {{"ask", "text"}, {"name", "other"}, {"text", std::string(bytes, ' ')}};
        return asked(session, text.dump())["code"];
    };
    CHECK(code_of(acre::lang::max_file_bytes) == "F701");
    CHECK(code_of(acre::lang::max_file_bytes + 1) == "S118");
    CHECK(asked(session, R"({"ask": "price"})")["price"]["total_cents"] == 50000);
}

} // namespace session_test
