#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include <nlohmann/json.hpp>

#include "cli/verify/verify_page.h"
#include "tests/support/scratch_folder.h"

namespace verify_book_test {

using namespace acre;
using namespace acre::cli;

namespace {

Verified verified(const std::string& folder, unsigned threads) {
    VerifyQuestion question;
    question.folder = folder;
    question.threads = threads;
    lang::Outcome<Verified> outcome = verify_book(question);
    REQUIRE(outcome.value.has_value());
    return std::move(*outcome);
}

} // namespace

TEST_CASE("what is said of a book is the same for any number of threads, and in its order") {
    const tests::ScratchFolder room;
    const std::string book = room.path("book");
    std::filesystem::copy(std::string(ACREWRIGHT_ROOT) + "/examples/quote-book", book,
                          std::filesystem::copy_options::recursive);
    // A record cut short, one that is gone, one with another price, a text that was changed.
    const std::string third = tests::file_text(book + "/000003.json");
    const std::string ninth = tests::file_text(book + "/000009.json");
    const std::string price = "\"price\":";
    const std::size_t at = ninth.find(price) + price.size();
    std::filesystem::remove(book + "/000003.json");
    std::filesystem::remove(book + "/000005.json");
    std::filesystem::remove(book + "/000009.json");
    room.write("book/000003.json", third.substr(0, third.size() / 2));
    room.write("book/000009.json", ninth.substr(0, at) + "1" + ninth.substr(at));
    const auto text = std::filesystem::directory_iterator(book + "/texts")->path();
    std::filesystem::remove(text);
    room.write("book/texts/" + text.filename().string(), "another\n");

    const Verified one = verified(book, 1);
    CHECK(one.records == 17);
    CHECK(!one.faults.empty());
    for (std::size_t i = 1; i < one.faults.size(); ++i)
        CHECK(one.faults[i - 1].file <= one.faults[i].file);
    for (const unsigned threads : {2U, 5U}) {
        const Verified many = verified(book, threads);
        CHECK(verify_text(many) == verify_text(one));
        CHECK(verify_json(many)->dump() == verify_json(one)->dump());
    }
}

TEST_CASE("an index that cannot be read is told, and proves nothing against the book") {
    const tests::ScratchFolder room;
    const std::string book = room.path("book");
    std::filesystem::copy(std::string(ACREWRIGHT_ROOT) + "/examples/quote-book", book,
                          std::filesystem::copy_options::recursive);
    std::filesystem::remove(book + "/index");
    CHECK(verified(book, 1).remarks.empty());
    room.write("book/index", "no index\n");
    const Verified is = verified(book, 1);
    CHECK(is.in_order());
    CHECK(is.remarks == std::vector<std::string>{"index is damaged, and is not used"});
}

TEST_CASE("what verify says of a book in words") {
    Verified is;
    is.records = 1;
    is.unknown = 1;
    is.quotes = {
        {"2027-001", "000001.json", Compared::ByProgram, "0.9", "`sqrt`", {"price: 1, 2"}}};
    is.faults = {{"", "no head"}, {"000002.json", "is gone"}};
    is.remarks = {"notes.txt is no file of the book's"};
    is.signers = {{std::string(64, 'a'), "", 1, 0, 3}};
    const std::string text = verify_text(is);
    CHECK(text.starts_with(
        "no head\n"
        "000002.json is gone\n"
        "quote 2027-001 (000001.json) differs by program: written by 0.9; `sqrt`\n"
        "quote 2027-001 (000001.json): price: 1, 2\n"
        "notes.txt is no file of the book's\n"
        "1 record, 2 faults; 1 quote priced again: 0 equal, 1 differ by program, 0 at\n"
        "fault\n"
        "1 record of a kind that this program does not know\n"
        "key aaaaaaaaaaaaaaaa (no name): signed 3 records, admitted by record 1\n"
        "head "));
    is.unknown = 2;
    CHECK(verify_text(is).find("\n2 records of a kind that") != std::string::npos);
    is.unknown = 0;
    CHECK(verify_text(is).find("of a kind") == std::string::npos);
}

} // namespace verify_book_test
