#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "cli/command.h"
#include "cli/page/module_file.h"
#include "cli/page/parts.h"
#include "tests/support/scratch_folder.h"

namespace page_test {

namespace fs = std::filesystem;
using acre::tests::file_text;
using acre::tests::ScratchFolder;

namespace {

const std::string job = std::string(ACREWRIGHT_ROOT) + "/examples/01-first-price.job";

struct Ended {
    int code = 0;
    std::string err;
};
Ended run(const std::vector<std::string>& words) {
    acre::cli::Console console;
    const int code = acre::cli::run(words, console);
    return {code, console.err};
}

std::string module_in(const ScratchFolder& folder, const std::string& stamp,
                      const std::string& body = "AAAA") {
    return folder.write("acrewright.module", stamp + "\n" + body + "\n");
}

} // namespace

TEST_CASE("without a module the command that makes one is told, and nothing is written") {
    const ScratchFolder folder;
    const std::string page = folder.path("p.html");
    const Ended ended = run({"page", job, "--write", page, "--module", folder.path("none.module")});
    CHECK(ended.code == 3);
    CHECK(ended.err.find("`.dev/module`") != std::string::npos);
    CHECK_FALSE(fs::exists(page));
}

TEST_CASE("a module of other sources, and what is none, is refused") {
    const ScratchFolder folder;
    const auto other = acre::cli::read_module(module_in(folder, "0.1.0-000000000000"));
    REQUIRE_FALSE(other);
    CHECK(other.said.diagnostics.all().front().title.find("built from other sources") !=
          std::string::npos);
    CHECK(other.said.diagnostics.all().front().helps.front().text.find(".dev/module") !=
          std::string::npos);
    const std::string own(acre::cli::source_stamp());
    CHECK_FALSE(acre::cli::read_module(module_in(folder, own, "</script>")));
    CHECK_FALSE(acre::cli::read_module(module_in(folder, own, "")));
    CHECK(acre::cli::read_module(module_in(folder, own)).value == "AAAA");
}

TEST_CASE("a page holds the price as written, and no text in it can end its element") {
    const ScratchFolder folder;
    std::string text = file_text(job);
    text.replace(text.find("Home ranch, block 4"), 19, "</script><img src=x>");
    text += "# </script><script>alert(1)</script>\n";
    const std::string hostile = folder.write("hostile.job", text);
    for (const char* name : {"2027.season", "tamarack.firm"})
        folder.write(name, file_text(fs::path(job).parent_path() / name));
    const std::string page = folder.path("p.html");
    const Ended ended = run({"page", hostile, "--write", page, "--module",
                             module_in(folder, std::string(acre::cli::source_stamp())), "--models",
                             std::string(ACREWRIGHT_ROOT) + "/models"});
    INFO(ended.err);
    REQUIRE(fs::exists(page));
    const std::string html = file_text(page);
    CHECK(html.find("$106,712.00") != std::string::npos);
    CHECK(html.find("<img") == std::string::npos);
    CHECK(html.find("alert(1)</script>") == std::string::npos);
    CHECK(html.find("default-src 'none'") != std::string::npos);
}

TEST_CASE("the grower's page has no engine, no text and no reason") {
    const ScratchFolder folder;
    const std::string page = folder.path("g.html");
    CHECK(run({"page", job, "--for-grower", "--write", page}).code == 0);
    const std::string html = file_text(page);
    CHECK(html.find("$106,712.00") != std::string::npos);
    for (const char* secret : {"<script", "walked with the foreman", "season_prices", "74,783",
                               "77,062", "because", "deep-rip", "crawler.rate"})
        CHECK_MESSAGE(html.find(secret) == std::string::npos, secret);
    // What the model shows, and no other line.
    CHECK(html.find("depth below undisturbed ground") != std::string::npos);
    CHECK(html.find("6 ft") != std::string::npos);
    for (const char* hidden :
         {"meter hours", "draft of one shank", "days on the job", "diesel, delivered"})
        CHECK_MESSAGE(html.find(hidden) == std::string::npos, hidden);
}

TEST_CASE("a grower's page of nobody yet begins with the day") {
    const ScratchFolder folder;
    folder.write("mowing.rate", "model \"Mowing\"\ngiven area = 40 ac  \"acres mowed\"\n"
                                "cost driver : $/ac = $3/ac over area  \"driver\"\n"
                                "price \"Mowing\" per ac of area\n  margin 20 %\n");
    const std::string page = folder.path("g.html");
    const auto head = [&](const std::string& lines) {
        const std::string from =
            folder.write("g.job", "job \"Meadow\"\nmodel \"mowing\"\n" + lines);
        CHECK(run({"page", from, "--for-grower", "--write", page}).code == 0);
        const std::string html = file_text(page);
        const std::size_t begin = html.find("</h1>\n<p>") + 9;
        return html.substr(begin, html.find("</p>", begin) - begin);
    };
    CHECK(head("date 2027-07-05\n") == "July 5, 2027");
    CHECK(head("for \"Mill Creek\"\n") == "For Mill Creek");
    CHECK(head("for \"Mill Creek\"\ndate 2027-07-05\n") == "For Mill Creek, July 5, 2027");
    CHECK(head("") == "");
}

} // namespace page_test
