// Seals and signatures, by libsodium: SHA-256 (FIPS 180-4) and Ed25519 (RFC 8032). All as
// lower-case hexadecimal text.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::engine {

std::string sha256(std::string_view bytes); // 64 hexadecimal digits

struct KeyPair {
    std::string secret; // 128 hexadecimal digits
    std::string open;   // 64 hexadecimal digits
};
// From 32 bytes of seed as 64 hexadecimal digits. Empty if the seed is malformed.
std::optional<KeyPair> key_pair_from_seed(std::string_view seed);
KeyPair new_key_pair();

// The open half of a secret key, worked out from its seed. Empty if the key is malformed or its
// second half is that of another key.
std::optional<std::string> open_half(std::string_view secret);

// Empty if the key is malformed.
std::optional<std::string> sign(std::string_view bytes, std::string_view secret);
bool is_signed(std::string_view bytes, std::string_view signature, std::string_view open);

} // namespace acre::engine
