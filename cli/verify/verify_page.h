// A quote book verified, ready to be shown.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "engine/book/again.h"
#include "engine/book/chain.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

enum class Compared : std::uint8_t { Equal, ByProgram, Fault };

// A quote priced again, with its pages made again.
struct ComparedQuote {
    std::string quote, file;
    Compared outcome = Compared::Equal;
    std::string program; // that wrote it
    std::string because; // by the program: the function or rule
    std::vector<std::string> differences;
};

struct VerifyQuestion {
    std::string folder;
    std::vector<std::string> keys; // open keys that alone are trusted; none: what the book states
    std::optional<engine::Head> head; // kept elsewhere
    unsigned threads = 1;             // what is said is the same for any number
};

struct Verified {
    std::size_t records = 0, version_1 = 0;
    std::size_t unknown = 0; // records of kinds that this program does not know
    std::vector<engine::BookFault> faults;
    std::vector<ComparedQuote> quotes;
    std::vector<std::string> remarks; // of files that are none of the book's
    std::vector<engine::Signer> signers;
    std::int64_t unsigned_records = 0; // before the first key
    bool keys_given = false, head_given = false;
    engine::Head head;

    std::size_t count(Compared outcome) const;
    bool in_order() const { return faults.empty() && count(Compared::Fault) == 0; }
    // What a book like this cannot prove, a sentence each.
    std::vector<std::string> not_proved() const;
};

// R001: the folder is no book.
lang::Outcome<Verified> verify_book(const VerifyQuestion& question);

// A quote against what its own texts come to; they must be carried.
ComparedQuote compare_quote(const engine::Record& record, const std::string& file,
                            engine::KeptBetween& kept);

std::string verify_text(const Verified& verified);
// Schema acrewright.verify/1. Field by field in cli/README.md.
Document verify_json(const Verified& verified);

} // namespace acre::cli
