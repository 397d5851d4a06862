// A sealed record: its text in a book, and what makes that text hold. Anybody can seal; a seal says
// that a record is as it was written, not by whom. The signature, where there is one, says that.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "lang/diag/outcome.h"

namespace acre::engine {

// The seal of a record: SHA-256 over its canonical text without the members "seal" and "signature".
// The signature, where there is one, is over the seal; the member "signer" tells by whose key.
std::string seal_of(const nlohmann::json& record);

// `body` with its number in the book, the seal of the record before it (null: it is the first), and
// its own seal; signed with `key`, an Ed25519 secret key (engine/book/seal.h), unless it is empty.
nlohmann::json sealed(nlohmann::json body, std::uint64_t index, const nlohmann::json* before,
                      std::string_view key);

// The record of a file's bytes. R004: it is not whole, it was changed after it was sealed, or its
// members are not those of a record. `file` is named in what is said.
lang::Outcome<nlohmann::json> read_sealed(std::string_view bytes, std::string_view file);

} // namespace acre::engine
