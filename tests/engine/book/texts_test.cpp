// The texts of a record: which it names, and how they are fetched.
#include "engine/book/texts.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
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

TEST_CASE("a quote is made again from the texts that it names, and from none if one is missing") {
    QuoteRecord full;
    full.request = {"j.job", "job", "deep", "set area = 3 ac\n", "late.season", {{"a", "1"}}, 2};
    for (const std::string name : {"j.job", "m.rate", "late.season", "early.season"})
        full.texts[name] = carry(full, "text of " + name);
    full.references = {{"model", "m", "j.job", "m.rate"},
                       {"season", "early", "j.job", "early.season"}};
    const auto made = made_from(full);
    REQUIRE(made);
    CHECK(made->request.name == "j.job");
    CHECK(made->request.text == "text of j.job");
    CHECK(made->request.kind == acre::lang::FileKind::Job);
    CHECK(made->request.option == "deep");
    CHECK(made->request.field_sets == "set area = 3 ac\n");
    CHECK(made->request.notation == 2);
    CHECK(made->request.sets == full.request.sets);
    REQUIRE(made->request.season);
    CHECK(made->request.season->name == "late.season");
    CHECK(made->request.season->text == "text of late.season");
    CHECK(made->texts.texts.size() == 4);
    CHECK(made->texts.texts.at("m.rate") == "text of m.rate");
    CHECK(made->texts.names.size() == 2);
    CHECK(made->texts.names.at({acre::lang::ReferenceKind::Model, "m", "j.job"}) == "m.rate");

    QuoteRecord plain = full;
    plain.request.season.clear();
    plain.request.kind = "model";
    plain.carried.erase(plain.texts.at("m.rate")); // asked for when it is priced
    const auto from_plain = made_from(plain);
    REQUIRE(from_plain);
    CHECK_FALSE(from_plain->request.season.has_value());
    CHECK(from_plain->request.kind == acre::lang::FileKind::Model);
    CHECK(from_plain->texts.texts.size() == 3);

    for (const char* lost : {"j.job", "late.season"}) {
        QuoteRecord unnamed = full;
        unnamed.texts.erase(lost);
        CHECK_FALSE(made_from(unnamed));
        QuoteRecord not_carried = full;
        not_carried.carried.erase(full.texts.at(lost));
        CHECK_FALSE(made_from(not_carried));
    }
    // A notation of nowhere is the nearest that there is.
    for (const auto& [written, read] :
         {std::pair(std::int64_t{-5}, 1U), std::pair(std::int64_t{0}, 1U),
          std::pair(std::int64_t{1} << 40, acre::lang::current_notation)}) {
        full.request.notation = written;
        CHECK(made_from(full)->request.notation == read);
    }
}

TEST_CASE("a kept text is read once, one at fault or too large each time") {
    std::map<std::string, int> asked;
    KeptTexts texts([&](const std::string& seal) {
        ++asked[seal];
        if (seal == "bad")
            return FoundText{"half", "is broken"};
        return FoundText{std::string(seal == "large"  ? kept_text_bytes + 1
                                     : seal == "most" ? kept_text_bytes
                                                      : 3,
                                     'a'),
                         {}};
    });
    for (int i = 0; i < 2; ++i) {
        CHECK(texts.find("small").text == "aaa");
        CHECK(texts.find("bad").fault == "is broken");
        CHECK(texts.find("large").text.size() == kept_text_bytes + 1);
    }
    CHECK(asked == std::map<std::string, int>{{"small", 1}, {"bad", 2}, {"large", 2}});
    // What no longer fits beside the others takes their place.
    for (int i = 0; i < 2; ++i)
        CHECK(texts.find("most").text.size() == kept_text_bytes);
    CHECK(asked["most"] == 1);
    texts.find("small");
    texts.find("small");
    CHECK(asked["small"] == 2);
    texts.find("other");
    texts.find("small");
    CHECK(asked["small"] == 2);
    texts.find("most");
    CHECK(asked["most"] == 2);
}

} // namespace texts_test
