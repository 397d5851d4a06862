// The quote book: a folder of records that several people on several machines may share. A record
// is one file, written once and never changed; each carries the seal of the one before it.
//
//   000001.json 000002.json …   the records, canonical JSON and a line end
//   head                        the number and the seal of the newest record known to be whole
//   lock                        held while a record is added
//   .acrewright-…               a record or a head on its way in; what a crash leaves of it is no
//   record (cli/shared/files/durable.h)
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/book/chain.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

inline constexpr std::size_t max_book_records = 50'000;
inline constexpr std::size_t max_record_bytes = std::size_t{16} << 20U;
inline constexpr std::size_t max_book_bytes = std::size_t{1}
                                              << 30U; // of all records together, where all are read

struct BookEntry {
    std::uint64_t index = 0; // from 1
    std::string bytes;       // as in the file
    std::string file() const { return engine::record_file(index); }
};

// A record that was added, with its seal. It is on the disk, unless `fleeting` says why it may be
// lost in a power cut (R003).
struct Added {
    BookEntry entry;
    std::string seal;
    std::optional<lang::Diagnostic> fleeting;
    std::string note; // what was met on the way, or empty
};

class Book {
  public:
    explicit Book(std::string folder);

    const std::string& folder() const { return folder_; }

    // Makes the folder if it is not there. R003.
    std::optional<lang::Diagnostic> create() const;

    // One record after another in order, so that a book need not be in memory whole; faults of
    // records are left to the visitor, and what it gives back ends the visit. None: all were
    // visited. R001: the folder or a record cannot be read, or comes to more than the limits.
    using Visit = std::function<std::optional<lang::Diagnostic>(const BookEntry& entry)>;
    std::optional<lang::Diagnostic> each(const Visit& visit) const;

    // Seals, chain, order, gaps and the head; `also` sees every record on the way. None: every
    // record is as it was written. R001.
    lang::Outcome<std::vector<engine::BookFault>> verify(const Visit& also = {}) const;

    // Adds one record. `make` is given the newest record (or null) and returns its body, or why
    // there is none; it is called again when somebody else was faster. "previous", "record", "seal"
    // and what signs it are put in here. `key`: an Ed25519 secret key (engine/book/seal.h) to sign
    // the seal with, or empty. Without a value nothing was added: R001, R003, R004 (of the newest
    // record), or what `make` said.
    using Make = std::function<lang::Outcome<nlohmann::json>(const nlohmann::json* newest)>;
    lang::Outcome<Added> append(const Make& make, std::string_view key = {}) const;

  private:
    std::string folder_;

    std::string path(std::string_view name) const { return folder_ + "/" + std::string(name); }
    lang::Diagnostic unread(std::string reason) const;
    lang::Diagnostic unwritten(std::string reason) const;
    lang::Outcome<std::vector<std::uint64_t>> indices() const;
    lang::Outcome<std::string> read(const std::string& name) const;
    lang::Outcome<nlohmann::json> newest_record(std::uint64_t index) const;
    std::string write_head(const std::string& text) const;
    std::optional<lang::Diagnostic> finish(std::uint64_t index, const nlohmann::json* newest) const;
    lang::Outcome<Added> put(std::uint64_t index, const nlohmann::json& record, bool& taken) const;
};

} // namespace acre::cli
