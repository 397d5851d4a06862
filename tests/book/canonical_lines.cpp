// Reads JSON, a value a line, and writes each in canonical form: tests/book/canonical.py holds that
// against a form of its own.
#include <iostream>
#include <string>

#include <nlohmann/json.hpp>

#include "engine/book/canonical.h"

int main() {
    for (std::string line; std::getline(std::cin, line);)
        std::cout << acre::engine::canonical(nlohmann::json::parse(line)) << "\n";
}
