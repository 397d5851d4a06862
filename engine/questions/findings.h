// Findings of several runs over the same texts, each kept once.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "lang/diag/outcome.h"

namespace acre::engine {

class Findings {
  public:
    // Keeps what no earlier run said; `note`, if any, tells in which run it was found.
    void add(const lang::Said& said, const std::string& note = {});

    std::vector<lang::Said> take() { return std::move(kept_); }

  private:
    std::vector<lang::Said> kept_;
    std::set<std::string> known_;
};

} // namespace acre::engine
