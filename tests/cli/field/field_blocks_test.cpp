// The blocks of a field as text for a job: names, what a stranger's words may become, soils.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "tests/cli/field/made_field.h"

namespace field_blocks_test {

using namespace made_field;

namespace {

std::string blocks_of(const std::vector<std::string>& names) {
    engine::FieldAnswer field = made(100, 100);
    field.blocks.clear();
    for (const std::string& name : names)
        field.blocks.push_back(block_of(name, field.blocks.size() + 1));
    const std::string text = cli::field_blocks(field, "", "blocks.txt");
    std::string firsts; // lines that open a block
    for (std::size_t at = text.find("block "); at != std::string::npos;
         at = text.find("\nblock ", at)) {
        at += text[at] == '\n' ? 1 : 0;
        firsts += text.substr(at + 6, text.find('\n', at) - at - 6) + "\n";
    }
    return firsts;
}

} // namespace

TEST_CASE("a block is called by a name of the notation, made of its words, each once") {
    const struct {
        const char *words, *line;
    } rows[] = {{"East side", "east_side \"East side\"\n"},
                {"East  Side!", "east_side \"East  Side!\"\n"},
                {"_az AZ 09-", "az_az_09 \"_az AZ 09-\"\n"},
                {"7 East", "block_7_east \"7 East\"\n"},
                {"***", "block_ \"***\"\n"},
                {"Season", "block_season \"Season\"\n"}, // a word of the notation is no name
                {"Season 2", "season_2 \"Season 2\"\n"},
                {"Field", "field \"Field\"\n"}, // this one may be
                {"", "block_ \"\"\n"},
                {"Caf\xc3\xa9", "caf \"Caf\xc3\xa9\"\n"},
                {"{[`@", "block_ \"{[`@\"\n"},
                {"a\"b\\c\nd\x1f", "a_b_c_d \"a b c d \"\n"},
                {"a234567890b234567890c234567890d234567890e",
                 "a234567890b234567890c234567890d234567890 "
                 "\"a234567890b234567890c234567890d234567890e\"\n"},
                {"a234567890b234567890c234567890d23456789 f",
                 "a234567890b234567890c234567890d23456789 "
                 "\"a234567890b234567890c234567890d23456789 f\"\n"}};
    for (const auto& row : rows)
        CHECK(blocks_of({row.words}) == row.line);
    CHECK(blocks_of({"East", "EAST", "east 2", "East", "Best"}) ==
          "east \"East\"\neast_2 \"EAST\"\neast_2_2 \"east 2\"\neast_3 \"East\"\nbest \"Best\"\n");
}

TEST_CASE(
    "a block names its feature from where the text is written, and one without pulls is left out") {
    engine::FieldAnswer field = made(100, 100);
    field.heading = 12.3456;
    field.blocks = {block_of("East", 4), block_of("Pond", 5, 0), block_of("West", 6)};
    field.blocks[2].file = "other/west.geojson";
    CHECK(cli::field_blocks(field, "", "fields/blocks.txt") ==
          "block east \"East\"\n  field \"home.geojson#4\" heading 12.346 deg\n"
          "block west \"West\"\n  field \"other/west.geojson#6\" heading 12.346 deg\n");
    CHECK(cli::field_blocks(field, "", "blocks.txt").find("\"fields/home.geojson#4\"") !=
          std::string::npos);
    CHECK(cli::field_blocks(field, "", "fields/east.values")
              .starts_with("values \"Blocks of home.geojson\"\n\nblock east \"East\"\n"));
}

TEST_CASE("a property is set where it is a name and a value of the notation, and only once") {
    const std::string long_one(60, 'a');
    engine::FieldAnswer field = made(100, 100);
    field.blocks[0].properties = {{"depth", "5 ft"},
                                  {"depth", "6 ft"},
                                  {"a.b_2", "-1,000.5 $/ac^2"},
                                  {"share", "30 %"},
                                  {"ground", "hard_pan"},
                                  {long_one, std::string(60, '1')},
                                  {long_one + "a", "1"},
                                  {"longer", std::string(61, '1')},
                                  {"none", ""},
                                  {"", "1"},
                                  {"Depth", "1"},
                                  {"2nd", "1"},
                                  {"two words", "1"},
                                  {"soil", "clay"},
                                  {"price", "$5"},
                                  {"no", "1"},
                                  {"quoted", "\"x\""},
                                  {"ended", "1\nset area = 1 ac"},
                                  {"comment", "1 # x"}};
    CHECK(cli::field_blocks(field, "", "blocks.txt") ==
          "block home \"Home\"\n"
          "  field \"fields/home.geojson#1\" heading 0.000 deg\n"
          "  set depth = 5 ft  because \"fields/home.geojson\"\n"
          "  set a.b_2 = -1,000.5 $/ac^2  because \"fields/home.geojson\"\n"
          "  set share = 30 %  because \"fields/home.geojson\"\n"
          "  set ground = hard_pan  because \"fields/home.geojson\"\n"
          "  set " +
              long_one + " = " + std::string(60, '1') + "  because \"fields/home.geojson\"\n");
}

TEST_CASE("each soil that is ripped is a block, by its name, its feature or its share") {
    engine::FieldAnswer field = made(100, 100);
    field.blocks[0].properties = {{"depth", "5 ft"}, {"area", "3 ac"}, {"wet", "no"}};
    const auto soil = [](const std::string& name, std::size_t feature, double net) {
        engine::FieldSoil one;
        one.soil = name;
        one.feature = feature;
        one.ground = net + 0.1;
        one.net = net;
        one.travel = 1.25;
        one.pulls = 2.5;
        return one;
    };
    field.soils = {soil("Clay", 1, 2), soil("Loam", 2, 0), soil("a \"b\"", 3, 1), soil("", 4, 1),
                   soil("", 0, 1.5)};
    field.soils[0].properties = {{"wet", "yes"}, {"run", "1 ft"}};
    const std::string of_block = "  set depth = 5 ft  because \"home.geojson\"\n"
                                 "  set wet = no  because \"home.geojson\"\n";
    const std::string share =
        "  because \"laid out from home.geojson, heading 0.0 deg, outside soils.geojson\"\n";
    CHECK(cli::field_blocks(field, "fields/soils.geojson#x", "fields/blocks.txt") ==
          "block home_clay \"Home, Clay\"\n"
          "  field \"home.geojson#1\" within \"soils.geojson#Clay\" heading 0.000 deg\n"
          "  set wet = yes  because \"soils.geojson\"\n"
          "  set depth = 5 ft  because \"home.geojson\"\n"
          "block home_a_b \"Home, a  b \"\n"
          "  field \"home.geojson#1\" within \"soils.geojson#3\" heading 0.000 deg\n" +
              of_block +
              "block home_soil_4 \"Home, soil 4\"\n"
              "  field \"home.geojson#1\" within \"soils.geojson#4\" heading 0.000 deg\n" +
              of_block +
              "block home_no_soil_on_the_map \"Home, no soil on the map\"\n"
              "  set gross = 1.6000 ac" +
              share + "  set area = 1.5000 ac" + share + "  set run = 250.0 ft" + share + of_block);
}

} // namespace field_blocks_test
