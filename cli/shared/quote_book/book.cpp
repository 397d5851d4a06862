#include "cli/shared/quote_book/book.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "engine/book/canonical.h"
#include "engine/book/members.h"
#include "engine/book/sealed.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

// The system's reason, or empty. A book may be a stranger's: a link leads out of it, and a pipe
// that nobody writes to must not be waited for.
std::string read_whole(const std::string& path, std::string& bytes) {
    Descriptor file;
    if (std::string reason = open_plain(path, O_RDONLY, file); !reason.empty())
        return reason;
    bytes.clear();
    std::array<char, 65536> buffer;
    for (;;) {
        const ssize_t got = ::read(file.value(), buffer.data(), buffer.size());
        if (got == 0)
            return {};
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return std::strerror(errno);
        if (bytes.size() + static_cast<std::size_t>(got) > max_record_bytes)
            return "larger than the limit for a record";
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
    return engine::record_file(index) == name ? index : 0;
}

std::string head_text(std::uint64_t index, const std::string& seal) {
    return fmt::format("{} {}\n", index, seal);
}

} // namespace

Book::Book(std::string folder) : folder_(std::move(folder)) {
    while (folder_.size() > 1 && folder_.back() == '/')
        folder_.pop_back();
}

lang::Diagnostic Book::unread(std::string reason) const {
    return lang::placeless(lang::Code::R001, "the book `" + folder_ + "` cannot be read",
                           {std::move(reason)});
}

lang::Diagnostic Book::unwritten(std::string reason) const {
    return lang::placeless(lang::Code::R003, "the book `" + folder_ + "` cannot be written",
                           {std::move(reason)});
}

std::optional<lang::Diagnostic> Book::create() const {
    if (std::string reason = make_folder(folder_); !reason.empty())
        return unwritten(std::move(reason));
    return std::nullopt;
}

lang::Outcome<std::vector<std::uint64_t>> Book::indices() const {
    DIR* open = ::opendir(folder_.c_str());
    if (open == nullptr)
        return unread(std::strerror(errno));
    std::vector<std::uint64_t> found;
    while (const dirent* entry = ::readdir(open))
        if (const std::uint64_t index = index_of(entry->d_name); index != 0)
            found.push_back(index);
    ::closedir(open);
    if (found.size() > max_book_records)
        return unread(
            fmt::format("it holds more than {} records", lang::number_text(max_book_records)));
    std::sort(found.begin(), found.end());
    return found;
}

lang::Outcome<std::string> Book::read(const std::string& name) const {
    std::string bytes;
    if (std::string reason = read_whole(path(name), bytes); !reason.empty())
        return unread(name + ": " + reason);
    return bytes;
}

std::optional<lang::Diagnostic> Book::each(const Visit& visit) const {
    const lang::Outcome<std::vector<std::uint64_t>> found = indices();
    if (!found)
        return found.said.diagnostics.all().front();
    std::uint64_t bytes = 0; // as the folder says, before any of it is in memory
    for (const std::uint64_t index : *found)
        bytes += size_of(path(engine::record_file(index)));
    if (bytes > max_book_bytes)
        return unread(fmt::format("its records have more than {} bytes in all",
                                  lang::number_text(max_book_bytes)));
    for (const std::uint64_t index : *found) {
        lang::Outcome<std::string> text = read(engine::record_file(index));
        if (!text)
            return text.said.diagnostics.all().front();
        if (auto fault = visit({index, std::move(*text)}))
            return fault;
    }
    return std::nullopt;
}

lang::Outcome<std::vector<engine::BookFault>> Book::verify(const Visit& also) const {
    // Read before the records: whoever adds one meanwhile moves it past what is seen here.
    const lang::Outcome<std::string> head = read("head");
    engine::Chain chain;
    const auto visit = [&](const BookEntry& entry) -> std::optional<lang::Diagnostic> {
        chain.add(entry.index, entry.bytes);
        return also ? also(entry) : std::nullopt;
    };
    if (auto fault = each(visit))
        return std::move(*fault);
    return chain.finish(head);
}

// The newest record, which the next one follows.
lang::Outcome<Json> Book::newest_record(std::uint64_t index) const {
    const std::string file = engine::record_file(index);
    const lang::Outcome<std::string> bytes = read(file);
    if (!bytes)
        return bytes.said;
    lang::Outcome<Json> record = engine::read_sealed(*bytes, file);
    if (record)
        return record;
    lang::Diagnostic fault = record.said.diagnostics.all().front();
    fault.notes.push_back("nothing can be added after such a record");
    return fault;
}

// In place of whatever has that name: a link is replaced, not followed.
std::string Book::write_head(const std::string& text) const {
    const SignalsHeld held;
    std::string coming;
    std::string reason = write_beside(folder_, text, mode_of_new(folder_, 0666), coming);
    if (reason.empty())
        reason = move_over(coming, path("head"));
    return reason.empty() ? flush_folder(folder_) : reason;
}

// What a crash left undone: the newest record is flushed and the head names it, so that the head
// stays at most one behind; and no record outlives the book's own name.
std::optional<lang::Diagnostic> Book::finish(std::uint64_t index, const Json* newest) const {
    std::string reason;
    if (newest == nullptr) {
        reason = flush_folder(folder_of(folder_));
    } else {
        const std::string wanted = head_text(index, engine::text_at(*newest, "seal"));
        std::string text;
        if (read_whole(path("head"), text).empty() && text == wanted)
            return std::nullopt;
        reason = flush_folder(folder_);
        if (reason.empty())
            reason = write_head(wanted);
    }
    if (reason.empty())
        return std::nullopt;
    return unwritten(std::move(reason));
}

// Gives the record its name in the folder, unless somebody else has it already (`taken`).
lang::Outcome<Added> Book::put(std::uint64_t index, const Json& record, bool& taken) const {
    Added added{{index, engine::canonical(record) + "\n"}, engine::text_at(record, "seal"), {}, {}};
    const SignalsHeld held;
    std::string coming;
    std::string reason =
        write_beside(folder_, added.entry.bytes, mode_of_new(folder_, 0444), coming);
    if (reason.empty())
        reason = take_name(coming, path(engine::record_file(index)), taken);
    if (!reason.empty() || taken)
        return unwritten(std::move(reason));
    reason = flush_folder(folder_);
    // The head only lets verify notice that the newest records were taken away; a fault here
    // leaves it one behind.
    if (reason.empty())
        write_head(head_text(index, added.seal));
    else
        added.fleeting = unwritten(std::move(reason));
    return added;
}

lang::Outcome<Added> Book::append(const Make& make, std::string_view key) const {
    // The lock keeps people from waiting on each other's retries; that no number is given twice
    // rests on take_name alone.
    // So whoever never gives it back is not waited for.
    constexpr std::chrono::seconds longest{5};
    Descriptor lock;
    bool locked = false;
    if (std::string reason = lock_file(path("lock"), longest, lock, locked); !reason.empty())
        return unwritten("lock: " + std::move(reason));
    constexpr int tries = 1000;
    for (int attempt = 0; attempt < tries; ++attempt) {
        const lang::Outcome<std::vector<std::uint64_t>> found = indices();
        if (!found)
            return found.said;
        const std::uint64_t last = found->empty() ? 0 : found->back();
        lang::Outcome<Json> before;
        if (last != 0 && !(before = newest_record(last)))
            return before.said;
        const Json* newest = before ? &*before : nullptr;
        if (auto fault = finish(last, newest))
            return std::move(*fault);
        lang::Outcome<Json> body = make(newest);
        if (!body)
            return body.said;
        bool taken = false;
        lang::Outcome<Added> added =
            put(last + 1, engine::sealed(std::move(*body), last + 1, newest, key), taken);
        if (added && !locked)
            added->note = fmt::format("somebody has held the lock of `{}` for {} seconds; the "
                                      "record was added without it",
                                      folder_, longest.count());
        if (!taken)
            return added;
    }
    return unwritten("every number that was tried was already taken");
}

} // namespace acre::cli
