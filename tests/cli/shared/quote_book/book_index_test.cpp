// What stands beside the records of a book: the index, which is built again whenever it is not of
// these records, and the texts.
#include "cli/shared/quote_book/book.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/book/seal.h"
#include "tests/support/plain_book.h"

namespace book_index_test {

using namespace acre::cli;
using acre::tests::add_plain;
using acre::tests::BookFolder;
using acre::tests::file_text;
using acre::tests::files_at_fault;
using acre::tests::filled;
using acre::tests::overwrite;
using acre::tests::plain_faults;
using acre::tests::plain_quote;
namespace fs = std::filesystem;

using Files = std::vector<std::string>;

TEST_CASE("the index is built again whenever it is not of these records") {
    const BookFolder folder;
    const Book book = filled(folder, 70);
    const std::string path = folder.book() + "/index";
    const auto records = [&] {
        const auto state = book.state();
        REQUIRE(state.value.has_value());
        CHECK(state->lives.all().size() == 70);
        return state->records;
    };
    const std::string index = file_text(path);
    REQUIRE(index.starts_with("acrewright.index/1 64 "));
    CHECK(records() == 70);
    for (const std::string& bad : {std::string(), index.substr(0, index.size() / 2),
                                   std::string(300, 'x'), index + "{}\n"}) {
        std::ofstream(path, std::ios::binary | std::ios::trunc) << bad;
        CHECK(records() == 70);
        CHECK(file_text(path).starts_with("acrewright.index/1 70 ")); // built again
    }
    // with a line that is no event, or that of another record
    const std::size_t one = index.find('\n') + 1, two = index.find('\n', one) + 1,
                      three = index.find('\n', two) + 1;
    for (const std::string& line : {std::string("{}\n"), index.substr(one, two - one)}) {
        const std::string lines = index.substr(one, two - one) + line + index.substr(three);
        overwrite(path,
                  index.substr(0, 22 + 64) + " " + acre::engine::sha256(lines) + "\n" + lines);
        CHECK(records() == 70);
        CHECK(file_text(path).starts_with("acrewright.index/1 70 ")); // built again
    }
    // of another book
    const BookFolder other;
    filled(other, 70);
    fs::copy_file(other.book() + "/index", path, fs::copy_options::overwrite_existing);
    std::string lie = file_text(path);
    const std::size_t end = lie.find('\n');
    std::string lines = lie.substr(end + 1);
    lines.replace(lines.find("Plain"), 5, "Fancy");
    lie = "acrewright.index/1 64 " + lie.substr(22, 64) + " " + acre::engine::sha256(lines) + "\n" +
          lines;
    std::ofstream(path, std::ios::binary | std::ios::trunc) << lie;
    const Files files = files_at_fault(book);
    CHECK(files == Files{"index"});
    fs::remove(path);
    CHECK(records() == 70);
    CHECK(plain_faults(book).empty());
}

TEST_CASE("asked about one quote, a book says of it what it says when all of it is read") {
    const BookFolder folder;
    const Book book = filled(folder, 40);
    const auto mark = [&](const std::string& number, const std::string& state, const About* about) {
        const auto added = book.append(
            [&](const BookState& now) -> acre::lang::Outcome<Book::Coming> {
                const auto life = acre::engine::find_quote(now.lives, number);
                if (!life)
                    return life.said;
                Book::Coming coming;
                coming.record.counter = now.lives.newest()->counter;
                acre::engine::WordRecord word;
                word.quote = number;
                word.state = state;
                word.date = "2027-04-01";
                coming.record.body = std::move(word);
                return coming;
            },
            {}, about);
        return added ? std::string() : added.said.diagnostics.all().front().title;
    };
    const About third{{"2027-003"}, {}};
    CHECK(mark("2027-003", "accepted", &third).empty());
    for (int i = 0; i < 40; ++i) // past the next index
        REQUIRE(add_plain(book));
    const auto all = book.state();
    const auto some = book.state(&third);
    REQUIRE((all.value.has_value() && some.value.has_value()));
    CHECK(some->records == 81);
    CHECK(some->seal == all->seal);
    CHECK(some->lives.events().size() < 20);
    CHECK(some->lives.newest()->counter == all->lives.newest()->counter);
    const acre::engine::Life* life = some->lives.find("2027-003");
    REQUIRE(life != nullptr);
    CHECK(some->lives.standing(*life, acre::engine::no_day).state == "accepted");
    CHECK(some->lives.find("2027-004") == nullptr);
    // A rule is kept as well as when all is read.
    CHECK(mark("2027-003", "lapsed", &third) == mark("2027-003", "lapsed", nullptr));
    CHECK(mark("2027-003", "lapsed", &third) ==
          "quote 2027-003 is accepted; it cannot become lapsed");
    const About none{{"2027-999"}, {}};
    CHECK(mark("2027-999", "accepted", &none) == mark("2027-999", "accepted", nullptr));
    // A number that the index knows is not given again, whatever the newest record counts.
    const About year{{}, {}, "2027"};
    CHECK(book.append(plain_quote, {}, &year).value.has_value());
    CHECK(book.state()->lives.find("2027-081") != nullptr);
    CHECK(plain_faults(book).empty());
}

TEST_CASE("a text is kept once, under its seal, and stands before the record that names it") {
    const BookFolder folder;
    const Book book(folder.book());
    REQUIRE(!book.create());
    const auto with_text = [&](const BookState& state) -> acre::lang::Outcome<Book::Coming> {
        acre::lang::Outcome<Book::Coming> coming = plain_quote(state);
        auto& quote = std::get<acre::engine::QuoteRecord>(coming->record.body);
        quote.texts["a.job"] = acre::engine::carry(quote, "job \"a\"\n");
        return coming;
    };
    REQUIRE(book.append(with_text));
    REQUIRE(book.append(with_text));
    CHECK(plain_faults(book).empty());
    const std::string seal = acre::engine::sha256("job \"a\"\n");
    const std::string path = folder.book() + "/texts/" + seal;
    CHECK(file_text(path) == "job \"a\"\n");
    CHECK(std::distance(fs::directory_iterator(folder.book() + "/texts"), {}) == 1);
    overwrite(path, "job \"b\"\n");
    CHECK(files_at_fault(book) == Files{"000001.json", "000002.json"});
    CHECK(!book.append(with_text)); // and nothing is added over it
    fs::remove(path);
    CHECK(files_at_fault(book) == Files{"000001.json", "000002.json"});
}

} // namespace book_index_test
