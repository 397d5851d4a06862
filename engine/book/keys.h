// Whose signatures count in a book. It is unsigned until a record states a first key, signed by
// that key; from there on every record is signed by a key that is current, and only a record so
// signed admits another or retires one.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "engine/book/event.h"

namespace acre::engine {

struct Signer {
    std::string key, name;        // as admitted
    std::int64_t admitted = 0;    // the number of the record
    std::int64_t retired = 0;     // 0: current
    std::int64_t signed_here = 0; // how many records
    bool trusted = false;         // it was given, or admitted by one that is trusted
};

class Keys {
  public:
    // Only these keys, and those that they admit, are trusted; none: whatever the book states.
    void trust_only(std::set<std::string> given) { given_ = std::move(given); }

    // The rule that the record breaks, or empty. Its signature is read_record's to check.
    std::string add(const Event& event);
    // Why this key may not sign the next record, or empty; `key` empty: it is not signed.
    std::string why_not(const std::string& key) const;
    // Why the book may not take this change of keys, signed by `signer`.
    std::string why_not_change(const std::string& action, const std::string& key,
                               const std::string& signer) const;

    bool is_signed() const { return !signers_.empty(); }
    const std::vector<Signer>& signers() const { return signers_; }
    std::int64_t unsigned_records() const { return unsigned_; } // before the first key
    // Keys that were given and are not in the book, at the end of it.
    std::vector<std::string> given_and_missing() const;

  private:
    std::vector<Signer> signers_;
    std::set<std::string> given_;
    std::int64_t unsigned_ = 0;

    const Signer* find(const std::string& key) const;
    std::size_t current() const;
    void change(const Event& event);
};

} // namespace acre::engine
