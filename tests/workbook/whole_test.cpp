// A workbook is whole or it is refused: its library does not look whether its temporary files had
// room.
#include <doctest/doctest.h>

#include <csignal>

#include <sys/resource.h>

#include "cli/shared/job.h"
#include "cli/workbook/whole.h"
#include "cli/workbook/xlsx_parts.h"
#include "tests/workbook/book_case.h"

namespace whole_test {

using namespace acre;
using namespace acre::tests;

namespace {

engine::Workbook first_book() {
    cli::JobArguments arguments;
    arguments.path = std::string(ACREWRIGHT_ROOT) + "/examples/01-first-price.job";
    const lang::Outcome<engine::Job> job = cli::open_job(arguments);
    REQUIRE(job);
    return book_case("w", {*job}).book;
}

// While it lives no file grows beyond so many bytes, as on a disk that is full.
class SmallFiles {
  public:
    explicit SmallFiles(rlim_t bytes) : was_(std::signal(SIGXFSZ, SIG_IGN)) {
        REQUIRE(::getrlimit(RLIMIT_FSIZE, &before_) == 0);
        const rlimit small{bytes, before_.rlim_max};
        REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
    }
    ~SmallFiles() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, was_);
    }

  private:
    void (*was_)(int);
    rlimit before_{};
};

} // namespace

TEST_CASE("a workbook that was written is whole, and one cell less or one byte less is told") {
    engine::Workbook book = first_book();
    const lang::Outcome<std::string> bytes = cli::xlsx_of(book);
    REQUIRE(bytes);
    CHECK(cli::is_whole(*bytes, book));
    const auto parts = cli::parts_of_zip(*bytes);
    REQUIRE(parts);
    CHECK(parts->size() > book.sheets.size());
    for (const std::size_t size :
         {std::size_t{0}, std::size_t{21}, bytes->size() / 2, bytes->size() - 1})
        CHECK_FALSE(cli::is_whole(bytes->substr(0, size), book));
    std::string damaged = *bytes;
    damaged[damaged.size() / 2] = static_cast<char>(damaged[damaged.size() / 2] ^ 0x55);
    CHECK_FALSE(cli::is_whole(damaged, book));
    engine::BookSheet& lines = sheet_named(book, "Lines");
    lines.cells.push_back(lines.cells.front());
    lines.cells.back().row = 4'000;
    CHECK_FALSE(cli::is_whole(*bytes, book));
}

TEST_CASE("without room for temporary files there is no workbook, and it says so") {
    const engine::Workbook book = first_book();
    const lang::Outcome<std::string> whole = cli::xlsx_of(book);
    REQUIRE(whole);
    // Larger than the workbook, which is packed, and smaller than its largest sheet, which is not.
    for (const rlim_t most : {rlim_t{1'000}, rlim_t{20'000}, rlim_t{whole->size() + 4'096}}) {
        const SmallFiles small(most);
        const lang::Outcome<std::string> bytes = cli::xlsx_of(book);
        REQUIRE_FALSE(bytes);
        CHECK(bytes.said.diagnostics.all().front().title == "the workbook cannot be made");
    }
    const lang::Outcome<std::string> again = cli::xlsx_of(book);
    REQUIRE(again);
    CHECK(*again == *whole);
}

} // namespace whole_test
