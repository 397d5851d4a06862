// What is under a seal, and how deep a record may be.
#include "engine/book/canonical.h"

#include <map>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "engine/book/record.h"
#include "engine/book/seal.h"

namespace canonical_test {

using namespace acre::engine;

namespace {

// A text within so many brackets.
std::string nested(int levels, const std::string& inside) {
    return std::string(static_cast<std::size_t>(levels), '[') + inside +
           std::string(static_cast<std::size_t>(levels), ']') + "\n";
}

} // namespace

TEST_CASE("all but seal and signature is sealed, whatever else is called like them") {
    for (const std::string schema : {"acrewright.record/1", "acrewright.record/2"}) {
        CAPTURE(schema);
        nlohmann::json record = {{"schema", schema}, {"signer", "a"},
                                 {"seals", 1},       {"Seal", 2},
                                 {"sea", 3},         {"signatures", 4},
                                 {"number", 5},      {"inner", {{"seal", 6}, {"signature", 7}}}};
        const std::string whole = canonical(record);
        record["seal"] = "b";
        record["signature"] = "c";
        CHECK(sealed_text(record) == whole);
        std::string sealed;
        REQUIRE(read_canonical(canonical(record) + "\n", &sealed));
        CHECK(sealed == whole);
    }
    std::string sealed;
    REQUIRE(read_canonical("{\"schema\":\"acrewright.record/2\",\"seal\":\"b\"}\n", &sealed));
    CHECK(sealed == "{\"schema\":\"acrewright.record/2\"}");
}

TEST_CASE("a record is as deep as its limit, and no deeper") {
    CHECK(read_canonical(nested(max_record_depth, "1")));
    CHECK(read_canonical(nested(max_record_depth, "\"a\"")));
    CHECK_FALSE(read_canonical(nested(max_record_depth + 1, "1")));
    CHECK_FALSE(read_canonical(nested(max_record_depth + 1, "\"a\"")));
    CHECK_FALSE(read_canonical(nested(max_record_depth, "\"]]]\",[1]")));
    // One that is empty holds no value.
    CHECK(read_canonical(nested(max_record_depth, "[]")));
    CHECK(read_canonical(nested(max_record_depth, "{}")));
    CHECK_FALSE(read_canonical(nested(max_record_depth, "{\"a\":1}")));
    // Brackets inside of a text are letters, also behind a quote that is part of it.
    const std::string brackets(200, '[');
    CHECK(read_canonical("[\"" + brackets + "\"]\n"));
    CHECK(read_canonical("[\"\\\"" + brackets + "\",1]\n"));
    CHECK(read_canonical("[\"\\\\\",\"" + brackets + "\"]\n"));
    // Side by side they are no deeper.
    std::string beside = "[[1]";
    for (int i = 0; i < 200; ++i)
        beside += ",[1]";
    CHECK(read_canonical(beside + "]\n"));
}

TEST_CASE("bytes that are no UTF-8 are written as U+FFFD, one for each, and read as no record") {
    for (const auto& [text, written] :
         std::map<std::string, std::string>{{"\x80", "\xef\xbf\xbd"},
                                            {"ab\x80", "ab\xef\xbf\xbd"},
                                            {"a\xff\xff"
                                             "b",
                                             "a\xef\xbf\xbd\xef\xbf\xbd"
                                             "b"},
                                            {"\xc3\xa9\x80", "\xc3\xa9\xef\xbf\xbd"}}) {
        CHECK(canonical(nlohmann::json(text)) == "\"" + written + "\"");
        CHECK(read_canonical("\"" + written + "\"\n"));
        CHECK_FALSE(read_canonical("\"" + text + "\"\n"));
    }
}

TEST_CASE("where a value belongs and none stands there is no record") {
    for (const char* text : {"[,1]", "[1,,2]", "[1,]", "[-]", "[-,1]", "{\"a\":}",
                             "{\"a\":,\"b\":1}", "-", ",", "[+1]", "[.5]", "[x]"})
        CHECK_FALSE(read_canonical(std::string(text) + "\n"));
    CHECK(read_canonical("[-1,0.5,1]\n"));
}

TEST_CASE("a record is sealed anew, with a key or without") {
    Record record;
    QuoteRecord quote;
    quote.number = "2027-001";
    quote.lines = {{"overhead.total", "$", "", 250.5}};
    record.body = quote;
    record.program = "1.0";
    record.written = "2027-03-01T12:00:00Z";
    const KeyPair keys = new_key_pair();
    for (const std::string& key : {keys.secret, std::string(), keys.secret}) {
        const std::string bytes = seal_record(record, 3, "before", key);
        const ReadRecord read = read_record(bytes);
        CHECK(read.fault == "");
        CHECK(read.whole);
        CHECK(read.record.index == 3);
        CHECK(read.record.previous == "before");
        CHECK(read.record.seal == record.seal);
        CHECK(read.record.signature.empty() == key.empty());
        CHECK(read.record.signer == (key.empty() ? "" : keys.open));
        REQUIRE(read.record.quote() != nullptr);
        CHECK(read.record.quote()->overhead == 250.5);
        // One letter less, or another one.
        CHECK_FALSE(read_record(bytes.substr(1)).whole);
        std::string other = bytes;
        other.replace(other.find("2027-001"), 8, "2027-002");
        CHECK(read_record(other).fault == "was changed after it was sealed");
        // By somebody else's key.
        if (!key.empty()) {
            other = bytes;
            other.replace(other.find(record.signature), 8,
                          record.signature.starts_with("00000000") ? "11111111" : "00000000");
            CHECK(read_record(other).fault == "is not signed by the key it names");
        }
    }
}

} // namespace canonical_test
