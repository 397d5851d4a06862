#include "cli/shared/quote_book/book.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <map>
#include <utility>

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "cli/shared/files/write_file.h"
#include "engine/book/canonical.h"
#include "engine/book/seal.h"
#include "engine/book/shape.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

std::string system_reason() {
    return std::strerror(errno);
}

bool read_whole(const std::string& path, std::string& bytes, std::string& reason) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW));
    if (!file) {
        reason = system_reason();
        return false;
    }
    bytes.clear();
    std::array<char, 65536> buffer;
    for (;;) {
        const ssize_t got = ::read(file.value(), buffer.data(), buffer.size());
        if (got == 0)
            return true;
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0 || bytes.size() + static_cast<std::size_t>(got) > max_record_bytes) {
            reason = got < 0 ? system_reason() : "larger than a record can be";
            return false;
        }
        bytes.append(buffer.data(), static_cast<std::size_t>(got));
    }
}

std::uint64_t size_of(const std::string& path) {
    struct stat status = {};
    return ::stat(path.c_str(), &status) == 0 ? static_cast<std::uint64_t>(status.st_size) : 0;
}

// The number of "000012.json"; 0 for any other name.
std::uint64_t index_of(std::string_view name) {
    constexpr std::string_view ending = ".json";
    if (name.size() < 6 + ending.size() || !name.ends_with(ending))
        return 0;
    std::uint64_t index = 0;
    for (const char c : name.substr(0, name.size() - ending.size())) {
        if (c < '0' || c > '9' || index > 1'000'000'000'000)
            return 0;
        index = index * 10 + static_cast<std::uint64_t>(c - '0');
    }
    return Book::file_name(index) == name ? index : 0;
}

bool indices(const std::string& folder, std::vector<std::uint64_t>& found, std::string& reason) {
    DIR* open = ::opendir(folder.c_str());
    if (open == nullptr) {
        reason = system_reason();
        return false;
    }
    while (const dirent* entry = ::readdir(open))
        if (const std::uint64_t index = index_of(entry->d_name); index != 0)
            found.push_back(index);
    ::closedir(open);
    if (found.size() > max_book_records) {
        reason = fmt::format("it holds more than {} records", lang::number_text(max_book_records));
        return false;
    }
    std::sort(found.begin(), found.end());
    return true;
}

std::string text_of(const Json& record, const char* member) {
    if (!record.is_object())
        return {};
    const auto it = record.find(member);
    return it != record.end() && it->is_string() ? it->get<std::string>() : std::string();
}

// The head is written after its record: it may be one behind, or not there yet, but never ahead and
// never of another record.
void check_head(const std::string& path, const std::vector<std::uint64_t>& found,
                std::uint64_t expected, const std::map<std::uint64_t, std::string>& seals,
                std::vector<BookFault>& faults) {
    std::string head;
    std::string reason;
    if (!read_whole(path, head, reason)) {
        if (found.size() > 1)
            faults.push_back({"head", "cannot be read: " + reason});
        return;
    }
    unsigned long long newest = 0;
    std::array<char, 65> seal = {};
    if (std::sscanf(head.c_str(), "%llu %64s", &newest, seal.data()) != 2) {
        faults.push_back({"head", "is not whole"});
        return;
    }
    for (; expected <= newest; ++expected) {
        faults.push_back({Book::file_name(expected), "is missing"});
        if (faults.size() > max_book_faults)
            return;
    }
    if (const auto record = seals.find(newest);
        record != seals.end() && record->second != seal.data())
        faults.push_back({Book::file_name(newest), "is not the record that the head names"});
}

std::string head_text(std::uint64_t index, const std::string& seal) {
    return fmt::format("{} {}\n", index, seal);
}

// Whoever added this record may not have come to the end: it is flushed, and the head names it.
// Empty: so it is.
std::string finish(const std::string& folder, const std::string& head, std::uint64_t index,
                   const std::string& seal) {
    const std::string wanted = head_text(index, seal);
    std::string text;
    std::string reason;
    if (read_whole(head, text, reason) && text == wanted)
        return {};
    reason = flush_folder(folder);
    return reason.empty() ? write_file(head, wanted).reason : reason;
}

} // namespace

std::string Book::file_name(std::uint64_t index) {
    return fmt::format("{:06}.json", index);
}

std::string seal_of(const Json& record) {
    Json open = record;
    open.erase("seal");
    open.erase("signature");
    return engine::sha256(engine::canonical(open));
}

Book::Book(std::string folder) : folder_(std::move(folder)) {
    while (folder_.size() > 1 && folder_.back() == '/')
        folder_.pop_back();
}

std::string Book::create() const {
    return make_folder(folder_);
}

bool Book::newest_index(std::uint64_t& index, std::string& reason) const {
    std::vector<std::uint64_t> found;
    if (!indices(folder_, found, reason))
        return false;
    index = found.empty() ? 0 : found.back();
    return true;
}

bool Book::each(const Visit& visit, std::string& reason) const {
    std::vector<std::uint64_t> found;
    if (!indices(folder_, found, reason))
        return false;
    std::uint64_t bytes = 0; // as the folder says, before any of it is in memory
    for (const std::uint64_t index : found)
        bytes += size_of(path(file_name(index)));
    if (bytes > max_book_bytes) {
        reason = fmt::format("its records come to more than {} bytes",
                             lang::number_text(max_book_bytes));
        return false;
    }
    for (const std::uint64_t index : found) {
        BookEntry entry;
        entry.index = index;
        if (!read_whole(path(file_name(index)), entry.bytes, reason)) {
            reason.insert(0, file_name(index) + ": ");
            return false;
        }
        if (!visit(entry))
            return false;
    }
    return true;
}

bool Book::read(std::vector<BookEntry>& entries, std::string& reason) const {
    return each(
        [&](BookEntry& entry) {
            if (const std::optional<Json> record = engine::read_canonical(entry.bytes))
                entry.seal = text_of(*record, "seal");
            entries.push_back(std::move(entry));
            return true;
        },
        reason);
}

std::string Book::append(const Make& make, BookEntry& added, std::string_view key) const {
    added = {};
    // The lock keeps people from waiting on each other's retries; that no number is given twice
    // rests on take_name alone.
    Descriptor lock;
    if (std::string reason = lock_file(path("lock"), lock); !reason.empty())
        return reason;

    constexpr int tries = 1000;
    for (int attempt = 0; attempt < tries; ++attempt) {
        std::uint64_t newest = 0;
        std::string reason;
        if (!newest_index(newest, reason))
            return reason;
        std::optional<Json> before;
        if (newest != 0) {
            std::string bytes;
            if (!read_whole(path(file_name(newest)), bytes, reason))
                return file_name(newest) + ": " + reason;
            before = engine::read_canonical(bytes);
            if (!before || !before->is_object() || text_of(*before, "seal") != seal_of(*before))
                return file_name(newest) +
                       ": the newest record is not as it was written; nothing is added behind it";
            if (const std::string fault = engine::shape_fault(*before); !fault.empty())
                return file_name(newest) +
                       " is no record of this program, and nothing is added behind it: " + fault;
        }
        // What a crash left undone: the head stays at most one behind, and no record outlives the
        // book's own name.
        reason = before ? finish(folder_, path("head"), newest, text_of(*before, "seal"))
                        : flush_folder(folder_of(folder_));
        if (!reason.empty())
            return reason;
        const std::uint64_t index = newest + 1;
        Json record = make(before ? &*before : nullptr, index);
        if (!record.is_object())
            return "nothing was to be added";
        record["record"] = index;
        record["previous"] = before ? text_of(*before, "seal") : std::string();
        record.erase("seal");
        record.erase("signature");
        if (!key.empty())
            record["signer"] =
                key.substr(key.size() / 2); // the second half of a secret key is the open one
        const std::string seal = seal_of(record);
        record["seal"] = seal;
        if (!key.empty())
            record["signature"] = engine::sign(seal, key).value_or("");
        std::string bytes = engine::canonical(record) + "\n";

        std::string coming;
        bool taken = false;
        reason = write_beside(folder_, bytes, 0444, coming);
        if (reason.empty())
            reason = take_name(coming, path(file_name(index)), taken);
        if (!reason.empty())
            return reason;
        if (taken)
            continue;
        added = {index, seal, std::move(bytes)};
        reason = flush_folder(folder_);
        // The head only lets verify notice that the newest records were taken away; a fault here
        // leaves it one behind.
        if (reason.empty())
            write_file(path("head"), head_text(index, seal));
        return reason;
    }
    return "somebody else took every number that was tried";
}

std::vector<BookFault> Book::verify() const {
    std::vector<BookFault> faults;
    std::vector<std::uint64_t> found;
    std::string reason;
    if (!indices(folder_, found, reason))
        return {{folder_, reason}};
    std::uint64_t expected = 1;
    std::string previous;
    std::map<std::uint64_t, std::string> seals;
    bool whole_before = true;
    for (const std::uint64_t index : found) {
        for (; expected < index && faults.size() < max_book_faults; ++expected) {
            faults.push_back({file_name(expected), "is missing"});
            whole_before = false;
        }
        expected = index;
        ++expected;
        const std::string name = file_name(index);
        std::string bytes;
        if (!read_whole(path(name), bytes, reason)) {
            faults.push_back({name, "cannot be read: " + reason});
            whole_before = false;
            continue;
        }
        const std::optional<Json> record = engine::read_canonical(bytes);
        if (!record || !record->is_object()) {
            faults.push_back({name, "is not a whole record: cut short, or changed"});
            whole_before = false;
            continue;
        }
        const std::string seal = text_of(*record, "seal");
        if (seal != seal_of(*record))
            faults.push_back({name, "was changed after it was sealed"});
        else if (record->contains("signer") &&
                 !engine::is_signed(seal, text_of(*record, "signature"),
                                    text_of(*record, "signer")))
            faults.push_back({name, "is not signed by the key it names"});
        else if (!record->contains("record") || (*record)["record"] != index)
            faults.push_back({name, "stands in the place of another record"});
        else if (whole_before && text_of(*record, "previous") != previous)
            faults.push_back({name, "does not follow the record before it"});
        else if (const std::string fault = engine::shape_fault(*record); !fault.empty())
            faults.push_back({name, "is no record of this program: " + fault});
        previous = seal;
        seals.emplace(index, seal);
        whole_before = true;
    }
    check_head(path("head"), found, expected, seals, faults);
    return faults;
}

} // namespace acre::cli
