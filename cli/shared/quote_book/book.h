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

namespace acre::cli {

inline constexpr std::size_t max_book_records = 50'000;
inline constexpr std::size_t max_record_bytes = std::size_t{16} << 20U;
inline constexpr std::size_t max_book_bytes = std::size_t{1}
                                              << 30U; // of all records together, where all are read
inline constexpr std::size_t max_book_faults = 1'000; // told of one book

struct BookEntry {
    std::uint64_t index = 0; // from 1
    std::string seal;        // of this record
    std::string bytes;       // as in the file
};

// What is wrong with a book, each with the file it is about.
struct BookFault {
    std::string file;
    std::string what;
};

class Book {
  public:
    explicit Book(std::string folder);

    const std::string& folder() const { return folder_; }

    // Makes the folder if it is not there. Empty: done; else the system's reason.
    std::string create() const;

    // Reads all records in order. False when the folder cannot be read; `reason` says why. Faults
    // of records are left to verify.
    bool read(std::vector<BookEntry>& entries, std::string& reason) const;
    // One record after another, so that a book need not be in memory whole; the seal is left to the
    // visitor. False: `reason` says why, or the visitor gave back false.
    using Visit = std::function<bool(BookEntry& entry)>;
    bool each(const Visit& visit, std::string& reason) const;

    // Adds one record. `make` is given the newest record (or null) and the index of the one to
    // come, and returns its body (anything but an object: nothing is added); it is called again
    // when somebody else was faster. "previous", "record", "seal" and what signs it are put in
    // here. On success `added` holds the record as written and it is on the disk. Else the reason
    // comes back and nothing was added, unless `added` holds a record all the same: then it stands
    // in the book but may not outlive a power cut.
    using Make = std::function<nlohmann::json(const nlohmann::json* newest, std::uint64_t index)>;
    // `key`: an Ed25519 secret key (engine/book/seal.h) to sign the seal with, or empty.
    std::string append(const Make& make, BookEntry& added, std::string_view key = {}) const;

    // Seals, chain, order, gaps and the head. Empty: every record is as it was written.
    std::vector<BookFault> verify() const;

    static std::string file_name(std::uint64_t index); // "000001.json"

  private:
    std::string folder_;

    std::string path(std::string_view name) const { return folder_ + "/" + std::string(name); }
    bool newest_index(std::uint64_t& index, std::string& reason) const;
};

// The seal of a record: SHA-256 over its canonical text without the members "seal" and "signature".
// The signature, where there is one, is over the seal; the member "signer" tells by whose key.
std::string seal_of(const nlohmann::json& record);

} // namespace acre::cli
