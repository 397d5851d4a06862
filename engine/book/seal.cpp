#include "engine/book/seal.h"

#include <array>
#include <cstddef>
#include <cstdlib>
#include <vector>

#include <sodium.h>

namespace acre::engine {
namespace {

// Safe to call again; fails only where the machine has no source of randomness at all.
void start() {
    static const bool started = sodium_init() >= 0;
    if (!started)
        std::abort();
}

using Bytes = std::vector<unsigned char>;

std::string hex(const unsigned char* bytes, std::size_t size) {
    std::string text(size * 2 + 1, '\0');
    sodium_bin2hex(text.data(), text.size(), bytes, size);
    text.pop_back();
    return text;
}
// Empty if it is not `size` bytes in lower-case hexadecimal digits.
std::optional<Bytes> bytes_of(std::string_view text, std::size_t size) {
    if (text.size() != size * 2 ||
        text.find_first_not_of("0123456789abcdef") != std::string_view::npos)
        return std::nullopt;
    Bytes bytes(size);
    std::size_t read = 0;
    if (sodium_hex2bin(bytes.data(), size, text.data(), text.size(), nullptr, &read, nullptr) !=
            0 ||
        read != size)
        return std::nullopt;
    return bytes;
}
const unsigned char* raw(std::string_view text) {
    return reinterpret_cast<const unsigned char*>(text.data());
}

} // namespace

std::string sha256(std::string_view bytes) {
    start();
    std::array<unsigned char, crypto_hash_sha256_BYTES> digest{};
    crypto_hash_sha256(digest.data(), raw(bytes), bytes.size());
    return hex(digest.data(), digest.size());
}

std::optional<KeyPair> key_pair_from_seed(std::string_view seed) {
    start();
    const std::optional<Bytes> bytes = bytes_of(seed, crypto_sign_SEEDBYTES);
    if (!bytes)
        return std::nullopt;
    std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> open{};
    std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
    crypto_sign_seed_keypair(open.data(), secret.data(), bytes->data());
    return KeyPair{hex(secret.data(), secret.size()), hex(open.data(), open.size())};
}

KeyPair new_key_pair() {
    start();
    std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> open{};
    std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
    crypto_sign_keypair(open.data(), secret.data());
    return {hex(secret.data(), secret.size()), hex(open.data(), open.size())};
}

std::optional<std::string> open_half(std::string_view secret) {
    if (secret.size() != 2 * crypto_sign_SECRETKEYBYTES)
        return std::nullopt;
    const std::optional<KeyPair> pair =
        key_pair_from_seed(secret.substr(0, 2 * crypto_sign_SEEDBYTES));
    if (!pair || pair->secret != secret)
        return std::nullopt;
    return pair->open;
}

std::optional<std::string> sign(std::string_view bytes, std::string_view secret) {
    start();
    const std::optional<Bytes> key = bytes_of(secret, crypto_sign_SECRETKEYBYTES);
    if (!key)
        return std::nullopt;
    std::array<unsigned char, crypto_sign_BYTES> signature{};
    crypto_sign_detached(signature.data(), nullptr, raw(bytes), bytes.size(), key->data());
    return hex(signature.data(), signature.size());
}

bool is_signed(std::string_view bytes, std::string_view signature, std::string_view open) {
    start();
    const std::optional<Bytes> mark = bytes_of(signature, crypto_sign_BYTES);
    const std::optional<Bytes> key = bytes_of(open, crypto_sign_PUBLICKEYBYTES);
    return mark && key &&
           crypto_sign_verify_detached(mark->data(), raw(bytes), bytes.size(), key->data()) == 0;
}

} // namespace acre::engine
