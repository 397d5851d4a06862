// Why a question has no answer, in words: one line, lower case, no full stop, and what to do about
// it.
#pragma once

#include <string>
#include <vector>

namespace acre::engine {

struct Refusal {
    std::string what;
    std::vector<std::string> helps;
};

} // namespace acre::engine
