// A job that only sets numbers and choices, as most do: enough of it to put it into a plan that
// other jobs have made already.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "lang/syntax/ast.h"

namespace acre::engine {

struct PlainJob {
    std::string model, season, title, who;
    std::optional<lang::ast::Date> date;
    struct Set {
        std::string name, choice, unit; // a choice, or a number in a unit
        std::string money;              // its sign or code, as written
        double number = 0;
    };
    std::vector<Set> sets;

    // Jobs of one key share a plan: the same folder, model and season, the same givens set.
    std::string key(const std::string& folder) const;
};

// Empty: the text is at fault, or says more than that.
std::optional<PlainJob> plain_job(const std::string& path, const std::string& text);

} // namespace acre::engine
