#include "engine/book/seal.h"

#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"

namespace seal_test {

using namespace acre::engine;

TEST_CASE("SHA-256 gives the digests of FIPS 180-4") {
    // NIST, "Secure Hash Standard" example values: one block "abc", two blocks, and the empty
    // message.
    CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("Ed25519 gives the signatures of RFC 8032, section 7.1") {
    // TEST 1: empty message. TEST 2: one byte 0x72.
    const auto one =
        key_pair_from_seed("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60");
    REQUIRE(one);
    CHECK(one->open == "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a");
    CHECK(sign("", one->secret) == "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e0652249015"
                                   "55fb8821590a33bacc61e39701cf9b46b"
                                   "d25bf5f0595bbe24655141438e7a100b");
    const auto two =
        key_pair_from_seed("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb");
    REQUIRE(two);
    CHECK(two->open == "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
    const auto signature = sign("\x72", two->secret);
    CHECK(signature == "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e1"
                       "5996e458f3613d0f11d8c387b2eaeb430"
                       "2aeeb00d291612bb0c00");
    CHECK(is_signed("\x72", *signature, two->open));
    CHECK(!is_signed("\x73", *signature, two->open));
    CHECK(!is_signed("\x72", *signature, one->open));
}

TEST_CASE("numbers are printed as ECMAScript does") {
    // RFC 8785, appendix B: the bits of the double, and its text.
    const struct {
        std::uint64_t bits;
        const char* text;
    } cases[] = {
        {0x0000000000000000, "0"},
        {0x8000000000000000, "0"},
        {0x0000000000000001, "5e-324"},
        {0x8000000000000001, "-5e-324"},
        {0x7fefffffffffffff, "1.7976931348623157e+308"},
        {0xffefffffffffffff, "-1.7976931348623157e+308"},
        {0x4340000000000000, "9007199254740992"},
        {0xc340000000000000, "-9007199254740992"},
        {0x4430000000000000, "295147905179352830000"},
        {0x44b52d02c7e14af5, "9.999999999999997e+22"},
        {0x44b52d02c7e14af6, "1e+23"},
        {0x44b52d02c7e14af7, "1.0000000000000001e+23"},
        {0x444b1ae4d6e2ef4e, "999999999999999700000"},
        {0x444b1ae4d6e2ef4f, "999999999999999900000"},
        {0x444b1ae4d6e2ef50, "1e+21"},
        {0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
        {0x3eb0c6f7a0b5ed8d, "0.000001"},
        {0x41b3de4355555553, "333333333.3333332"},
        {0x41b3de4355555554, "333333333.33333325"},
        {0x41b3de4355555555, "333333333.3333333"},
        {0x41b3de4355555556, "333333333.3333334"},
        {0x41b3de4355555557, "333333333.33333343"},
        {0xbecbf647612f3696, "-0.0000033333333333333333"},
        {0x43143ff3c1cb0959, "1424953923781206.2"},
    };
    for (const auto& [bits, text] : cases)
        CHECK(number_as_printed(std::bit_cast<double>(bits)) == text);
}

TEST_CASE("members are sorted as RFC 8785, section 3.2.3, shows it") {
    const auto value = nlohmann::json::parse(
        R"({"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With )"
        R"(Dagesh", "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", )"
        R"("\u00f6": "Latin Small Letter O With Diaeresis"})");
    CHECK(canonical(value) ==
          "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\xc2\x80\":\"Control\","
          "\"\xc3\xb6\":\"Latin Small Letter O With Diaeresis\",\"\xe2\x82\xac\":\"Euro Sign\","
          "\"\xf0\x9f\x98\x80\":\"Emoji: Grinning Face\","
          "\"\xef\xac\xb3\":\"Hebrew Letter Dalet With Dagesh\"}");
}

TEST_CASE("bytes that are no UTF-8 become U+FFFD") {
    CHECK(utf8_text("a\xff"
                    "b\xc3") == "a\xef\xbf\xbd"
                                "b\xef\xbf\xbd");
    CHECK(utf8_text("\xed\xa0\x80") == "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd"); // a surrogate
    CHECK(utf8_text("\xc0\x80").size() == 6); // longer than need be
    CHECK(utf8_text("Größe 😀") == "Größe 😀");
}

TEST_CASE("a secret key whose halves are not of one key is none") {
    const KeyPair one = new_key_pair();
    const KeyPair other = new_key_pair();
    CHECK(open_half(one.secret) == one.open);
    CHECK(!open_half(one.secret.substr(0, 64) + other.open));
    CHECK(!open_half(""));
}

TEST_CASE("malformed keys and signatures are refused, not used") {
    CHECK(!key_pair_from_seed("9d61"));
    CHECK(!key_pair_from_seed(std::string(64, 'G')));
    CHECK(!sign("x", "00"));
    const KeyPair keys = new_key_pair();
    CHECK(!is_signed("x", "", keys.open));
    CHECK(!is_signed("x", std::string(128, '0'), keys.open));
}

TEST_CASE("one value has one canonical text, and only that text is read back") {
    const auto value = nlohmann::json::parse(
        R"({ "b": [1.0, 2.50, 1e21, true, null], "a": {"é": "x\u0041\n", "Z": -0.1},
             "schema": "acrewright.record/2" })");
    const std::string text = canonical(value);
    CHECK(text == R"({"a":{"Z":-0.1,"é":"xA\n"},"b":[1,2.5,1e+21,true,null],)"
                  R"("schema":"acrewright.record/2"})");
    CHECK(read_canonical(text + "\n"));
    for (const std::string& bad :
         {text, text + "\n\n", " " + text + "\n", std::string("{\"b\":1,\"a\":2}\n"),
          std::string("{\"a\":1.0e0}\n"), std::string("{\"a\":1,\"a\":1}\n"), std::string("\n"),
          std::string("{"), std::string(1000, '[') + "\n"}) {
        CAPTURE(bad.substr(0, 60));
        CHECK(!read_canonical(bad));
    }
}

// A text is canonical if a reader of any JSON takes it and it is written out the same.
TEST_CASE("of texts with a byte changed those are read that are written out the same") {
    const std::string whole =
        canonical(nlohmann::json::parse(
            R"({"a": {"é": "x\u0001\n\"\\\u001f/", "ﬃ": -0.1, "😀": [[], {}, [0]]}, "aa": "\u007f",
                "b": [1, 2.5, 1e21, 1e-7, 0.000001, 12345678901234567, 5e-324, true, false, null],
                "schema": "acrewright.record/2"})")) +
        "\n";
    REQUIRE(read_canonical(whole));
    std::size_t read = 0, tried = 0;
    for (std::size_t at = 0; at < whole.size(); ++at)
        for (const std::string& put :
             {std::string(), std::string("0"), std::string("-"), std::string("."), std::string("1"),
              std::string("e"), std::string("\\"), std::string("\""), std::string(","),
              std::string("u"), std::string(" "), std::string("]"), std::string("z"),
              std::string("\x01"), std::string("\x80"), std::string("é")})
            for (const std::size_t instead : {0U, 1U}) {
                std::string text = whole;
                text.replace(at, instead, put);
                const auto value = nlohmann::json::parse(text, nullptr, false);
                const bool is_canonical =
                    !value.is_discarded() &&
                    (is_version_1(value) ? canonical_1(value) : canonical(value)) + "\n" == text;
                CAPTURE(text);
                CHECK(read_canonical(text).has_value() == is_canonical);
                ++tried;
                read += is_canonical ? 1 : 0;
            }
    CHECK(read > 1000); // changed texts that are canonical too
    CHECK(tried - read > 1000);
}

TEST_CASE("a number is printed the same whichever way it is told") {
    std::uint64_t bits = 88172645463325252U;
    for (int i = 0; i < 200'000; ++i) {
        bits ^= bits << 13U;
        bits ^= bits >> 7U;
        bits ^= bits << 17U;
        // Sizes around those that are printed without an exponent.
        const double value = std::ldexp(static_cast<double>(bits >> (i % 50)), -40 - i % 60);
        const std::string text = number_as_printed(value);
        REQUIRE(std::stod(text) == value);
        std::array<char, 40> room{};
        const auto end = std::to_chars(room.data(), room.data() + room.size(), value,
                                       std::chars_format::scientific);
        const auto digits = [](std::string_view number) {
            std::string all;
            for (const char c : number.substr(0, number.find('e')))
                if (c >= '0' && c <= '9')
                    all += c;
            all.erase(0, all.find_first_not_of('0'));
            all.erase(all.find_last_not_of('0') + 1);
            return all;
        };
        REQUIRE(digits(text) == digits(std::string(room.data(), end.ptr)));
        CHECK(is_as_printed(text, value));
        CHECK(!is_as_printed(text + "0", value));
    }
    CHECK(is_as_printed("0", 0));
    CHECK(!is_as_printed("-0", -0.0));
}

} // namespace seal_test
