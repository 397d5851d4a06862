#include "cli/shared/quote_book/book.h"

#include <csignal>
#include <cstdlib>
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
#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"
#include "engine/book/seal.h"
#include "engine/book/sealed.h"

namespace book_test {

using namespace acre::cli;
using acre::engine::BookFault;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

class Folder {
  public:
    Folder() {
        std::string name = (fs::temp_directory_path() / "book-XXXXXX").string();
        REQUIRE(::mkdtemp(name.data()) != nullptr);
        path_ = name;
    }
    ~Folder() {
        std::error_code ignored;
        fs::permissions(path_, fs::perms::owner_all, ignored);
        fs::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string book() const { return path_ + "/book"; }

  private:
    std::string path_;
};

// As quotes are numbered: from the newest record.
acre::lang::Outcome<Json> next_quote(const Json* newest) {
    return Json{{"serial", newest == nullptr ? 1 : (*newest)["serial"].get<int>() + 1}};
}

// It is in the book and on the disk.
bool add_one(const Book& book, std::string_view key = {}) {
    const acre::lang::Outcome<Added> added = book.append(next_quote, key);
    return added && !added->fleeting;
}
std::string why_not(const Book& book) {
    const acre::lang::Outcome<Added> added = book.append(next_quote);
    return added ? "" : added.said.diagnostics.all().front().title;
}
std::vector<BookFault> faults_of(const Book& book) {
    acre::lang::Outcome<std::vector<BookFault>> faults = book.verify();
    REQUIRE(faults.value.has_value());
    return *faults;
}
std::vector<Json> records_of(const Book& book) {
    std::vector<Json> records;
    const auto fault = book.each([&](const BookEntry& entry) {
        records.push_back(Json::parse(entry.bytes));
        return std::optional<acre::lang::Diagnostic>();
    });
    REQUIRE(!fault);
    return records;
}

Book filled(const Folder& folder, int records) {
    const Book book(folder.book());
    REQUIRE(!book.create());
    for (int i = 0; i < records; ++i)
        REQUIRE(add_one(book));
    return book;
}
std::string read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}
void overwrite(const std::string& path, const std::string& text) {
    fs::permissions(path, fs::perms::owner_write | fs::perms::owner_read);
    std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}
std::vector<std::string> files_at_fault(const Book& book) {
    std::vector<std::string> files;
    for (const BookFault& fault : faults_of(book))
        files.push_back(fault.file);
    return files;
}
using Files = std::vector<std::string>;

} // namespace

TEST_CASE("records follow one another and verify") {
    const Folder folder;
    const Book book = filled(folder, 12);
    const std::vector<Json> records = records_of(book);
    REQUIRE(records.size() == 12);
    for (std::size_t i = 0; i < records.size(); ++i) {
        const Json& record = records[i];
        CHECK(record["serial"] == i + 1);
        CHECK(record["previous"] == (i == 0 ? Json("") : records[i - 1]["seal"]));
    }
    CHECK(faults_of(book).empty());
}

TEST_CASE("a record changed, removed, swapped or cut short is named") {
    SUBCASE("one bit, anywhere") {
        const Folder folder;
        const Book book = filled(folder, 5);
        const std::string path = folder.book() + "/000003.json";
        const std::string whole = read_file(path);
        for (std::size_t byte = 0; byte < whole.size(); ++byte) {
            std::string changed = whole;
            changed[byte] = static_cast<char>(changed[byte] ^ (1 << (byte % 8)));
            overwrite(path, changed);
            const Files files = files_at_fault(book);
            REQUIRE(!files.empty());
            CHECK(files[0] == "000003.json");
        }
        overwrite(path, whole);
        CHECK(faults_of(book).empty());
    }
    SUBCASE("removed: in the middle and at the end") {
        const Folder folder;
        const Book book = filled(folder, 5);
        fs::remove(folder.book() + "/000002.json");
        CHECK(files_at_fault(book) == Files{"000002.json"});
        fs::remove(folder.book() + "/000005.json");
        CHECK(files_at_fault(book) == Files{"000002.json", "000005.json"});
    }
    SUBCASE("swapped") {
        const Folder folder;
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
        const Folder folder;
        const Book book = filled(folder, 3);
        const std::string path = folder.book() + "/000002.json";
        const std::string whole = read_file(path);
        for (const std::size_t size :
             {std::size_t{0}, std::size_t{1}, whole.size() / 2, whole.size() - 1}) {
            overwrite(path, whole.substr(0, size));
            CHECK(files_at_fault(book) == Files{"000002.json"});
        }
    }
    SUBCASE("written anew with a seal of its own") {
        const Folder folder;
        const Book book = filled(folder, 3);
        const std::string path = folder.book() + "/000002.json";
        Json record = Json::parse(read_file(path));
        record["serial"] = 99;
        record["seal"] = acre::engine::seal_of(record);
        overwrite(path, acre::engine::canonical(record) + "\n");
        CHECK(files_at_fault(book) == Files{"000003.json"});
    }
    SUBCASE("the newest written anew with a seal of its own") {
        const Folder folder;
        const Book book = filled(folder, 3);
        const std::string path = folder.book() + "/000003.json";
        Json record = Json::parse(read_file(path));
        record["serial"] = 99;
        record["seal"] = acre::engine::seal_of(record);
        overwrite(path, acre::engine::canonical(record) + "\n");
        CHECK(files_at_fault(book) == Files{"000003.json"});
    }
}

TEST_CASE("a signed record verifies, and not with another's signature") {
    const Folder folder;
    const Book book(folder.book());
    REQUIRE(!book.create());
    const acre::engine::KeyPair keys = acre::engine::new_key_pair();
    REQUIRE(add_one(book, keys.secret));
    REQUIRE(add_one(book));
    CHECK(faults_of(book).empty());
    CHECK(Json::parse(read_file(folder.book() + "/000001.json"))["signer"] == keys.open);
    const std::string path = folder.book() + "/000001.json";
    Json record = Json::parse(read_file(path));
    record["signature"] =
        *acre::engine::sign(record["seal"].get<std::string>(), acre::engine::new_key_pair().secret);
    overwrite(path, acre::engine::canonical(record) + "\n");
    CHECK(files_at_fault(book) == Files{"000001.json"});
}

TEST_CASE("nothing is added behind a record that was changed") {
    const Folder folder;
    const Book book = filled(folder, 2);
    const std::string path = folder.book() + "/000002.json";
    std::string text = read_file(path);
    text[text.find("\"serial\":2") + 9] = '7';
    overwrite(path, text);
    CHECK(why_not(book).find("000002.json") == 0);
    CHECK(!fs::exists(folder.book() + "/000003.json"));
}

TEST_CASE("eight processes adding two hundred each never give one number twice") {
    const Folder folder;
    const Book book(folder.book());
    REQUIRE(!book.create());
    std::vector<pid_t> children;
    for (int child = 0; child < 8; ++child) {
        const pid_t pid = ::fork();
        REQUIRE(pid >= 0);
        if (pid == 0) {
            int failures = 0;
            for (int i = 0; i < 200; ++i)
                failures += add_one(book) ? 0 : 1;
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
    const std::vector<Json> records = records_of(book);
    CHECK(records.size() == 1600);
    std::set<int> numbers;
    for (const Json& record : records)
        numbers.insert(record["serial"].get<int>());
    CHECK(numbers.size() == 1600);
    CHECK(*numbers.rbegin() == 1600);
    CHECK(faults_of(book).empty());
}

TEST_CASE("killed at any moment, the book is whole and goes on") {
    const Folder folder;
    const Book book(folder.book());
    REQUIRE(!book.create());
    std::mt19937 random(11);
    std::size_t before = 0;
    for (int round = 0; round < 500; ++round) {
        const pid_t pid = ::fork();
        REQUIRE(pid >= 0);
        if (pid == 0) {
            for (;;)
                if (!add_one(book))
                    ::_exit(1);
        }
        ::usleep(static_cast<useconds_t>(random() % 4000));
        ::kill(pid, SIGKILL);
        int status = 0;
        ::waitpid(pid, &status, 0);
        CHECK(WIFSIGNALED(status));
        const std::vector<BookFault> faults = faults_of(book);
        for (const BookFault& fault : faults)
            FAIL_CHECK(fault.file << " " << fault.what);
        const std::size_t now = records_of(book).size();
        CHECK(now >= before);
        before = now;
    }
    CHECK(before > 0);
}

TEST_CASE("a full disk or a folder that cannot be written adds nothing and says why") {
    const Folder folder;
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
    CHECK(faults_of(book).empty());
    CHECK(!fs::exists(folder.book() + "/000003.json"));
    for (const fs::directory_entry& entry : fs::directory_iterator(folder.book()))
        CHECK(entry.path().filename().string().rfind(".new-", 0) != 0);
}

TEST_CASE("names that are not records are left alone") {
    const Folder folder;
    const Book book = filled(folder, 2);
    for (const char* name : {"notes.txt", "3.json", "000003.json.bak", "0000004.json", ".new-abc"})
        std::ofstream(folder.book() + "/" + name) << "x";
    CHECK(faults_of(book).empty());
    const acre::lang::Outcome<Added> added = book.append(next_quote);
    REQUIRE(added.value.has_value());
    CHECK(!added->fleeting);
    CHECK(added->entry.index == 3);
}

TEST_CASE("what a record's maker refuses is given back, and nothing is added") {
    const Folder folder;
    const Book book = filled(folder, 1);
    const acre::lang::Outcome<Added> added =
        book.append([](const Json*) -> acre::lang::Outcome<Json> {
            return acre::lang::placeless(acre::lang::Code::R005, "no");
        });
    REQUIRE(!added);
    CHECK(acre::lang::name_of(added.said.diagnostics.all()[0].code) == "R005");
    CHECK(records_of(book).size() == 1);
}

} // namespace book_test
