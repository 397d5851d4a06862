// Whether the season in force is the one that a job means: by its name and by its years.
#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/compile_text.h"

namespace season_of_job_test {

using namespace acre;
using namespace acre::tests;
using lang::Code;

namespace {

// Seasons beside the job, too.
class Beside : public MemoryLoader {
  public:
    explicit Beside(const Files& files) : MemoryLoader(files), files_(files) {}
    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override {
        if (kind != lang::ReferenceKind::Season)
            return MemoryLoader::references(kind, from);
        std::vector<std::string> names;
        for (const auto& [name, text] : files_)
            if (name.ends_with(".season"))
                names.push_back(name.substr(0, name.size() - 7));
        return names;
    }

  private:
    Files files_;
};

Compilation compiled(const std::string& job, Files files) {
    files["m.rate"] = "model \"m\"\ngiven wage = $30/h\ncost crew : $/h = wage over 8 h\n"
                      "price \"Work\" lump\n";
    Compilation out;
    Beside loader(files);
    out.sheet = lang::compile(request_of("job \"j\"\nmodel \"m\"\n" + job, {}), loader,
                              *out.sources, out.diagnostics);
    REQUIRE_MESSAGE(out.sheet.has_value(), out.rendered());
    return out;
}

bool is_of_another_year(const std::string& title, const std::string& asked, int year) {
    return compiled("season \"" + asked + "\"\ndate " + std::to_string(year) + "-05-01\n",
                    {{asked + ".season", "season \"" + title + "\"\n"}})
               .find(Code::L830) != nullptr;
}

} // namespace

TEST_CASE("a season's years are those of its name, or else those it is asked for by") {
    struct Row {
        std::string title, asked;
        std::vector<int> years; // none: any year will do
    };
    for (const Row& row :
         {Row{"2027", "2027", {2027}}, Row{"2027, autumn", "2027-autumn", {2027}},
          Row{"autumn of 2027", "s", {2027}}, Row{"2026-27", "2026-27", {2026, 2027}},
          Row{"2026/27", "s", {2026, 2027}}, Row{"2026-27, dry", "s", {2026, 2027}},
          Row{"2026-2028", "s", {2026, 2028}}, Row{"2026-271", "s", {2026}},
          Row{"2026-2", "s", {2026}}, Row{"2026, 27", "s", {2026}},
          Row{"autumn", "2027-autumn", {2027}}, Row{"2027", "2028", {2027}},
          Row{"autumn", "autumn", {}}, Row{"12027", "s", {}}, Row{"202", "s", {}},
          Row{"3027", "s", {}}, Row{"price list 27", "s", {}}}) {
        CAPTURE(row.title);
        for (int year = 2025; year <= 2029; ++year) {
            CAPTURE(year);
            const bool fits =
                row.years.empty() || std::count(row.years.begin(), row.years.end(), year) > 0;
            CHECK(is_of_another_year(row.title, row.asked, year) == !fits);
        }
    }
    CHECK_FALSE(is_of_another_year("1999", "1999", 1999));
    CHECK(is_of_another_year("1999", "1999", 2027));
}

TEST_CASE("a season called otherwise is another, unless one name is a part of the other") {
    const auto is_another = [](const std::string& title, const std::string& asked,
                               const Files& more = {}) {
        Files files = more;
        files[asked + ".season"] = "season \"" + title + "\"\n";
        return compiled("season \"" + asked + "\"\n", files).find(Code::L812) != nullptr;
    };
    CHECK_FALSE(is_another("2027", "2027"));
    CHECK(is_another("2026", "2027"));
    CHECK_FALSE(is_another("2027, Autumn", "2027-autumn"));
    CHECK_FALSE(is_another("2027", "2027-autumn"));
    CHECK_FALSE(is_another("2027, autumn", "2027"));
    CHECK_FALSE(is_another("Ä", "2027")); // without a letter of its own
    // A part of the name, but there is a file of just that name.
    CHECK(is_another("2027", "2027-autumn", {{"2027.season", "season \"2027\"\n"}}));
    CHECK_FALSE(is_another("2027", "2027-autumn", {{"2026.season", "season \"2026\"\n"}}));
}

TEST_CASE("days that are set for another year hold for no job of the season") {
    const auto codes = [](const std::string& within) {
        return compiled("season \"2026-27\"\ndate 2026-05-01\n",
                        {{"2026-27.season", "season \"2026-27\"\nset wage = $30/h\n"
                                            "set wage = $40/h  within " +
                                                within + "\n"}})
                   .find(Code::L840) != nullptr;
    };
    CHECK_FALSE(codes("2026-06-01 .. 2026-06-30"));
    CHECK_FALSE(codes("2027-12-31 .. 2028-01-31")); // begins in it
    CHECK_FALSE(codes("2025-12-01 .. 2026-01-01")); // ends in it
    CHECK(codes("2025-06-01 .. 2025-06-30"));
    CHECK(codes("2028-01-01 .. 2028-06-30"));
}

TEST_CASE("a job without a season is told of five of those that are there") {
    const auto of = [](int count) {
        Files files;
        for (int i = 0; i < count; ++i)
            files["20" + std::to_string(20 + i) + ".season"] = "season \"a\"\n";
        return compiled("", files);
    };
    CHECK(of(0).find(Code::L813) == nullptr);
    const Compilation one = of(1);
    REQUIRE(one.find(Code::L813) != nullptr);
    CHECK(one.find(Code::L813)->notes[0] == "a season is within reach: \"2020\"");
    REQUIRE(one.find(Code::L813)->helps.size() == 1);
    CHECK(one.find(Code::L813)->helps[0].text == "add a line like  season \"2020\"");
    REQUIRE(one.find(Code::L813)->helps[0].edit);
    CHECK(one.find(Code::L813)->helps[0].edit->replacement == "\nseason \"2020\"");
    const Compilation five = of(5);
    CHECK(five.find(Code::L813)->notes[0] ==
          "seasons are within reach: \"2020\", \"2021\", \"2022\", \"2023\", \"2024\"");
    CHECK_FALSE(five.find(Code::L813)->helps[0].edit); // which is meant is not clear
    CHECK(of(7).find(Code::L813)->notes[0] ==
          "seasons are within reach: \"2020\", \"2021\", \"2022\", \"2023\", \"2024\" and 2 more");
}

} // namespace season_of_job_test
