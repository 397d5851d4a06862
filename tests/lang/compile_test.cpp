#include <doctest/doctest.h>

#include <string>

#include "tests/support/compile_text.h"

namespace compile_test {

using namespace acre;
using tests::compile_ok;
using tests::compile_text;
using tests::Files;

namespace {

const Files files = {
    {"rip.rate", "model \"Ripping\"\ngiven area = 80 ac\ngiven depth : ft\ncost tips : $/ac = "
                 "$3/ac over area\nprice \"Ripping\" per ac of area\n"},
    {"lib.rate", "library \"Lib\"\ndefine f (x : ft) : ft = x\n"},
    {"2027.season", "season \"2027\"\nset area = 81 ac\n"},
    {"broken.season", "season \"B\"\nset area = = 3\n"},
};

std::string codes_of(const tests::Compilation& c) {
    std::string out;
    for (const lang::Diagnostic& d : c.diagnostics.all())
        out += (out.empty() ? "" : " ") + std::string(lang::name_of(d.code));
    return out;
}

// A loader that fails as it is told to.
class FailingLoader : public lang::Loader {
  public:
    explicit FailingLoader(lang::Code code) : code_(code) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view) override {
        return lang::cannot_load(code_, kind, reference, "why it failed");
    }

  private:
    lang::Code code_;
};

} // namespace

TEST_CASE("a job is compiled with its model, its season and the values of the command line") {
    const auto c = compile_ok("job \"j\"\nmodel \"rip\"\nseason \"2027\"\nset depth = 5 ft\n",
                              {files, "", {{"depth", "60 in"}}});
    const lang::Sheet& sheet = **c.sheet;
    CHECK(sheet.job.season_title == "2027");
    const lang::Given& depth = sheet.givens[sheet.lines[sheet.find("depth")].given];
    CHECK(depth.settings.size() == 2);
    CHECK(depth.settings.back().layer == lang::Layer::CommandLine);
}

TEST_CASE("a model or a library is compiled by itself") {
    CHECK((*compile_ok(files.at("rip.rate"), {files}).sheet)->find("area") != lang::none);
    CHECK(compile_ok("library \"L\"\nuse \"lib\"\ndefine g (x : ft) : ft = f(x)\n", {files})
              .sheet->
              operator->()
              ->functions.size() == 2);
}

TEST_CASE("for a price alone, functions of used models are read when something calls them, and "
          "what they call") {
    Files more = files;
    more["far.rate"] = "library \"Far\"\n"
                       "define last (x : ft) : ft = x\n"
                       "define middle (x : ft) : ft = last(x)\n"
                       "define first (x : ft) : ft = middle(x)\n"
                       "define facing () : deg = 32 deg\n"
                       "define idle (x : ft) : ft = nothing_at_all\n";
    more["rows.rate"] =
        "model \"Rows\"\nuse \"far\"\nx : ft = first(3 ft)\ndefine own (x : ft) : ft = x\n";
    lang::Request request =
        tests::request_of("job \"j\"\nmodel \"rows\"\nfield \"f.geojson\" heading facing()\n", {});
    request.every_function = false;
    tests::MemoryLoader loader(more);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto sheet = lang::compile(request, loader, sources, diagnostics);
    REQUIRE_MESSAGE(sheet.has_value(), lang::render(diagnostics, sources));
    std::string read;
    for (const lang::Function& function : (*sheet)->functions)
        if (function.value != lang::none)
            read += function.name + " ";
    CHECK(read == "own last middle first facing ");
    request.every_function = true;
    lang::SourceMap all_sources;
    CHECK_FALSE(lang::compile(request, loader, all_sources, diagnostics).has_value());
}

TEST_CASE("a job names one model that is there") {
    struct Row {
        std::string job, codes, title;
    };
    const std::vector<Row> rows = {
        {"job \"j\"\n", "I608", "the job names no model"},
        {"job \"j\"\nmodel \"rip\"\nmodel \"rip\"\n", "I608",
         "a job takes one model; here are two"},
        {"job \"j\"\nmodel \"rpi\"\n", "F701", "model \"rpi\" not found"},
        {"job \"j\"\nmodel \"rip\"\nseason \"1999\"\n", "F701", "season \"1999\" not found"},
        {"job \"j\"\nmodel \"lib\"\n", "F706", "a job needs a model, and \"lib\" is a library"},
        {"job \"j\"\nmodel \"rip\"\nseason \"2027\"\nseason \"2027\"\n", "S116",
         "`season` is given twice"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.job);
        const auto c = compile_text(row.job, {files});
        CHECK_FALSE(c.sheet.has_value());
        REQUIRE_MESSAGE(codes_of(c) == row.codes, c.rendered());
        CHECK(c.diagnostics.all()[0].title == row.title);
    }
}

TEST_CASE("a file that cannot be had is told where it is named, with the reason") {
    for (const lang::Code code : {lang::Code::F701, lang::Code::F702, lang::Code::F703,
                                  lang::Code::F704, lang::Code::F705}) {
        FailingLoader loader(code);
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        const std::string text =
            "model \"m\"\nuse \"other\" as o\nx : ft = o.y\n"; // o.y is no error of its own
        CHECK_FALSE(lang::compile({"m.rate", text, lang::FileKind::Model, "", {}, ""}, loader,
                                  sources, diagnostics)
                        .has_value());
        REQUIRE(diagnostics.all().size() == 1);
        CHECK(diagnostics.all()[0].code == code);
        CHECK(sources.text(diagnostics.all()[0].primary.span) == "\"other\"");
        CHECK(diagnostics.all()[0].notes == std::vector<std::string>{"why it failed"});
    }
}

TEST_CASE("errors of all files are told in one run, in the order of files and lines") {
    const auto c = compile_text(
        "job \"j\"\nmodel \"rip\"\nseason \"broken\"\nset aria = 3 ac\nset area = 3 ft\n",
        {files, "", {{"dept", "3 ft"}}});
    CHECK(codes_of(c).find("I601") != std::string::npos);
    CHECK(codes_of(c).find("U304") != std::string::npos);
    CHECK(codes_of(c).find("S10") != std::string::npos);
    std::uint32_t last = 0;
    for (const lang::Diagnostic& d : c.diagnostics.all()) {
        CHECK(d.primary.span.file >= last);
        last = d.primary.span.file;
    }
}

TEST_CASE("a slip on the command line reads as one there") {
    const auto c = compile_text("job \"j\"\nmodel \"rip\"\n", {files, "", {{"area", "50 acer"}}});
    REQUIRE(codes_of(c) == "N203");
    CHECK(c.rendered().find("command line, line 1\n") != std::string::npos);
    CHECK(c.rendered().find("set area = 50 acer") != std::string::npos);
    // A line end within a value stays on its line.
    CHECK(codes_of(compile_text("job \"j\"\nmodel \"rip\"\n",
                                {files, "", {{"area", "50 ac\nset depth = 3 ft"}}})) != "");
}

TEST_CASE("files are used so deep and so many, and no further") {
    Files chain;
    for (int i = 1; i < 20; ++i)
        chain["m" + std::to_string(i) + ".rate"] =
            "model \"m\"\nuse \"m" + std::to_string(i + 1) + "\"\n";
    chain["m16.rate"] = "model \"last\"\ngiven x = 1 ft\n";
    CHECK(codes_of(compile_text("model \"m\"\nuse \"m1\"\n", {chain})) == "");
    chain["m16.rate"] = "model \"m\"\nuse \"m17\"\n";
    chain["m17.rate"] = "model \"last\"\n";
    CHECK(codes_of(compile_text("model \"m\"\nuse \"m1\"\n", {chain})) == "N214");

    Files many;
    std::string text = "model \"m\"\n";
    for (std::uint32_t i = 1; i <= lang::max_files; ++i) {
        many["u" + std::to_string(i) + ".rate"] = "model \"u\"\n";
        if (i < lang::max_files)
            text += "use \"u" + std::to_string(i) + "\"\n";
    }
    CHECK(codes_of(compile_text(text, {many})) == "");
    CHECK(codes_of(compile_text(text + "use \"u200\"\n", {many})) == "N214");
}

TEST_CASE("a season by itself is read, and there is nothing more to it") {
    tests::MemoryLoader loader(files);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    CHECK_FALSE(
        lang::compile({"2027.season", files.at("2027.season"), lang::FileKind::Season, "", {}, ""},
                      loader, sources, diagnostics)
            .has_value());
    CHECK_FALSE(diagnostics.has_errors());
}

} // namespace compile_test
