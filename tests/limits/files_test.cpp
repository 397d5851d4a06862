// Files beside the notation, and the command line, at their limits.
#include <filesystem>

#include <unistd.h>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/module/session.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_page/wording.h"
#include "cli/verify/verify_page.h"
#include "engine/billing/posted.h"
#include "engine/book/canonical.h"
#include "engine/field/boundary.h"
#include "engine/field/layout.h"
#include "engine/log/job_log.h"
#include "engine/questions/season/chain.h"
#include "lang/diag/render.h"
#include "tests/limits/limits.h"
#include "tests/support/scratch_folder.h"

namespace acre::tests {
namespace {

// All that a command says.
std::string ran(const std::vector<std::string>& words) {
    cli::Console console;
    cli::run(words, console);
    return console.err + console.out.substr(0, 2'000);
}

std::string read_file(std::uint64_t bytes, std::size_t limit) {
    const ScratchFolder folder;
    const lang::Outcome<std::string> text =
        cli::read_text(folder.write("f", std::string(bytes, 'x')), false, limit);
    return text ? "" : text.said.diagnostics.all().front().notes.front();
}

// What a reader of one text says of it.
template <class Read> std::string said_of(std::string text, const Read& read) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    read(sources, sources.add("file", std::move(text)), diagnostics);
    return lang::render(diagnostics, sources);
}
std::string rendered(const lang::Said& said) {
    return said.sources ? lang::render(said.diagnostics, *said.sources)
                        : lang::render(said.diagnostics, lang::SourceMap());
}
std::string boundary(const std::string& text) {
    return said_of(
        text, [](auto& sources, auto file,
                 auto& diagnostics) { engine::read_boundary(sources, file, diagnostics); });
}
std::string ring(std::uint64_t points) { // a comb: no need for a circle, nothing is laid
    std::string text = R"({"type": "Polygon", "coordinates": [[)";
    for (std::uint64_t i = 0; i < points; ++i)
        text += fmt::format("[-119.{:06},36.{}],", i, i % 2);
    return text + "[-119.000000,36.0]]]}";
}
std::string nested(std::uint64_t depth) { // below the feature and its properties
    return R"({"type": "Feature", "properties": {"name": )" + std::string(depth - 1, '[') +
           std::string(depth - 1, ']') +
           R"(}, "geometry": {"type": "Polygon", "coordinates": [[[0, 0], [0.001, 0], [0.001,)"
           R"( 0.001], [0, 0]]]}})";
}
std::string nested_record(std::uint64_t depth) { // below the outermost
    return engine::read_canonical(std::string(depth + 1, '[') + std::string(depth + 1, ']') + "\n")
               ? ""
               : "is not a whole record";
}

std::string log(std::uint64_t rows, std::uint64_t columns) {
    std::string text = "date,meter_start,meter_stop,acres";
    for (std::uint64_t i = 4; i < columns; ++i)
        text += ",amount.c" + std::to_string(i);
    text += '\n';
    for (std::uint64_t i = 0; i < rows; ++i)
        text += "2027-03-14,,,1\n";
    const std::vector<engine::CountedLine> acres = {
        {"acres", "ac", engine::Counting::Work, "", 1, {}}};
    return rendered(engine::read_job_log("file", text, acres).said);
}

std::string posted(std::uint64_t rows) {
    std::string text = "week,product,price,source\n";
    for (std::uint64_t i = 0; i < rows; ++i)
        text += "2027-03-15,fuel " + std::to_string(i) + ",4.60,board\n";
    return rendered(engine::read_posted("file", text).said);
}

std::string worded(const std::string& text) {
    return rendered(cli::fill_in("file", text, {}, {}).said);
}
std::string page(std::uint64_t bytes) {
    return worded(": w = " + std::string(1'000, 'x') + "\n" + repeated("{w}\n\n", bytes / 1'000) +
                  std::string(bytes % 1'000, 'y') + "\n");
}

std::string why_unread(const cli::Book& book) {
    const auto found = book.indices();
    return found ? "" : found.said.diagnostics.all().front().notes.front();
}

// A book of empty records: one file by very many names.
std::string book_of(std::uint64_t records) {
    const ScratchFolder folder;
    const std::string empty = folder.write("empty", "");
    for (std::uint64_t i = 1; i <= records; ++i)
        REQUIRE(::link(empty.c_str(), folder.path(engine::record_file(i)).c_str()) == 0);
    return why_unread(cli::Book(folder.path()));
}
// A record that is as large as it says, and nothing but holes.
std::string record_of_bytes(std::uint64_t bytes) {
    const ScratchFolder folder;
    const std::string path = folder.write(engine::record_file(1), "");
    REQUIRE(::truncate(path.c_str(), static_cast<off_t>(bytes)) == 0);
    const auto record = cli::Book(folder.path()).record(1);
    const lang::Diagnostic& said = record.said.diagnostics.all().front();
    return said.notes.empty() ? "" : said.notes.front(); // it is no record, of course
}

const char* const small_model = "model \"m\"\ngiven a = 1 ac\ngiven b = 1\ncost c : $/ac = $1/ac "
                                "over a * b\nprice \"P\" per ac of a\n";

std::string asked(std::vector<std::string> words) {
    const ScratchFolder folder;
    words.insert(words.begin() + 1, folder.write("m.rate", small_model));
    for (std::string& word : words)
        if (const std::size_t at = word.find("@/"); at == 0)
            word = folder.path(word.substr(2));
    return ran(words);
}
std::string up_to(const std::string& given, std::uint64_t places, const std::string& unit) {
    return fmt::format("{}=1{}..{}{} by 1{}", given, unit, places, unit, unit);
}

std::string columns_of(std::uint64_t n) {
    const ScratchFolder folder;
    std::vector<std::string> words{"compare"};
    words.resize(n + 1, folder.write("m.rate", small_model));
    return ran(words);
}
std::string options_side_by_side(std::uint64_t n) { // and the job without one
    const ScratchFolder folder;
    folder.write("models/m.rate", small_model);
    return ran(
        {"compare", folder.write("j.job", "job \"J\"\nmodel \"m\"\n" +
                                              counted("option \"o", "\"\n", n - 1) + "\"\n")});
}
std::string options_of_workbook(std::uint64_t n) {
    const ScratchFolder folder;
    folder.write("models/m.rate", small_model);
    const std::string job = folder.write("j.job", "job \"J\"\nmodel \"m\"\n" +
                                                      counted("option \"o", "\"\n", n) + "\"\n");
    return ran({"workbook", job, "--write", folder.path("j.xlsx")});
}
// The limit comes first: none of these files is there.
std::string page_of(std::uint64_t n) {
    std::vector<std::string> words{"page", "--write", "p.html", "--for-grower"};
    words.resize(n + words.size(), "no.job");
    return ran(words);
}
std::string module_asked(std::uint64_t n) {
    return cli::Session().answer(std::string(n, ' '));
}
// Five jobs of nearly half a million steps each.
std::string side_by_side(std::uint64_t /*n*/) {
    const ScratchFolder folder;
    std::string text = small_model;
    for (int i = 0; i < 450; ++i)
        text += "x" + std::to_string(i) + " : 1 = max(b" + repeated(", 1", 999) + ")\n";
    std::vector<std::string> words{"compare"};
    words.resize(6, folder.write("m.rate", text));
    return ran(words);
}

std::string season_of(std::uint64_t jobs) {
    const ScratchFolder folder;
    for (std::uint64_t i = 0; i < jobs; ++i)
        folder.write(std::to_string(i) + ".job", "");
    return ran({"season", folder.path()});
}
std::string roads_said(const std::string& text) {
    const auto roads = engine::read_roads(text, "roads.csv");
    return roads ? std::string() : roads.said.diagnostics.all().front().title;
}
std::string machines_of(std::uint64_t n) {
    const ScratchFolder folder;
    folder.write("machine.rate", "model \"machine\"\ngiven hours_per_year = 1,000 h/yr\ngiven paid "
                                 "= $1/yr\nfixed_per_year : $/yr = paid\n"
                                 "own_per_hour : $/h = paid / hours_per_year\n"
                                 "fleet costs fixed_per_year over hours_per_year\n");
    std::string text = small_model;
    std::string sum = "$0/h";
    for (std::uint64_t i = 0; i < n; ++i) {
        text += fmt::format("use \"machine\" as m{} with paid = ${}/yr\n", i, i + 2); // alike: one
        sum += fmt::format(" + m{}.own_per_hour", i);
    }
    folder.write("m.rate", text + "cost own : $/h = " + sum + " over 1 h\n");
    folder.write("j.job", "job \"j\"\nmodel \"m\"\ndate 2027-03-14\n");
    return ran({"season", folder.path()});
}

// The same 8 MiB eight times, which is refused before it is read as a map.
std::string boundaries_of(std::uint64_t bytes) {
    const ScratchFolder folder;
    const auto file = [&](const char* name, std::uint64_t size) {
        return folder.write(name, "{}" + std::string(size - 2, ' '));
    };
    const std::uint64_t piece = bytes / 8 - 2;
    std::vector<std::string> words{"field"};
    words.insert(words.end(), 8, file("eighth.geojson", piece));
    words.push_back(file("rest.geojson", bytes - 8 * piece));
    return ran(words);
}

// Jobs that use one season of nothing but errors.
std::string faulty_jobs(std::uint64_t bytes) {
    const ScratchFolder folder;
    const std::uint64_t each = 4'000'000;
    folder.write("m.rate", "model \"m\"\n");
    folder.write("s.season", "season \"s\"\n" +
                                 repeated("#" + std::string(998, 'x') + "\n", each / 1'000) +
                                 "set x = \n");
    for (std::uint64_t i = 0; i <= bytes / each; ++i)
        folder.write(fmt::format("{}.job", i),
                     fmt::format("job \"{}\"\nmodel \"m\"\nseason \"s\"\n", i));
    return ran({"season", folder.path()});
}

// A season and nine models that come to so many bytes when each is read with the season, and one
// model more.
std::string tried_with_models(std::uint64_t bytes) {
    const ScratchFolder folder;
    const auto sized = [](std::string text, std::uint64_t size) {
        while (text.size() + 1'000 < size)
            text += "#" + std::string(998, 'x') + "\n";
        return text + "#" + std::string(size - text.size() - 1, 'x');
    };
    constexpr std::uint64_t season = 4'000'000, models = 9;
    const std::uint64_t all = bytes - models * season, each = all / models;
    for (std::uint64_t i = 0; i < models; ++i)
        folder.write(fmt::format("m{}.rate", i),
                     sized("model \"m\"\n", i == 0 ? all - (models - 1) * each : each));
    folder.write("z.rate", "model \"z\"\n");
    return ran({"check", folder.write("s.season", sized("season \"s\"\n", season))});
}

// Pulls half a meter apart over a field of a kilometer times so many.
std::string pulls(std::uint64_t n) {
    engine::PlaneField field;
    field.middle = {-119.7, 36.6};
    const double width = 0.05 * static_cast<double>(n);
    field.polygons.push_back({{{0, 0}, {width, 0}, {width, 10}, {0, 10}}, {}});
    field.area = engine::plane_area(field.polygons);
    engine::LayoutRequest request;
    request.spacing = 0.05;
    const lang::Outcome<engine::Layout> layout = engine::lay_out(field, request);
    return layout ? "" : layout.said.diagnostics.all().front().title;
}

} // namespace

std::vector<LimitCase> cases_of_files() {
    return {
        {"max_data_bytes", [](auto n) { return read_file(n, cli::max_data_bytes); }},
        {"max_wording_bytes", [](auto n) { return read_file(n, cli::max_wording_bytes); }},
        {"max_boundaries_bytes", boundaries_of},
        {"max_season_faulty_bytes", faulty_jobs, false},
        {"max_season_check_bytes", tried_with_models, false}, // the library is tried as well
        {"max_boundary_vertices", [](auto n) { return boundary(ring(n)); }},
        {"max_boundary_depth", [](auto n) { return boundary(nested(n)); }},
        {"max_pulls", pulls},
        {"max_log_rows", [](auto n) { return log(n, 4); }},
        {"max_posted_rows", posted},
        {"max_log_columns", [](auto n) { return log(1, n); }},
        {"max_page_bytes", page},
        {"max_made_parts", [](auto n) { return worded(repeated("@items\n\n", n)); }},
        {"max_record_depth", nested_record},
        {"max_record_bytes", record_of_bytes},
        {"max_book_records", book_of, false},
        {"max_card_cells",
         [](auto n) {
             return asked(
                 {"rate-card", "--rows", up_to("a", n, " ac"), "--columns", "b=1", "--csv"});
         }},
        {"max_table_cells",
         [](auto n) {
             return asked({"grid", "--along", up_to("a", n, " ac")});
         }},
        {"max_heat_cells",
         [](auto n) {
             return asked({"grid", "--csv", "--along", "b=1", "--along", up_to("a", n, " ac"),
                           "--svg", "@/map.svg"});
         }},
        {"max_columns", columns_of},
        {"max_columns", options_side_by_side},
        {"max_workbook_options", options_of_workbook},
        {"max_page_jobs", page_of},
        {"max_question_bytes", module_asked},
        {"max_side_by_side", side_by_side, false},
        {"max_threads",
         [](auto n) {
             return asked({"risk", "--set", "b=1", "--threads", std::to_string(n)});
         }},
        {"max_words", [](auto n) { return ran(std::vector<std::string>(n, "--version")); }},
        {"max_word_bytes",
         [](auto n) {
             return ran({"--version", std::string(n, 'x')});
         }},
        {"max_season_jobs", season_of, false},
        {"max_season_machines", machines_of},
        {"max_units",
         [](auto n) {
             return ran({"season", ".", "--fleet", "crawler=" + std::to_string(n)});
         }},
        {"max_roads",
         [](auto n) { return roads_said("from,to,site.miles\n" + repeated("a,b,3 mi\n", n)); }},
        {"max_road_givens",
         [](auto n) {
             return roads_said("from,to" + repeated(",g", n) + "\na,b" + repeated(",1", n) + "\n");
         }},
    };
}

TEST_CASE("a record far ahead of the others is told, and not every one between") {
    const ScratchFolder folder;
    folder.write("000001.json", "{}\n");
    folder.write("999999999999.json", "{}\n");
    const auto verified = cli::verify_book({folder.path(), {}, {}});
    REQUIRE(verified.value.has_value());
    CHECK(verified->faults.size() <= engine::max_book_faults + 10);
}

} // namespace acre::tests
