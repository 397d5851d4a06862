// The rules: what a tired person does to one file.
#pragma once

#include <string>
#include <vector>

#include "tests/slips/operators.h"
#include "tests/slips/statements.h"

namespace acre::tests {

// Every slip of every rule.
void make_mutants(const Files& files, const std::string& file, std::vector<Mutant>& out);

} // namespace acre::tests
