// The slips themselves, by rule: what is done to a text, and which prices may change with it.
#pragma once

#include <string>
#include <vector>

#include "tests/slips/operators.h"
#include "tests/slips/statements.h"

namespace acre::tests {

// Adds the slips of one of the files.
void make_mutants(const WholeFiles& files, const std::string& file, std::vector<Mutant>& out);

} // namespace acre::tests
