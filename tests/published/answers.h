// The figures marked in the answer of a question of examples/README.md, bare: "$95,078.00" is
// 95078.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <string>
#include <vector>

namespace acre::tests {

inline std::vector<double> answered(int question) {
    std::ifstream in(std::string(ACREWRIGHT_ROOT) + "/examples/README.md");
    const std::string begin = "| " + std::to_string(question) + " | ";
    for (std::string row; std::getline(in, row);) {
        if (!row.starts_with(begin))
            continue;
        const std::string answer = row.substr(row.rfind(" | ") + 3);
        std::vector<double> figures;
        for (std::size_t at = answer.find('`'); at != std::string::npos;
             at = answer.find('`', at + 1)) {
            const std::size_t end = answer.find('`', at + 1);
            std::string digits;
            for (const char c : answer.substr(at + 1, end - at - 1))
                if ((c >= '0' && c <= '9') || c == '.' || c == '-')
                    digits += c;
                else if (c != ',' && c != '$' && c != '+')
                    break; // the unit
            figures.push_back(digits.empty() ? std::nan("") : std::stod(digits));
            at = end;
        }
        return figures;
    }
    FAIL("no question " << question);
    return {};
}

inline double up(double value, double step) {
    return std::ceil(value / step - 1e-9) * step;
}

} // namespace acre::tests
