#include "cli/shared/quote_book/book.h"

#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <doctest/doctest.h>

#include "engine/book/seal.h"
#include "tests/support/plain_book.h"

namespace book_test {

using namespace acre::cli;
using acre::engine::BookFault;
using acre::engine::Record;
using acre::tests::add_plain;
using acre::tests::BookFolder;
using acre::tests::file_text;
using acre::tests::files_at_fault;
using acre::tests::filled;
using acre::tests::overwrite;
using acre::tests::plain_faults;
using acre::tests::plain_quote;
using acre::tests::plain_records;
namespace fs = std::filesystem;

namespace {

std::string why_not(const Book& book) {
    return acre::tests::said_first(book.append(plain_quote));
}

// Of the processor, for a process of its own that adds one record.
std::int64_t nanoseconds_of_a_child(const Book& book) {
    const pid_t pid = ::fork();
    REQUIRE(pid >= 0);
    if (pid == 0)
        ::_exit(add_plain(book) ? 0 : 1);
    int status = 0;
    rusage used{};
    ::wait4(pid, &status, 0, &used);
    REQUIRE(status == 0);
    const auto nanoseconds = [](const timeval& time) {
        return time.tv_sec * std::int64_t{1'000'000'000} + time.tv_usec * std::int64_t{1'000};
    };
    return nanoseconds(used.ru_utime) + nanoseconds(used.ru_stime);
}

using Files = std::vector<std::string>;

std::int64_t nanoseconds_of(clockid_t clock) {
    timespec used{};
    ::clock_gettime(clock, &used);
    return used.tv_sec * 1'000'000'000 + used.tv_nsec;
}

} // namespace

TEST_CASE("records follow one another and verify") {
    const BookFolder folder;
    const Book book = filled(folder, 12);
    const std::vector<Record> records = plain_records(book);
    REQUIRE(records.size() == 12);
    for (std::size_t i = 0; i < records.size(); ++i) {
        CHECK(records[i].quote()->number ==
              "2027-0" + std::string(i < 9 ? "0" : "") + std::to_string(i + 1));
        CHECK(records[i].previous == (i == 0 ? "" : records[i - 1].seal));
    }
    CHECK(plain_faults(book).empty());
}

TEST_CASE("a record changed, removed, swapped or cut short is named") {
    SUBCASE("one bit, anywhere") {
        const BookFolder folder;
        const Book book = filled(folder, 5);
        const std::string path = folder.book() + "/000003.json";
        const std::string whole = file_text(path);
        for (std::size_t byte = 0; byte < whole.size(); ++byte) {
            std::string changed = whole;
            changed[byte] = static_cast<char>(changed[byte] ^ (1 << (byte % 8)));
            overwrite(path, changed);
            const Files files = files_at_fault(book);
            REQUIRE(!files.empty());
            CHECK(files[0] == "000003.json");
        }
        overwrite(path, whole);
        CHECK(plain_faults(book).empty());
    }
    SUBCASE("removed: in the middle and at the end") {
        const BookFolder folder;
        const Book book = filled(folder, 5);
        fs::remove(folder.book() + "/000002.json");
        CHECK(files_at_fault(book) == Files{"000002.json"});
        fs::remove(folder.book() + "/000005.json");
        CHECK(files_at_fault(book) == Files{"000002.json", "000005.json"});
    }
    SUBCASE("swapped") {
        const BookFolder folder;
        const Book book = filled(folder, 5);
        const std::string two = folder.book() + "/000002.json";
        const std::string four = folder.book() + "/000004.json";
        fs::rename(two, two + "x");
        fs::rename(four, two);
        fs::rename(two + "x", four);
        const Files files = files_at_fault(book);
        CHECK(std::set<std::string>(files.begin(), files.end()).count("000002.json") == 1);
        CHECK(std::set<std::string>(files.begin(), files.end()).count("000004.json") == 1);
    }
    SUBCASE("cut short") {
        const BookFolder folder;
        const Book book = filled(folder, 3);
        const std::string path = folder.book() + "/000002.json";
        const std::string whole = file_text(path);
        for (const std::size_t size :
             {std::size_t{0}, std::size_t{1}, whole.size() / 2, whole.size() - 1}) {
            overwrite(path, whole.substr(0, size));
            CHECK(files_at_fault(book) == Files{"000002.json"});
        }
    }
    SUBCASE("written anew with a seal of its own") {
        const BookFolder folder;
        const Book book = filled(folder, 3);
        const std::string path = folder.book() + "/000002.json";
        Record record = acre::engine::read_record(file_text(path)).record;
        std::get<acre::engine::QuoteRecord>(record.body).by = "another";
        overwrite(path, acre::engine::seal_record(record, record.index, record.previous, ""));
        CHECK(files_at_fault(book) == Files{"000003.json"});
    }
    SUBCASE("the newest written anew with a seal of its own") {
        const BookFolder folder;
        const Book book = filled(folder, 3);
        const std::string path = folder.book() + "/000003.json";
        Record record = acre::engine::read_record(file_text(path)).record;
        std::get<acre::engine::QuoteRecord>(record.body).by = "another";
        overwrite(path, acre::engine::seal_record(record, record.index, record.previous, ""));
        CHECK(files_at_fault(book) == Files{"000003.json"});
    }
}

TEST_CASE("a signed book takes only records that its keys sign") {
    const BookFolder folder;
    const Book book = filled(folder, 1);
    const acre::engine::KeyPair keys = acre::engine::new_key_pair();
    CHECK(!add_plain(book, keys.secret)); // no key was admitted
    const auto first = [&](const BookState& state) -> acre::lang::Outcome<Book::Coming> {
        Book::Coming coming;
        coming.record.counter = state.lives.newest()->counter;
        coming.record.body = acre::engine::KeyRecord{"admit", keys.open, "Ruth", "2027-03-01"};
        return coming;
    };
    REQUIRE(book.append(first, keys.secret));
    CHECK(why_not(book) == "the new record is not signed, and every record since the first key is");
    CHECK(!add_plain(book, acre::engine::new_key_pair().secret));
    REQUIRE(add_plain(book, keys.secret));
    CHECK(plain_faults(book).empty());
    const std::string path = folder.book() + "/000003.json";
    const std::string whole = file_text(path);
    CHECK(acre::engine::read_record(whole).record.signer == keys.open);
    std::string foreign = whole;
    const std::string seal = acre::engine::read_record(whole).record.seal;
    const std::string ours = *acre::engine::sign(seal, keys.secret);
    foreign.replace(foreign.find(ours), ours.size(),
                    *acre::engine::sign(seal, acre::engine::new_key_pair().secret));
    overwrite(path, foreign);
    CHECK(files_at_fault(book) == Files{"000003.json"});
}

TEST_CASE("nothing is added after a record that was changed") {
    const BookFolder folder;
    const Book book = filled(folder, 2);
    const std::string path = folder.book() + "/000002.json";
    std::string text = file_text(path);
    text[text.find("\"Plain\"") + 1] = 'p';
    overwrite(path, text);
    CHECK(why_not(book).find("000002.json") == 0);
    CHECK(!fs::exists(folder.book() + "/000003.json"));
}

TEST_CASE("eight processes adding forty each never give one number twice") {
    const BookFolder folder;
    const Book book(folder.book());
    REQUIRE(!book.create());
    std::vector<pid_t> children;
    for (int child = 0; child < 8; ++child) {
        const pid_t pid = ::fork();
        REQUIRE(pid >= 0);
        if (pid == 0) {
            int failures = 0;
            for (int i = 0; i < 40; ++i)
                failures += add_plain(book) ? 0 : 1;
            ::_exit(failures == 0 ? 0 : 1);
        }
        children.push_back(pid);
    }
    for (const pid_t pid : children) {
        int status = 0;
        ::waitpid(pid, &status, 0);
        CHECK(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 0);
    }
    const std::vector<Record> records = plain_records(book);
    CHECK(records.size() == 320);
    std::set<std::string> numbers;
    for (const Record& record : records)
        numbers.insert(record.quote()->number);
    CHECK(numbers.size() == 320);
    CHECK(numbers.contains("2027-320"));
    CHECK(plain_faults(book).empty());
}

TEST_CASE("killed at any moment, the book is whole and goes on") {
    const BookFolder folder;
    const Book book = filled(folder, 1);
    const std::int64_t of_one = nanoseconds_of_a_child(book);
    std::mt19937_64 random(11);
    std::size_t before = 2;
    for (int round = 0; round < 150; ++round) {
        const pid_t pid = ::fork();
        REQUIRE(pid >= 0);
        if (pid == 0) {
            for (;;)
                if (!add_plain(book))
                    ::_exit(1);
        }
        // After so much of its own processor time: on a busy machine it may not run for long.
        const auto until =
            static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(3 * of_one));
        clockid_t clock{};
        REQUIRE(::clock_getcpuclockid(pid, &clock) == 0);
        int status = 0;
        while (nanoseconds_of(clock) < until && ::waitpid(pid, &status, WNOHANG) == 0)
            ::usleep(20);
        ::kill(pid, SIGKILL);
        ::waitpid(pid, &status, 0);
        CHECK(WIFSIGNALED(status));
        const auto records = book.indices();
        REQUIRE(records.value.has_value());
        if (round % 10 == 0)
            for (const BookFault& fault : plain_faults(book))
                FAIL_CHECK(fault.file << " " << fault.what);
        const std::size_t now = records->size();
        CHECK(now >= before);
        before = now;
    }
    CHECK(before > 20);
    CHECK(plain_faults(book).empty());
}

TEST_CASE("a full disk or a folder that cannot be written adds nothing and says why") {
    const BookFolder folder;
    const Book book = filled(folder, 2);
    SUBCASE("a file may not grow: as on a full disk") {
        const pid_t pid = ::fork();
        REQUIRE(pid >= 0);
        if (pid == 0) {
            ::signal(SIGXFSZ, SIG_IGN);
            const rlimit limit{64, 64};
            ::setrlimit(RLIMIT_FSIZE, &limit);
            ::_exit(why_not(book).empty() ? 1 : 0);
        }
        int status = 0;
        ::waitpid(pid, &status, 0);
        CHECK(WEXITSTATUS(status) == 0);
    }
    SUBCASE("the folder is gone") {
        fs::rename(folder.book(), folder.book() + "-away");
        CHECK(!why_not(book).empty());
        fs::rename(folder.book() + "-away", folder.book());
    }
    CHECK(plain_faults(book).empty());
    CHECK(!fs::exists(folder.book() + "/000003.json"));
    for (const fs::directory_entry& entry : fs::directory_iterator(folder.book()))
        CHECK(entry.path().filename().string().rfind(".new-", 0) != 0);
}

TEST_CASE("names that are not records are told and left alone") {
    const BookFolder folder;
    const Book book = filled(folder, 2);
    for (const char* name : {"notes.txt", "3.json", "000003.json.bak", "0000004.json", ".new-abc"})
        std::ofstream(folder.book() + "/" + name) << "x";
    CHECK(plain_faults(book).empty());
    CHECK(book.strays() ==
          Files{".new-abc", "0000004.json", "000003.json.bak", "3.json", "notes.txt"});
    const acre::lang::Outcome<Added> added = book.append(plain_quote);
    REQUIRE(added.value.has_value());
    CHECK(!added->fleeting);
    CHECK(added->file == "000003.json");
}

TEST_CASE("what a record's maker refuses is given back, and nothing is added") {
    const BookFolder folder;
    const Book book = filled(folder, 1);
    const acre::lang::Outcome<Added> added =
        book.append([](const BookState&) -> acre::lang::Outcome<Book::Coming> {
            return acre::lang::placeless(acre::lang::Code::R005, "no");
        });
    REQUIRE(!added);
    CHECK(acre::lang::name_of(added.said.diagnostics.all()[0].code) == "R005");
    CHECK(plain_records(book).size() == 1);
}

TEST_CASE(
    "what a crash left of the head is mended before anything else, and none is made of nothing") {
    const auto refuse = [](const BookState&) -> acre::lang::Outcome<Book::Coming> {
        return acre::lang::placeless(acre::lang::Code::R005, "no");
    };
    const BookFolder folder;
    const Book book(folder.book());
    REQUIRE(!book.create());
    CHECK(!book.append(refuse));
    CHECK(!fs::exists(folder.book() + "/head"));
    REQUIRE(add_plain(book));
    const std::string one_behind = file_text(folder.book() + "/head");
    REQUIRE(add_plain(book));
    const std::string head = file_text(folder.book() + "/head");
    CHECK(head.starts_with("2 "));
    for (const std::string& left : {one_behind, std::string("nonsense")}) {
        overwrite(folder.book() + "/head", left);
        CHECK(!book.append(refuse));
        CHECK(file_text(folder.book() + "/head") == head);
    }
    std::string bytes = "what was read before";
    CHECK(book.read("head", bytes).empty());
    CHECK(bytes == head);
}

} // namespace book_test
