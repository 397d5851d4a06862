// The texts of a record: which it names, and how they are fetched.
#include "engine/book/texts.h"

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace texts_test {

using namespace acre::engine;
using Seals = std::vector<std::string>;

namespace {

// Every text that a quote may name.
QuoteRecord quote() {
    QuoteRecord out;
    out.texts = {{"j.job", "1"}, {"m.rate", "2"}};
    out.pictures = {{"", "3"}, {"North", "4"}};
    out.wording = "short";
    out.wording_text = "5";
    out.page_html = "6";
    out.page_text = "7";
    return out;
}

Seals sorted(Seals seals) {
    std::sort(seals.begin(), seals.end());
    return seals;
}

} // namespace

TEST_CASE("a seal is 64 digits from 0 to f") {
    CHECK(is_seal(std::string(64, '0')));
    CHECK(is_seal(std::string(32, 'a') + std::string(32, 'f')));
    for (const std::string& text :
         {std::string(), std::string(63, '0'), std::string(65, '0'), std::string(63, '0') + "g",
          std::string(63, '0') + "A", "/" + std::string(63, '0')})
        CHECK_FALSE(is_seal(text));
    QuoteRecord carrying;
    const std::string seal = carry(carrying, "abc");
    CHECK(seal == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"); // FIPS 180-4
    REQUIRE(carried_text(carrying, seal) != nullptr);
    CHECK(*carried_text(carrying, seal) == "abc");
    CHECK(carried_text(carrying, "other") == nullptr);
}

TEST_CASE("a record names the seals of all its texts, and of none that is not there") {
    Record record;
    record.body = quote();
    CHECK(sorted(seals_in(record)) == Seals{"1", "2", "3", "4", "5", "6", "7"});
    record.body = QuoteRecord{};
    CHECK(seals_in(record).empty());
    WordRecord word;
    CHECK((record.body = word, seals_in(record)).empty());
    word.log = "8";
    CHECK((record.body = word, seals_in(record)) == Seals{"8"});
    LogRecord log;
    log.text = "9";
    CHECK((record.body = log, seals_in(record)) == Seals{"9"});
    BillRecord bill;
    bill.log = "a";
    bill.posted = "b";
    bill.page = "c";
    CHECK(sorted((record.body = bill, seals_in(record))) == Seals{"a", "b", "c"});
    record.body = KeyRecord{"admit", "d", "Hazel", ""};
    CHECK(seals_in(record).empty());
}

TEST_CASE("all texts of a quote are fetched, each once, and the first that is at fault is named") {
    std::map<std::string, int> asked;
    const SealedTexts book = [&](const std::string& seal) {
        ++asked[seal];
        return FoundText{"text of " + seal, {}};
    };
    QuoteRecord whole = quote();
    whole.carried = {{"2", "at hand"}};
    CHECK(fetch_texts(whole, book) == "");
    CHECK(asked ==
          std::map<std::string, int>{{"1", 1}, {"3", 1}, {"4", 1}, {"5", 1}, {"6", 1}, {"7", 1}});
    CHECK(whole.carried.size() == 7);
    for (const auto& [seal, text] : whole.carried)
        CHECK(text == (seal == "2" ? "at hand" : "text of " + seal));
    QuoteRecord none;
    CHECK(fetch_texts(none, book) == "");
    CHECK(none.carried.empty());
    const std::map<std::string, std::string> named = {
        {"1", "j.job"}, {"2", "m.rate"},       {"3", "map "},        {"4", "map North"},
        {"5", "short"}, {"6", "page as HTML"}, {"7", "page as text"}};
    for (const auto& [bad, name] : named) {
        QuoteRecord without = quote();
        CHECK(fetch_texts(without, [&, wrong = bad](const std::string& seal) {
                  return seal >= wrong ? FoundText{{}, "is not there"} : FoundText{"a", {}};
              }) == "its text `" + name + "` is not there");
        CHECK(without.carried.size() == std::stoul(bad) - 1);
    }
}

} // namespace texts_test
