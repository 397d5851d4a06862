// The quote book: a folder of records that several people on several machines may share. A record
// is one file, written once and never changed; each carries the seal of the one before it.
//
//   000001.json 000002.json …   the records, canonical JSON and a line end
//   texts/                      the texts that records name, each under its SHA-256, once
//   head                        the number and the seal of the newest record known to be whole
//   index                       what records say of quotes, to open a large book soon
//                               (cli/shared/quote_book/index.h)
//   lock                        held while a record is added
//   .acrewright-…               a file on its way in; what a crash leaves of it is no record
//                               (cli/shared/files/durable.h)
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/book/chain.h"
#include "engine/book/keys.h"
#include "engine/book/lives.h"
#include "engine/book/record.h"
#include "engine/book/texts.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

inline constexpr std::size_t max_book_records = 50'000;
inline constexpr std::size_t max_record_bytes = std::size_t{16} << 20U; // of a text of it too

// What a book says by all its records so far.
struct BookState {
    engine::Lives lives;
    engine::Keys keys;
    std::uint64_t records = 0;
    std::string seal; // of the newest
};

// What of a book somebody needs to know: the lives of these quotes, by number, with their change
// orders and what replaces them, and whether these bills are there.
struct About {
    std::set<std::string, std::less<>> quotes, bills; // quotes without "-C1"
    std::string year{}; // and whether the next number of this year is taken
};
std::string_view base_number(std::string_view number); // of a change order: what it changes

// A record that was added, with its seal. It is on the disk, unless `fleeting` says why it may be
// lost in a power cut (R003).
struct Added {
    engine::Record record;
    std::string file, bytes;
    std::optional<lang::Diagnostic> fleeting;
    std::string note; // what was met on the way, or empty
};

class Book {
  public:
    explicit Book(std::string folder);

    const std::string& folder() const { return folder_; }

    // Makes the folder if it is not there. R003.
    std::optional<lang::Diagnostic> create() const;

    // The numbers of all records that are there, in order. R001: the folder cannot be read, or has
    // more records than the limit.
    lang::Outcome<std::vector<std::uint64_t>> indices() const;
    // A file of the folder, or the system's reason why not. A book may be a stranger's: links are
    // not followed, pipes not waited for.
    std::string read(const std::string& name, std::string& bytes) const;
    // Names in the folder that are none of a book's.
    std::vector<std::string> strays() const;
    engine::FoundText text(const std::string& seal) const;
    engine::SealedTexts texts() const;

    // The book as it is. R001: it cannot be read, or records are missing that its head names; R004:
    // a record is not as it was sealed or not the one that the head names, or breaks a rule of the
    // book. With `about` a large book is open sooner, and of what its index speaks of
    // the state has only that; its newest event, keys, number and seal are those of all.
    lang::Outcome<BookState> state(const About* about = nullptr) const;
    // One record, with its texts if it is a quote. R001, R004.
    lang::Outcome<engine::Record> record(std::uint64_t index) const;
    // The same of a quote by its number. R002: there is none.
    lang::Outcome<engine::Record> quote(const BookState& state, const std::string& number) const;

    // Adds one record. `make` is given the book as it is and makes the record, whose texts are
    // those its quote carries and `also`; or says why there is none. It is called again when
    // somebody else was faster. Program, time, number, chain, seal and signature are put in here.
    // `key`: an Ed25519 secret key, or empty. Without a value nothing was added: R001, R003, R004,
    // R005 (a rule of quotes), R008 (a rule of keys), or what `make` said.
    struct Coming {
        engine::Record record;
        std::vector<std::string> also{};
    };
    using Make = std::function<lang::Outcome<Coming>(const BookState& state)>;
    // `about`: what `make` looks at, and what the record speaks of.
    lang::Outcome<Added> append(const Make& make, std::string_view key = {},
                                const About* about = nullptr) const;

    lang::Diagnostic unread(std::string reason) const;
    lang::Diagnostic unwritten(std::string reason) const;

  private:
    std::string folder_;

    std::string path(std::string_view name) const { return folder_ + "/" + std::string(name); }
    lang::Outcome<std::uint64_t> newest_index() const;
    std::optional<lang::Diagnostic> not_whole(const BookState& state, bool all) const;
    struct Tail;
    Tail read_tail(std::uint64_t from, std::uint64_t newest, std::string seal) const;
    std::string write_head(const std::string& text) const;
    std::optional<lang::Diagnostic> finish(const BookState& state) const;
    std::string put_text(const std::string& seal, const std::string& text) const;
    std::optional<lang::Diagnostic> put_texts(const Coming& coming) const;
    lang::Outcome<Added> put(Coming coming, const BookState& state, std::string_view key,
                             bool& taken) const;
};

} // namespace acre::cli
