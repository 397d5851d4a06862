// Workbooks recalculated by LibreOffice and Gnumeric say what the engine says: the examples with
// all options and random models, as written and with figures typed over.
#include <doctest/doctest.h>

#include <cstdlib>
#include <set>

#include <fmt/format.h>

#include "cli/shared/job.h"
#include "engine/questions/compare/compare.h"
#include "engine/workbook/changed_givens.h"
#include "tests/property/random_model.h"
#include "tests/support/demo.h"
#include "tests/support/naive_value.h"
#include "tests/support/priced.h"
#include "tests/workbook/book_case.h"

namespace workbook_test {

using namespace acre;
using namespace acre::tests;

namespace {

// ACREWRIGHT_WORKBOOK_MODELS says another number.
int random_models() {
    const char* wanted = std::getenv("ACREWRIGHT_WORKBOOK_MODELS");
    return wanted == nullptr ? 200 : std::atoi(wanted);
}
// In every other one the price has an answer: of those thrown by chance alone one in thirty has.
std::string random_text(int index, std::uint64_t& seed) {
    for (;;) {
        std::string text = RandomModel(Dice(++seed)).priced_text(12);
        const Priced p = priced_ok(text);
        if (index % 2 == 1 || every_charge_answers(p, p.values()))
            return text;
    }
}

bool libreoffice_is_there() {
    const bool there = has_program("soffice");
    if (!there)
        MESSAGE("SKIPPED: LibreOffice is not there; .dev/install --tests installs it");
    return there;
}

std::vector<engine::Job> example(const std::string& path, std::vector<std::string>& titles) {
    cli::JobArguments arguments;
    arguments.path = path;
    std::vector<engine::Job> jobs;
    const lang::Outcome<engine::Job> job = cli::open_job(arguments);
    REQUIRE_MESSAGE(job, path);
    jobs.push_back(*job);
    titles = engine::options_of(**job);
    for (const std::string& title : titles) {
        arguments.option = title;
        const lang::Outcome<engine::Job> option = cli::open_job(arguments);
        REQUIRE_MESSAGE(option, path << " " << title);
        jobs.push_back(*option);
    }
    return jobs;
}

std::vector<BookCase> examples() {
    std::vector<BookCase> books;
    for (const auto& path : demo_files("examples", ".job")) {
        std::vector<std::string> titles;
        std::vector<engine::Job> jobs = example(path.string(), titles);
        books.push_back(
            book_case("e" + path.stem().string().substr(0, 2), std::move(jobs), titles));
    }
    return books;
}

void judge_all(const std::vector<BookCase>& books, const std::map<std::string, BookCells>& cells,
               Judged& count) {
    for (const BookCase& book : books) {
        const auto found = cells.find(book.name);
        REQUIRE_MESSAGE(found != cells.end(), book.name);
        for (const std::string& fault : BookJudge(book, found->second).judge(count))
            FAIL_CHECK(fault);
    }
}

std::vector<BookCase> examples_changed() {
    std::vector<BookCase> books = examples();
    Dice dice(22);
    const std::size_t count = books.size();
    for (std::size_t i = 0; i < count; ++i)
        books.push_back(changed(books[i], books[i].name + "c", 1 + dice.below(10), dice));
    return books;
}

std::string set_text(const engine::PricedJob& job, const std::string& given, double value) {
    const lang::Line& line = job.sheet().lines[job.sheet().find(given)];
    if (line.type.kind == lang::Type::Kind::Choice)
        return job.sheet().choices[line.type.choice].options[static_cast<std::size_t>(value)];
    return fmt::format("{}{}", value, line.unit_text == "1" ? "" : " " + line.unit_text);
}

// Lines of which the plainest reader cannot be sure: a decision hangs on the last digits, or a
// difference of like numbers leaves few of them.
std::set<std::string> unsure_lines(const engine::PricedJob& job) {
    std::set<std::string> unsure;
    NaiveValue naive(job.sheet());
    for (lang::LineId id = 0; id < job.sheet().lines.size(); ++id) {
        const Naive is = naive.line(id);
        // Spreadsheets take a difference of a few parts in 1e15 for none.
        if (!is.sure || 100 * is.error > 1e-9 * std::fmax(1, std::fabs(is.value)))
            unsure.insert(job.sheet().lines[id].name);
    }
    return unsure;
}

} // namespace

TEST_CASE("random models, as written and changed, by LibreOffice") {
    if (!libreoffice_is_there())
        return;
    const ScratchFolder folder;
    std::vector<BookCase> books;
    std::vector<std::set<std::string>> skip;
    std::uint64_t seed = 0;
    for (int index = 0; index < random_models(); ++index) {
        const std::string text = random_text(index, seed);
        const Priced p = priced_ok(text);
        Dice dice(seed + 7'000);
        books.push_back(book_case("r" + std::to_string(seed), {*p.made}));
        skip.push_back(unsure_lines(p));
        books.push_back(changed(books.back(), books.back().name + "c", 1 + dice.below(10), dice));
        Choices choices;
        for (const auto& [given, value] : books.back().typed[0])
            choices.sets.emplace_back(given, set_text(p, given, value));
        skip.push_back(unsure_lines(priced_ok(text, choices)));
    }
    for (const BookCase& book : books)
        book.save(folder.path());
    const auto cells = by_libreoffice(folder.path());
    Judged count;
    std::size_t skipped = 0;
    for (std::size_t i = 0; i < books.size(); ++i) {
        REQUIRE(cells.contains(books[i].name));
        skipped += skip[i].size();
        for (const std::string& fault :
             BookJudge(books[i], cells.at(books[i].name)).judge(count, skip[i]))
            FAIL_CHECK(fault);
    }
    MESSAGE(books.size() << " workbooks of random models: " << count.lines << " lines, "
                         << count.no_answer << " without an answer, " << skipped
                         << " of which nothing can be said, " << count.prices << " prices");
    CHECK(count.lines > 20 * books.size());
    CHECK(count.no_answer > books.size() / 4);
    CHECK(count.prices > books.size() / 5);
    CHECK(skipped < count.lines / 5);
}

TEST_CASE("examples with all options, as written and changed, by LibreOffice") {
    if (!libreoffice_is_there())
        return;
    const ScratchFolder folder;
    const std::vector<BookCase> books = examples_changed();
    for (const BookCase& book : books)
        book.save(folder.path());
    Judged count;
    judge_all(books, by_libreoffice(folder.path()), count);
    MESSAGE(count.lines << " lines, " << count.stale << " of them stale, " << count.prices
                        << " prices, " << count.failing << " with a condition not met");
    CHECK(count.lines > 10'000);
    CHECK(count.stale > 0);
}

TEST_CASE("examples with figures typed over, by Gnumeric") {
    if (!has_program("ssconvert")) {
        MESSAGE("SKIPPED: Gnumeric is not there; .dev/install --tests installs it");
        return;
    }
    const ScratchFolder folder;
    std::vector<BookCase> books = examples_changed();
    books.erase(books.begin(), books.begin() + static_cast<std::ptrdiff_t>(books.size() / 2));
    for (const BookCase& book : books)
        book.save(folder.path());
    Judged count;
    judge_all(books, by_gnumeric(folder.path()), count);
    CHECK(count.lines > 5'000);
}

TEST_CASE("names that a spreadsheet takes for something else, signs and powers") {
    const Priced p = priced_ok(R"(model "Odd"
choice Kind = Fine | fine | mar_1
given tip1 = 3 ft  "a cell to a spreadsheet"
given c = 2  "a column"
given r = 4  "a row"
given r1c1 = 5  "a cell by numbers"
given Area = 6 ac
given area = 7 ac
given log10 = 8
given true = 9
given kind : Kind = fine
signs : 1 = -c ^ 2 - (r - (r1c1 - c)) / -r + 2 ^ -c  may be negative
sizes : ac = Area - area * 2 + 3 * Area ^ 1  may be negative
steps : 1 = ceil(c / 3 * 3) + floor(-r1c1 / 2) + round(r1c1 / 2) - round(-r1c1 / 2)  may be negative
bound : 1 = when kind is fine then log10 / true when kind is Fine then 1 otherwise 2
root : 1 = (0 - 8 * c / 2) ^ (1 / 3)  may be negative
nothing : 1 = (c - 2) ^ (r - 4)
upright : 1 = tan(90 deg * c / 2)
late : 1 = when c > 3 and 1 / (c - 2) > 0 then 1 otherwise 2
)");
    const BookCase book = book_case("odd", {*p.made});
    std::set<std::string> names;
    for (const auto& [name, cell] : book.book.names)
        names.insert(name);
    for (const char* name : {"tip1_", "c_", "r_", "r1c1_", "Area", "area_2", "log10_", "true_"})
        CHECK_MESSAGE(names.contains(name), name);
    if (!libreoffice_is_there())
        return;
    const ScratchFolder folder;
    book.save(folder.path());
    // -4 - (4 - 3) / -4 + 1/4, by hand.
    CHECK(p.value("signs") == doctest::Approx(-3.5));
    Judged count;
    judge_all({book}, by_libreoffice(folder.path()), count);
    CHECK(count.no_answer == 2);
}

TEST_CASE("a condition that only an option rests on has its row, and stands in that column alone") {
    const std::string model =
        "model \"m\"\ngiven hours = 4 h\ngiven days = 2 day  within 1 day .. 9 day\n"
        "given spare = 3 ac  within 1 ac .. 5 ac\n"
        "cost driver : $/h = $50/h over hours\nprice \"Work\" lump\n";
    const Priced p = priced_ok(model);
    const Priced other = priced_ok("model \"m\"\ngiven hours : h = days * 8 h/day\n" +
                                   model.substr(model.find("given days")));
    const BookCase book = book_case("o", {*p.made, *other.made}, {"By days"});
    const auto is_row = [&](const engine::BookSheet& sheet, const std::string& begin) {
        std::vector<std::uint32_t> rows;
        for (const engine::BookCell& cell : sheet.cells)
            if (cell.column == 1 && cell.text.starts_with(begin))
                rows.push_back(cell.row);
        return rows;
    };
    engine::Workbook made = book.book;
    const engine::BookSheet& sheet = sheet_named(made, "Conditions");
    const std::vector<std::uint32_t> rows = is_row(sheet, "days within");
    REQUIRE(rows.size() == 1);
    CHECK(is_row(sheet, "spare within").empty()); // no price rests on it
    std::set<std::uint32_t> columns;
    for (const engine::BookCell& cell : sheet.cells)
        if (cell.row == rows[0] && cell.kind == engine::CellKind::Formula)
            columns.insert(cell.column);
    CHECK(columns == std::set<std::uint32_t>{3});
}

TEST_CASE("a stranger's words stay words") {
    const std::vector<std::string> words = {
        "=1+1",    "+1+1",  "-1+1", "@SUM(1,1)", "=HYPERLINK('http://x','y')",
        "_x0041_", "'=1+1", "&D &A"};
    std::string model = "model \"=2+2\"\n";
    for (std::size_t i = 0; i < words.size(); ++i)
        model += fmt::format("part \"{0}\"\n  given g{1} = {1} ft  \"{0}\"  because \"{0}\"\n",
                             words[i], i + 1);
    const Priced p = priced_ok(model);
    const BookCase book = book_case("words", {*p.made});
    for (const engine::BookSheet& sheet : book.book.sheets)
        for (const engine::BookCell& cell : sheet.cells)
            for (const std::string& word : words)
                CHECK_FALSE((cell.kind == engine::CellKind::Formula &&
                             cell.text.find(word) != std::string::npos && word.size() > 4));
    if (!libreoffice_is_there())
        return;
    const ScratchFolder folder;
    book.save(folder.path());
    const auto cells = by_libreoffice(folder.path()).at("words");
    for (std::size_t i = 0; i < words.size(); ++i)
        for (const std::size_t column : {std::size_t{1}, std::size_t{7}, std::size_t{10}})
            CHECK(cells.at("Lines").text(4 + i, column) == words[i]);
}

TEST_CASE("what was changed comes back as lines, and a new workbook has nothing stale") {
    if (!libreoffice_is_there())
        return;
    const ScratchFolder folder;
    const std::string path = std::string(ACREWRIGHT_ROOT) + "/examples/01-first-price.job";
    std::vector<std::string> titles;
    Dice dice(5);
    const BookCase book = changed(book_case("a", example(path, titles)), "b", 10, dice);
    book.save(folder.path());
    by_libreoffice(folder.path(), true); // as somebody saves it
    const auto changes = engine::changed_givens(*book.jobs[0], {}, "b.csv",
                                                file_text(folder.path("csv/b-Givens.csv")));
    REQUIRE(changes);
    cli::JobArguments arguments;
    arguments.path = path;
    std::size_t moved = 0;
    for (const auto& [given, value] : book.typed[0])
        moved += value == book.jobs[0]->value(book.jobs[0]->sheet().find(given)) ? 0 : 1;
    CHECK(changes->size() == moved);
    for (const engine::ChangedGiven& change : *changes)
        arguments.sets.push_back(change.name + "=" + change.value);
    const lang::Outcome<engine::Job> again = cli::open_job(arguments);
    REQUIRE(again);
    const Expected expect = expected(*book.jobs[0], book.typed[0]);
    for (lang::LineId id = 0; id < (*again)->sheet().lines.size(); ++id)
        if ((*again)->sheet().lines[id].given != lang::none &&
            book.typed[0].contains((*again)->sheet().lines[id].name))
            CHECK((*again)->value(id) ==
                  doctest::Approx(expect.values.slot[book.jobs[0]->plan().line_slot[id]])
                      .epsilon(1e-9));
    const ScratchFolder second;
    const BookCase renewed = book_case("n", {*again});
    renewed.save(second.path());
    Judged count;
    judge_all({renewed}, by_libreoffice(second.path()), count);
    CHECK(count.stale == 0);
}

TEST_CASE("at least half of the changes leave no line stale") {
    std::size_t harmless = 0;
    std::size_t all = 0;
    for (const BookCase& book : examples()) {
        Dice dice(3);
        const engine::PricedJob& job = *book.jobs[0];
        for (const engine::Input& input : job.plan().inputs) {
            if (input.is_share)
                continue;
            const double other =
                input.is_choice ? (input.value == 0 ? 1 : 0) : input.value * 1.07 + 0.01;
            const Expected expect = expected(job, {{job.sheet().lines[input.line].name, other}});
            const bool stale = std::any_of(
                job.plan().line_slot.begin(), job.plan().line_slot.end(), [&](engine::Slot slot) {
                    return slot != engine::no_slot && expect.stale[slot] != 0;
                });
            harmless += stale ? 0 : 1;
            ++all;
        }
    }
    MESSAGE(harmless << " of " << all << " changes of one given leave no line stale");
    CHECK(2 * harmless >= all);
}

} // namespace workbook_test
