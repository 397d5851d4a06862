// Under what a customer is kept.
#include "cli/shared/quote_book/customer_id.h"

#include <doctest/doctest.h>

#include <string>

#include "engine/book/seal.h"

namespace customer_id_test {

using acre::cli::customer_id;

TEST_CASE("a customer is kept under the name, in letters that every file and page takes") {
    const auto sum = [](const char* name) { return acre::engine::sha256(name).substr(0, 6); };
    CHECK(customer_id("Zeb & Liz, Lot 09") == "zeb-liz-lot-09-" + sum("Zeb & Liz, Lot 09"));
    CHECK(customer_id("(az) AZ!") == "az-az-" + sum("(az) AZ!"));
    CHECK(customer_id("  two   words ") == customer_id("two words"));
    CHECK(customer_id("Two words") != customer_id("two words")); // the sum tells them apart
    CHECK(customer_id("\xc3\xa4") == sum("\xc3\xa4"));
    CHECK(customer_id("") == sum(""));
    const std::string forty(40, 'a');
    CHECK(customer_id(forty) == forty + "-" + sum(forty.c_str()));
    CHECK(customer_id(forty + "b") == forty + "-" + sum((forty + "b").c_str()));
    CHECK(customer_id(std::string(39, 'a') + " b") ==
          std::string(39, 'a') + "-" + sum((std::string(39, 'a') + " b").c_str()));
}

} // namespace customer_id_test
