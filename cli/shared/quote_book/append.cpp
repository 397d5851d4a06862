// A record that is added to a book.
#include <cerrno>
#include <cstring>
#include <filesystem>

#include <sys/stat.h>

#include <fmt/format.h>

#include "cli/shared/clock.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "cli/shared/quote_book/book.h"
#include "engine/book/seal.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

lang::Diagnostic against_rules(const std::string& why) {
    const bool whole = why.starts_with("quote ") || why.starts_with("another ") ||
                       why.starts_with("record "); // a sentence of its own
    return lang::placeless(lang::Code::R005, whole ? why : "the new record " + why);
}

// One clock that was ahead holds up everybody behind it, so the way on is told.
void add_clock_help(const engine::Event& newest, lang::Diagnostic& fault) {
    fault.helps.push_back({fmt::format("is the clock of this machine right? Record {} was written "
                                       "at {}",
                                       newest.record, newest.written),
                           {}});
    if (const auto seconds = engine::seconds_of(newest.written))
        fault.helps.push_back(
            {fmt::format("if it was that clock that was wrong, SOURCE_DATE_EPOCH={} "
                         "before the command writes at that time, and `--date` "
                         "says the day",
                         *seconds),
             {}});
}

lang::Diagnostic against_keys(const std::string& why) {
    return lang::placeless(lang::Code::R008, "the new record " + why, {},
                           {"`--key FILE` signs with a key that the book has admitted",
                            "`acrewright verify` shows the keys of a book"});
}

} // namespace

lang::Diagnostic Book::unwritten(std::string reason) const {
    return lang::placeless(lang::Code::R003, "the book `" + folder_ + "` cannot be written",
                           {std::move(reason)});
}

std::optional<lang::Diagnostic> Book::create() const {
    if (std::string reason = make_folder(folder_); !reason.empty())
        return unwritten(std::move(reason));
    return std::nullopt;
}

// In place of whatever has that name: a link is replaced, not followed.
std::string Book::write_head(const std::string& text) const {
    const SignalsHeld held;
    std::string coming;
    std::string reason =
        write_beside(folder_, text, mode_of_new(folder_, 0666), coming, Leftovers::Leave);
    if (reason.empty())
        reason = move_over(coming, path("head"));
    return reason.empty() ? flush_folder(folder_) : reason;
}

// What a crash left undone: the newest record is flushed and the head names it, so that the head
// stays at most one behind; and no record outlives the book's own name.
std::optional<lang::Diagnostic> Book::finish(const BookState& state) const {
    std::string reason;
    if (state.records == 0) {
        reason = flush_folder(folder_of(folder_));
    } else {
        const std::string wanted = engine::head_text({state.records, state.seal}) + "\n";
        std::string text;
        if (read("head", text).empty() && text == wanted)
            return std::nullopt;
        reason = flush_folder(folder_);
        if (reason.empty())
            reason = write_head(wanted);
    }
    if (reason.empty())
        return std::nullopt;
    return unwritten(std::move(reason));
}

std::string Book::put_text(const std::string& seal, const std::string& text) const {
    const std::string name = "texts/" + seal;
    std::string there;
    if (read(name, there).empty())
        return there == text ? "" : name + " was changed";
    const SignalsHeld held;
    std::string coming;
    std::string reason =
        write_beside(folder_, text, mode_of_new(path("texts"), 0444), coming, Leftovers::Leave);
    bool taken = false;
    if (reason.empty())
        reason = take_name(coming, path(name), taken);
    if (taken && (!read(name, there).empty() || there != text))
        reason = name + " is not what it should be";
    return reason;
}

// The texts stand before the record that names them: no quote without its page.
std::optional<lang::Diagnostic> Book::put_texts(const Coming& coming) const {
    std::map<std::string, std::string> texts;
    if (const engine::QuoteRecord* quote = coming.record.quote())
        texts = quote->carried;
    for (const std::string& text : coming.also)
        texts.emplace(engine::sha256(text), text);
    if (texts.empty())
        return std::nullopt;
    struct stat about = {};
    std::string reason;
    std::error_code unknown;
    const bool there = ::lstat(path("texts").c_str(), &about) == 0;
    if (there && !S_ISDIR(about.st_mode))
        reason = "texts is not a folder";
    else if (!there)
        reason = make_folder(path("texts"));
    // While it is empty, whoever made it may have ended before its name was on the disk.
    if (reason.empty() && (!there || std::filesystem::is_empty(path("texts"), unknown)))
        reason = flush_folder(folder_);
    for (const auto& [seal, text] : texts)
        if (reason.empty())
            reason = text.size() > max_record_bytes ? "a text is larger than the limit for a record"
                                                    : put_text(seal, text);
    if (reason.empty())
        reason = flush_folder(path("texts"));
    if (reason.empty())
        return std::nullopt;
    return unwritten(std::move(reason));
}

// Gives the record its name in the folder, unless somebody else has it already (`taken`).
lang::Outcome<Added> Book::put(Coming coming, const BookState& state, std::string_view key,
                               bool& taken) const {
    engine::Record& record = coming.record;
    const std::uint64_t index = state.records + 1;
    record.program = ACREWRIGHT_VERSION;
    record.written = time_now();
    std::string bytes =
        engine::seal_record(record, static_cast<std::int64_t>(index), state.seal, key);
    const engine::Event event = engine::event_of(record);
    if (std::string why = event.kind == "key"
                              ? state.keys.why_not_change(event.action, event.key, event.signer)
                              : state.keys.why_not(event.signer);
        !why.empty())
        return against_keys(why);
    if (std::string why = state.lives.why_not(event); !why.empty()) {
        lang::Diagnostic fault = against_rules(why);
        if (why.starts_with("was written at"))
            add_clock_help(*state.lives.newest(), fault);
        return fault;
    }
    if (bytes.size() > max_record_bytes)
        return unwritten("larger than the limit for a record");
    if (index > max_book_records)
        return unwritten(
            fmt::format("it holds {} records already", lang::number_text(max_book_records)));
    if (auto fault = put_texts(coming))
        return std::move(*fault);
    Added added{record, engine::record_file(index), std::move(bytes), {}, {}};
    const SignalsHeld held;
    std::string beside;
    std::string reason = write_beside(folder_, added.bytes, mode_of_new(folder_, 0444), beside);
    if (reason.empty())
        reason = take_name(beside, path(added.file), taken);
    if (!reason.empty() || taken)
        return unwritten(std::move(reason));
    reason = flush_folder(folder_);
    // The head only lets verify notice that the newest records were taken away; a fault here
    // leaves it one behind.
    if (reason.empty())
        write_head(engine::head_text({index, record.seal}) + "\n");
    else
        added.fleeting = unwritten(std::move(reason));
    return added;
}

lang::Outcome<Added> Book::append(const Make& make, std::string_view key,
                                  const About* about) const {
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
        const lang::Outcome<BookState> now = state(about);
        if (!now)
            return now.said;
        if (auto fault = finish(*now))
            return std::move(*fault);
        lang::Outcome<Coming> coming = make(*now);
        if (!coming)
            return coming.said;
        bool taken = false;
        lang::Outcome<Added> added = put(std::move(*coming), *now, key, taken);
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
