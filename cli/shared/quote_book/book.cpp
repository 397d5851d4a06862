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

#include "cli/shared/files/durable.h"
#include "cli/shared/quote_book/index.h"
#include "engine/book/seal.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t max_index_bytes = std::size_t{256} << 20U;

// The system's reason, or empty.
std::string read_whole(const std::string& path, std::size_t most, std::string& bytes) {
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
        if (bytes.size() + static_cast<std::size_t>(got) > most)
            return "larger than the limit for a record";
        bytes.append(buffer.data(), static_cast<std::size_t>(got));
    }
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

// Every name in a folder. False: it cannot be read, and errno says why.
template <class Take> bool each_name(const std::string& folder, Take take) {
    DIR* open = ::opendir(folder.c_str());
    if (open == nullptr)
        return false;
    while (const dirent* entry = ::readdir(open))
        take(std::string_view(entry->d_name));
    ::closedir(open);
    return true;
}

lang::Diagnostic not_as_sealed(const std::string& file, const std::string& fault) {
    return lang::placeless(lang::Code::R004, file + " " + fault, {},
                           {"`acrewright verify` checks every record of the book"});
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

std::string Book::read(const std::string& name, std::string& bytes) const {
    return read_whole(path(name), name == "index" ? max_index_bytes : max_record_bytes, bytes);
}

lang::Outcome<std::vector<std::uint64_t>> Book::indices() const {
    std::vector<std::uint64_t> found;
    if (!each_name(folder_, [&](std::string_view name) {
            if (const std::uint64_t index = index_of(name); index != 0)
                found.push_back(index);
        }))
        return unread(std::strerror(errno));
    if (found.size() > max_book_records)
        return unread(
            fmt::format("it holds more than {} records", lang::number_text(max_book_records)));
    std::sort(found.begin(), found.end());
    return found;
}

std::vector<std::string> Book::strays() const {
    std::vector<std::string> found;
    each_name(
        folder_,
        [&](std::string_view name) {
            constexpr std::array<std::string_view, 6> own = {".",     "..",   "head",
                                                             "index", "lock", "texts"};
            if (index_of(name) == 0 && std::find(own.begin(), own.end(), name) == own.end() &&
                !name.starts_with(".acrewright-"))
                found.emplace_back(name);
        });
    each_name(path("texts"), [&](std::string_view name) {
        if (name != "." && name != ".." && !engine::is_seal(name))
            found.push_back("texts/" + std::string(name));
    });
    std::sort(found.begin(), found.end());
    return found;
}

engine::FoundText Book::text(const std::string& seal) const {
    engine::FoundText found;
    if (!engine::is_seal(seal)) { // it would lead out of the folder
        found.fault = "has a seal that is none";
        return found;
    }
    struct stat about = {};
    const bool folder = ::lstat(path("texts").c_str(), &about) == 0 && S_ISDIR(about.st_mode);
    const std::string reason =
        folder ? read("texts/" + seal, found.text) : "`texts` is not a folder";
    if (!reason.empty())
        found.fault = "cannot be read: texts/" + seal + ": " + reason;
    else if (engine::sha256(found.text) != seal)
        found.fault = "was changed: texts/" + seal;
    return found;
}

engine::SealedTexts Book::texts() const {
    return [this](const std::string& seal) { return text(seal); };
}

// The head says where to look; without one every name is looked at.
lang::Outcome<std::uint64_t> Book::newest_index() const {
    std::string text;
    const auto is_there = [&](std::uint64_t index) {
        struct stat about = {};
        return ::lstat(path(engine::record_file(index)).c_str(), &about) == 0;
    };
    if (read("head", text).empty())
        if (const auto head = engine::read_head(text); head && is_there(head->record)) {
            std::uint64_t newest = head->record;
            while (newest <= max_book_records && is_there(newest + 1))
                ++newest;
            if (newest <= max_book_records)
                return newest;
        }
    const lang::Outcome<std::vector<std::uint64_t>> found = indices();
    if (!found)
        return found.said;
    return found->empty() ? 0 : found->back();
}

// The records that the index does not speak of, up to the first that is not in order.
struct Book::Tail {
    std::vector<engine::Event> events;
    std::string seal; // of the last
    std::optional<lang::Diagnostic> fault;
};

Book::Tail Book::read_tail(std::uint64_t from, std::uint64_t newest, std::string seal) const {
    Tail tail{{}, std::move(seal), {}};
    for (std::uint64_t index = from; index <= newest; ++index) {
        const std::string file = engine::record_file(index);
        std::string bytes;
        if (std::string reason = read(file, bytes); !reason.empty()) {
            tail.fault = unread(file + ": " + reason);
            return tail;
        }
        const engine::ReadRecord read = engine::read_record(bytes);
        std::string fault = read.fault;
        if (fault.empty() && static_cast<std::uint64_t>(read.record.index) != index)
            fault = "is in the place of another record";
        if (fault.empty() && read.record.previous != tail.seal)
            fault = "does not follow the record before it";
        if (!fault.empty()) {
            tail.fault = not_as_sealed(file, fault);
            return tail;
        }
        tail.events.push_back(engine::event_of(read.record));
        tail.seal = read.record.seal;
    }
    return tail;
}

namespace {

// What the rules look at when these records come next, and then a quote of that year. Nothing: a
// number is none, and all of the book is looked at.
std::optional<About> looked_at(About about, const std::vector<engine::Event>& tail,
                               const engine::Event& newest) {
    for (const engine::Event& event : tail) {
        for (const std::string& number : {event.quote, event.replaces, event.changes})
            if (!number.empty())
                about.quotes.emplace(base_number(number));
        if (!event.bill.empty())
            about.bills.insert(event.bill);
    }
    if (!about.year.empty()) {
        const auto given = newest.counter.find(about.year);
        about.quotes.insert(fmt::format("{}-{:03}", about.year,
                                        (given == newest.counter.end() ? 0 : given->second) + 1));
    }
    if (!std::all_of(about.quotes.begin(), about.quotes.end(), engine::is_quote_number))
        return std::nullopt;
    return about;
}

} // namespace

// A folder that was copied in part, or that a file service has not brought up to date, looks like a
// smaller book. Whoever wrote into it would give a number twice, and move the head back to that.
std::optional<lang::Diagnostic> Book::not_whole(const BookState& state, bool all) const {
    const auto missing = [&](std::uint64_t index) {
        lang::Diagnostic fault = unread(fmt::format("{} is missing", engine::record_file(index)));
        fault.helps.push_back(
            {"is the folder copied whole, and synchronized? Its records are to be "
             "there before anything is added",
             {}});
        return fault;
    };
    std::string text;
    const std::optional<engine::Head> head =
        read("head", text).empty() ? engine::read_head(text) : std::nullopt;
    std::string bytes;
    // Read after the records: somebody may have added one meanwhile, and it is there then.
    if (head && head->record > state.records &&
        !read(engine::record_file(head->record), bytes).empty())
        return missing(state.records + 1);
    if (head && head->record > 0 && head->record <= state.records) {
        std::string seal = state.seal;
        if (head->record < state.records && read(engine::record_file(head->record), bytes).empty())
            seal = engine::read_record(bytes).record.seal;
        if (seal != head->seal)
            return not_as_sealed(engine::record_file(head->record),
                                 "is not the record that the head of the book names");
    }
    if (!all)
        return std::nullopt;
    const lang::Outcome<std::vector<std::uint64_t>> there = indices();
    if (!there)
        return std::move(there.said.diagnostics.all().front());
    for (std::uint64_t index = 1; index <= state.records; ++index)
        if (index > there->size() || (*there)[index - 1] != index)
            return missing(index);
    return std::nullopt;
}

lang::Outcome<BookState> Book::state(const About* about) const {
    const lang::Outcome<std::uint64_t> newest = newest_index();
    if (!newest)
        return newest.said;
    BookState state;
    std::string bytes;
    std::optional<BookIndex> index = BookIndex::read(*this);
    // An index speaks of these records if the last it speaks of has that very seal.
    if (index && (index->records() > *newest ||
                  !read(engine::record_file(index->records()), bytes).empty() ||
                  engine::read_record(bytes).record.seal != index->seal()))
        index.reset();
    Tail tail =
        index ? read_tail(index->records() + 1, *newest, index->seal()) : read_tail(1, *newest, {});
    bool all = about == nullptr || !index;
    std::optional<std::vector<engine::Event>> events;
    if (index && !all) {
        static const About nothing;
        events = index->events(&nothing);
        const std::optional<About> wanted =
            events ? looked_at(*about, tail.events,
                               tail.events.empty() ? events->back() : tail.events.back())
                   : std::nullopt;
        all = !wanted;
        if (wanted)
            events = index->events(&*wanted);
    }
    if (index && all)
        events = index->events();
    if (index && !events) {
        index.reset();
        tail = read_tail(1, *newest, {});
    }
    const std::uint64_t indexed = index ? index->records() : 0;
    state.records = indexed;
    for (const engine::Event& event : events.value_or(std::vector<engine::Event>())) {
        state.keys.add(event);
        state.lives.add(event);
    }
    for (const engine::Event& event : tail.events) {
        ++state.records;
        for (const std::string& broken : {state.keys.add(event), state.lives.add(event)})
            if (!broken.empty())
                return not_as_sealed(engine::record_file(state.records), broken);
    }
    if (tail.fault)
        return std::move(*tail.fault);
    state.seal = tail.seal;
    if (auto fault = not_whole(state, about == nullptr))
        return std::move(*fault);
    if (state.records >= indexed + index_lags)
        write_index(*this, index ? &*index : nullptr, tail.events);
    return state;
}

lang::Outcome<engine::Record> Book::record(std::uint64_t index) const {
    const std::string file = engine::record_file(index);
    std::string bytes;
    if (std::string reason = read(file, bytes); !reason.empty())
        return unread(file + ": " + reason);
    engine::ReadRecord read = engine::read_record(bytes);
    if (!read.fault.empty())
        return not_as_sealed(file, read.fault);
    if (auto* quote = std::get_if<engine::QuoteRecord>(&read.record.body))
        if (std::string fault = engine::fetch_texts(*quote, texts()); !fault.empty())
            return not_as_sealed(file, "is not whole: " + fault);
    return std::move(read.record);
}

lang::Outcome<engine::Record> Book::quote(const BookState& state, const std::string& number) const {
    const lang::Outcome<const engine::Life*> life = engine::find_quote(state.lives, number);
    if (!life)
        return life.said;
    return record(static_cast<std::uint64_t>((*life)->quote.record));
}

} // namespace acre::cli
