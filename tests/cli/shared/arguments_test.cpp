#include <doctest/doctest.h>

#include "cli/shared/arguments.h"

namespace arguments_test {

using namespace acre::cli;

namespace {

struct Read {
    std::string job, option;
    std::vector<std::string> sets;
    std::uint32_t depth = 7;
    double scale = 1;
    bool json = false;
    std::optional<int> code;
    Console console;

    explicit Read(const std::vector<std::string>& words) {
        Arguments arguments("price", "What a job costs.", "acrewright price x.job");
        arguments.positional("JOB", "the job", job);
        arguments.option("--set", "NAME=VALUE", "sets a given", sets);
        arguments.option("--option", "TITLE", "takes an option", option);
        arguments.option("--depth", "N", "levels", depth);
        arguments.option("--scale", "X", "size", scale);
        arguments.flag("--json", "as JSON", json);
        if (auto reply = arguments.read(words))
            code = say(std::move(*reply), false, console);
    }
};

} // namespace

TEST_CASE("words and options may stand in any order") {
    const Read read({"--set", "a=1 ac", "x.job", "--json", "--set=b=-2", "--option", "Tree rows",
                     "--depth", "3", "--scale", "2.5"});
    CHECK(!read.code);
    CHECK(read.job == "x.job");
    CHECK(read.sets == std::vector<std::string>{"a=1 ac", "b=-2"});
    CHECK(read.option == "Tree rows");
    CHECK(read.depth == 3);
    CHECK(read.scale == 2.5);
    CHECK(read.json);
}

TEST_CASE("a word that is written as an option is said to go without it") {
    const Read read({"--job", "x.job"});
    CHECK(read.code == 2);
    CHECK(read.console.err.find("`price` has no option `--job`: JOB goes without it") !=
          std::string::npos);
}

TEST_CASE("behind -- everything is a word") {
    const Read read({"--", "--json"});
    CHECK(!read.code);
    CHECK(read.job == "--json");
    CHECK(!read.json);
}

TEST_CASE("a wrong command line ends with 2 and says what is wrong with it") {
    struct Row {
        std::vector<std::string> words;
        const char* says;
    };
    for (const Row& row :
         {Row{{}, "`price` needs a JOB"}, Row{{"a", "b"}, "unexpected argument `b`"},
          Row{{"a", "--jsn"}, "`price` has no option `--jsn`; did you mean `--json`?"},
          Row{{"a", "-x"}, "`price` has no option `-x`"},
          Row{{"a", "-"}, "unexpected argument `-`"},
          Row{{"a", "--optoin"}, "`price` has no option `--optoin`; did you mean `--option`?"},
          Row{{"a", "--jsn=4"}, "`price` has no option `--jsn`"},
          Row{{"a", "--set"}, "`--set` needs a value"},
          Row{{"a", "--depth", "x"}, "`--depth` takes a whole number, 0 or more, not `x`"},
          Row{{"a", "--depth", "-1"}, "`--depth` takes a whole number, 0 or more, not `-1`"},
          Row{{"a", "--depth", "99999999999"}, "`--depth` takes a whole number"},
          Row{{"a", "--scale", "1e"}, "`--scale` takes a number, not `1e`"},
          Row{{"a", "--option", "x", "--option", "y"}, "`--option` is given twice"},
          Row{{"a", "--json=5"}, "`--json` takes no value"},
          Row{{"a", "\x1b[2J"}, "unexpected argument `\\x1b[2J`"}}) {
        const Read read(row.words);
        CHECK(read.code == 2);
        CHECK_MESSAGE(read.console.err.find(row.says) != std::string::npos, read.console.err);
        CHECK(read.console.out.empty());
    }
}

TEST_CASE("help is a result, whatever else stands on the line") {
    const Read read({"--depth", "x", "--help"});
    CHECK(read.code == 0);
    CHECK(read.console.out == "usage: acrewright price JOB [OPTIONS]\n"
                              "\n"
                              "What a job costs.\n"
                              "\n"
                              "  JOB                   the job\n"
                              "\n"
                              "  --set NAME=VALUE      sets a given\n"
                              "  --option TITLE        takes an option\n"
                              "  --depth N             levels\n"
                              "  --scale X             size\n"
                              "  --json                as JSON\n"
                              "  --help                this page\n"
                              "\n"
                              "example:\n"
                              "  acrewright price x.job\n");
}

TEST_CASE("a name that leaves no two spaces before its words stands on a line by itself") {
    std::vector<std::string> files, words;
    std::uint64_t trials = 0;
    Arguments arguments("check", "Looks.", "acrewright check x.job");
    arguments.positionals("FILE", "what to look at", files, false);
    arguments.option("--exactly-so", "NUMBERS", "fits", words);
    arguments.option("--one-letter", "NUMBERSXY", "does not", trials);
    const std::vector<std::string> asked = {"a.job", "-h"};
    const std::optional<Reply> reply = arguments.read(asked);
    REQUIRE(reply);
    CHECK(reply->page == "usage: acrewright check [FILE...] [OPTIONS]\n"
                         "\n"
                         "Looks.\n"
                         "\n"
                         "  FILE...               what to look at\n"
                         "\n"
                         "  --exactly-so NUMBERS  fits\n"
                         "  --one-letter NUMBERSXY\n"
                         "                        does not\n"
                         "  --help                this page\n"
                         "\n"
                         "example:\n"
                         "  acrewright check x.job\n");
    REQUIRE(reply->usage);
    CHECK(reply->usage->positionals.size() == 1);
    REQUIRE(reply->usage->options.size() == 3);
    CHECK(reply->usage->options[2].name == "--help");
    const std::vector<std::string> most = {"--one-letter", "18446744073709551615"};
    CHECK(!arguments.read(most));
    CHECK(trials == 18'446'744'073'709'551'615U);
}

} // namespace arguments_test
