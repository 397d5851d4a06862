// The first book of quotes was sealed before texts said which version of the notation they are in.
// Each of its quotes comes out again to the cent, from its own texts by the rules of the first
// version, whatever the notation has become. The cents are those on the sealed records.
#include "engine/book/again.h"

#include <cstdint>
#include <map>
#include <string>

#include <doctest/doctest.h>

#include "engine/book/record.h"
#include "lang/earlier/rules.h"
#include "tests/support/demo.h"

namespace first_book_test {

using namespace acre;

TEST_CASE("every quote of the first book prices again to the cent") {
    const std::map<std::string, std::int64_t> sealed = {
        {"2027-001", 9'507'800}, {"2027-002", 19'169'140}, {"2027-003", 2'896'400},
        {"2027-004", 9'334'800}, {"2027-005", 24'701'500}, {"2027-006", 6'333'488},
        {"2027-007", 6'126'600}, {"2027-008", 10'738'432}, {"2027-009", 16'970'228},
        {"2027-010", 15'415'600}};
    std::map<std::string, std::int64_t> found;
    for (const auto& path : tests::demo_files("tests/book/version-1", ".json")) {
        const engine::ReadRecord read = engine::read_record(tests::text_of(path));
        CHECK(read.fault.empty());
        const engine::QuoteRecord* quote = read.record.quote();
        if (quote == nullptr)
            continue;
        CAPTURE(quote->number);
        found[quote->number] = quote->price_cents;
        CHECK(read.record.version == 1);
        CHECK(quote->request.notation == 1);
        const engine::PricedAgain again = engine::price_again(read.record);
        CHECK(again.job.value.has_value());
        CHECK(again.differences.empty());
        for (const std::string& difference : again.differences)
            MESSAGE(difference);
    }
    CHECK(found == sealed);
}

TEST_CASE("the rules differ where the versions do, and today's are the last") {
    using lang::rules_of;
    CHECK_FALSE(rules_of(1).shares_carry_percent);
    CHECK(rules_of(2).shares_carry_percent);
    CHECK_FALSE(rules_of(2).profit_after_overhead);
    CHECK(rules_of(3).profit_after_overhead);
    CHECK(rules_of(lang::current_notation).copies_start_from_shared);
    CHECK_FALSE(lang::is_a_word_of(1, "choose"));
    CHECK(lang::is_a_word_of(1, "given"));
    CHECK(lang::is_a_word_of(lang::current_notation, "choose"));
}

} // namespace first_book_test
