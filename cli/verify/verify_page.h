// A quote book verified, ready to be shown.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "engine/book/again.h"
#include "engine/book/chain.h"

namespace acre::cli {

struct Verified {
    std::size_t records = 0;
    std::vector<engine::BookFault> faults;
    std::vector<engine::PricedAgain> quotes;
    std::size_t differing() const; // quotes with another result
};

std::string verify_text(const Verified& verified);
// Schema acrewright.verify/1. Field by field in cli/README.md.
Document verify_json(const Verified& verified);

} // namespace acre::cli
