// Formulas of the library, written in the notation and computed through the whole pipeline, against
// printed figures.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "models/library_texts.h"
#include "tests/support/priced.h"

namespace acre::tests {

struct Formula {
    std::string text, unit;
};

// A model that uses the whole library.
inline std::string library_user() {
    std::string text = "model \"check\"\n";
    int n = 0;
    for (const models::LibraryText& l : models::library_texts())
        text += "use \"" + std::string(l.reference) + "\" as library_" + std::to_string(n++) + "\n";
    return text;
}

inline std::vector<double> values_of(const std::vector<Formula>& formulas) {
    std::string text = library_user();
    for (std::size_t i = 0; i < formulas.size(); ++i)
        text +=
            "v" + std::to_string(i) + " : " + formulas[i].unit + " = " + formulas[i].text + "\n";
    const Priced p = priced_ok(text);
    std::vector<double> out;
    for (std::size_t i = 0; i < formulas.size(); ++i)
        out.push_back(p.value("v" + std::to_string(i)));
    return out;
}
inline double value_of_formula(const std::string& text, const std::string& unit) {
    return values_of({{text, unit}}).front();
}

// A figure and how far the print allows it to be off.
struct Published {
    std::string formula, unit;
    double figure, tolerance;
};
inline void check_all(const std::vector<Published>& rows) {
    std::vector<Formula> formulas;
    for (const Published& r : rows)
        formulas.push_back({r.formula, r.unit});
    const std::vector<double> values = values_of(formulas);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        CAPTURE(rows[i].formula);
        CAPTURE(rows[i].figure);
        CAPTURE(values[i]);
        CHECK(std::abs(values[i] - rows[i].figure) <= rows[i].tolerance);
    }
}

} // namespace acre::tests
