// A book's folder comes from a stranger: nothing outside of it is read, written or waited for.
#include <doctest/doctest.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <string>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/support/plain_book.h"
#include "tests/support/scratch_folder.h"

namespace book_folder_test {

using namespace acre::cli;
using acre::tests::file_text;
using acre::tests::ScratchFolder;
namespace fs = std::filesystem;
using acre::tests::plain_faults;
using acre::tests::plain_quote;

namespace {

Book filled(const ScratchFolder& scratch, int records) {
    Book book(scratch.path("book"));
    REQUIRE(!book.create());
    for (int i = 0; i < records; ++i)
        REQUIRE(book.append(plain_quote));
    return book;
}

std::string first_fault(const Book& book) {
    const auto faults = plain_faults(book);
    return faults.empty() ? "" : faults.front().file + " " + faults.front().what;
}

unsigned mode_of(const std::string& path) {
    struct stat about = {};
    REQUIRE(::lstat(path.c_str(), &about) == 0);
    return about.st_mode & 07777U;
}

struct Umask {
    explicit Umask(mode_t mask) : before(::umask(mask)) {}
    ~Umask() { ::umask(before); }
    mode_t before;
};

} // namespace

TEST_CASE("a head that is a link is replaced, and what it names stays as it was") {
    const ScratchFolder scratch;
    const std::string precious = scratch.write("profile", "precious");
    const Book book = filled(scratch, 1);
    fs::remove(scratch.path("book/head"));
    fs::create_symlink("../profile", scratch.path("book/head"));
    REQUIRE(book.append(plain_quote));
    CHECK(file_text(precious) == "precious");
    CHECK(!fs::is_symlink(scratch.path("book/head")));
    CHECK(first_fault(book) == "");
}

TEST_CASE("a lock that is a link makes no file and is refused") {
    const ScratchFolder scratch;
    const Book book = filled(scratch, 1);
    fs::remove(scratch.path("book/lock"));
    fs::create_symlink("../made", scratch.path("book/lock"));
    CHECK(acre::tests::said_first(book.append(plain_quote)).find("lock: it is a link") !=
          std::string::npos);
    CHECK(!fs::exists(scratch.path("made")));
    CHECK(!fs::exists(scratch.path("book/000002.json")));
}

TEST_CASE("a record that is a link is not read, though what it names is a good record") {
    const ScratchFolder scratch;
    const Book book = filled(scratch, 2);
    fs::rename(scratch.path("book/000002.json"), scratch.path("outside.json"));
    fs::create_symlink("../outside.json", scratch.path("book/000002.json"));
    CHECK(first_fault(book).find("000002.json cannot be read: it is a link") != std::string::npos);
    CHECK(acre::tests::said_first(book.append(plain_quote)).find("it is a link") !=
          std::string::npos);
}

TEST_CASE("pipes in the place of a record, the head or the lock are not waited for") {
    for (const char* name : {"000002.json", "head", "lock"}) {
        const ScratchFolder scratch;
        const Book book = filled(scratch, 2);
        fs::remove(scratch.path("book/" + std::string(name)));
        REQUIRE(::mkfifo(scratch.path("book/" + std::string(name)).c_str(), 0600) == 0);
        ::alarm(20); // a hang ends the test program, which is a failure
        const std::string fault = first_fault(book);
        const auto added = book.append(plain_quote);
        ::alarm(0);
        CHECK_MESSAGE((fault.find("not a regular file") != std::string::npos) !=
                          (std::string(name) == "lock"),
                      name, fault);
        CHECK_MESSAGE(static_cast<bool>(added) == (std::string(name) == "head"), name);
    }
}

TEST_CASE("a lock that is never given back is waited for a while, and then it is said") {
    const ScratchFolder scratch;
    const Book book = filled(scratch, 1);
    const int held = ::open(scratch.path("book/lock").c_str(), O_RDWR | O_CLOEXEC);
    REQUIRE(::flock(held, LOCK_EX) == 0);
    ::alarm(60);
    const auto added = book.append(plain_quote);
    ::alarm(0);
    ::close(held);
    REQUIRE(added);
    CHECK(added->note.find("held the lock") != std::string::npos);
    CHECK(first_fault(book) == "");
    const auto after = book.append(plain_quote);
    REQUIRE(after);
    CHECK(after->note == "");
}

TEST_CASE("records and head are no wider than the mask and their folder") {
    const ScratchFolder scratch;
    {
        const Umask mask(027);
        filled(scratch, 1);
        CHECK(mode_of(scratch.path("book/000001.json")) == 0440);
        CHECK(mode_of(scratch.path("book/head")) == 0640);
    }
    const Umask open(0);
    fs::permissions(scratch.path("book"), fs::perms::owner_all);
    REQUIRE(Book(scratch.path("book")).append(plain_quote));
    CHECK(mode_of(scratch.path("book/000002.json")) == 0400);
    CHECK(mode_of(scratch.path("book/head")) == 0600);
}

TEST_CASE("Ctrl-C while records are written leaves no file under a name of its own") {
    const ScratchFolder scratch;
    const Book book = filled(scratch, 1);
    const auto before = ::signal(SIGINT, SIG_DFL);
    for (int round = 0; round < 60; ++round) {
        const pid_t pid = ::fork();
        REQUIRE(pid >= 0);
        if (pid == 0) {
            for (;;)
                if (!book.append(plain_quote))
                    ::_exit(1);
        }
        ::usleep(static_cast<useconds_t>(300 + round * 67));
        ::kill(pid, SIGINT);
        int status = 0;
        ::waitpid(pid, &status, 0);
        CHECK(WIFSIGNALED(status));
    }
    ::signal(SIGINT, before);
    for (const fs::directory_entry& entry : fs::directory_iterator(scratch.path("book")))
        CHECK_MESSAGE(!entry.path().filename().string().starts_with(".acrewright-"),
                      entry.path().filename().string());
    CHECK(first_fault(book) == "");
}

} // namespace book_folder_test
