// From job files to everything that a page of them carries.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/module/texts.h"
#include "engine/driver.h"
#include "engine/questions/price.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

inline constexpr std::size_t max_page_jobs = 12;

struct OptionPrice {
    std::string title;
    engine::Estimate estimate;
};
struct CollectedJob {
    engine::Job job;
    engine::PriceAnswer price;
    std::vector<OptionPrice> options; // those that have a price
};
struct Collected {
    PageTexts texts;
    std::vector<CollectedJob> jobs;
    std::vector<lang::Said> said; // warnings
};

// Every job is priced, and with each of its options, so that all texts they refer to are there. An
// option without a price stays one of the page's.
lang::Outcome<Collected> collect(const std::vector<std::string>& paths, const std::string& models);

} // namespace acre::cli
