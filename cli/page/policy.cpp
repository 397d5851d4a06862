#include "cli/page/policy.h"

#include <algorithm>
#include <cstdint>
#include <set>

#include "engine/book/seal.h"

namespace acre::cli {
namespace {

std::uint32_t digit(char hexadecimal) {
    return static_cast<std::uint32_t>(hexadecimal <= '9' ? hexadecimal - '0'
                                                         : hexadecimal - 'a' + 10);
}

// The same bytes in base64 (RFC 4648, section 4), which is how a policy takes them.
std::string base64_of(std::string_view hexadecimal) {
    constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    for (std::size_t at = 0; at < hexadecimal.size(); at += 6) {
        std::uint32_t bits = 0;
        for (std::size_t i = at; i < at + 6; ++i)
            bits = bits << 4U | (i < hexadecimal.size() ? digit(hexadecimal[i]) : 0);
        const std::size_t bytes = (std::min(at + 6, hexadecimal.size()) - at) / 2;
        for (std::size_t i = 0; i < 4; ++i)
            out += i <= bytes ? letters[bits >> (18 - 6 * i) & 63U] : '=';
    }
    return out;
}

// One source for each element that begins with `tag`. Texts of strangers are escaped where they
// stand, so the letters of a tag are one.
std::string sources(std::string_view html, std::string_view tag, std::string_view end) {
    std::set<std::string> hashes;
    for (std::size_t at = html.find(tag); at != std::string_view::npos; at = html.find(tag, at)) {
        at += tag.size();
        const std::string_view text = html.substr(at, html.find(end, at) - at);
        hashes.insert(" 'sha256-" + base64_of(engine::sha256(text)) + "'");
    }
    std::string all;
    for (const std::string& hash : hashes)
        all += hash;
    return all;
}

} // namespace

std::string content_policy(std::string_view html) {
    return "default-src 'none'; style-src" + sources(html, "<style>", "</style>") + "; script-src" +
           sources(html, "<script>", "</script>") +
           sources(html, "<script id=\"engine\">", "</script>") +
           // The module is compiled from what stands in the page, the worker started from it.
           " 'wasm-unsafe-eval'; worker-src blob:; base-uri 'none'; form-action 'none'";
}

} // namespace acre::cli
