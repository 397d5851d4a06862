// The rules of keys, by cases that a bookkeeper would say aloud.
#include "engine/book/keys.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

namespace keys_test {

using namespace acre::engine;

TEST_CASE("keys: the first signs itself, each later one is admitted by a current one") {
    const std::string one(64, '1'), two(64, '2'), three(64, '3');
    std::int64_t record = 0;
    const auto event = [&](const std::string& action, const std::string& key,
                           const std::string& signer) {
        Event made;
        made.record = ++record;
        made.kind = action.empty() ? "word" : "key";
        made.action = action;
        made.key = key;
        made.signer = signer;
        return made;
    };
    Keys keys;
    CHECK(keys.add(event("", "", "")) == "");
    CHECK(keys.add(event("", "", one)) != "");
    CHECK(keys.add(event("admit", one, two)) != "");
    CHECK(keys.add(event("admit", one, one)) == "");
    CHECK(keys.add(event("", "", "")) == "is not signed, and every record since the first key is");
    CHECK(keys.add(event("", "", two)) == "is signed by a key that was never admitted");
    CHECK(keys.add(event("admit", two, two)) != "");
    CHECK(keys.add(event("retire", one, one)) != ""); // the last one
    CHECK(keys.add(event("admit", two, one)) == "");
    CHECK(keys.add(event("admit", two, one)) != "");
    CHECK(keys.add(event("retire", one, two)) == "");
    CHECK(keys.add(event("", "", one)) == "is signed by a key that was retired before it");
    CHECK(keys.add(event("admit", one, two)) != ""); // once retired it stays so
    CHECK(keys.add(event("promote", three, two)) != "");
    CHECK(keys.add(event("admit", "xyz", two)) != "");
    CHECK(keys.add(event("", "", two)) == "");
}

TEST_CASE("of keys that are given, only those and what they admit are trusted") {
    const std::string one(64, '1'), two(64, '2');
    const auto told = [&](const std::set<std::string>& given) {
        Keys keys;
        keys.trust_only(given);
        Event first;
        first.record = 1;
        first.kind = "key";
        first.action = "admit";
        first.key = first.signer = one;
        std::string broken = keys.add(first);
        first.record = 2;
        first.key = two;
        broken += keys.add(first);
        Event word;
        word.record = 3;
        word.kind = "word";
        word.signer = two;
        broken += keys.add(word);
        return broken + (keys.given_and_missing().empty() ? "" : "missing");
    };
    CHECK(told({}) == "");
    CHECK(told({one}) == "");
    CHECK(told({std::string(64, '9')}) != "");
}

} // namespace keys_test
