// Names that a season sets and the models of a job do not have. A season holds values for many
// models, so most of them are meant for others; what looks like a slip is told by itself.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lang/check/resolve/resolution.h"
#include "lang/syntax/ast.h"

namespace acre::lang::resolving {

// `names` that `name` begins, or that begin it, a word or more apart: `wage` of `wage_per_hour`,
// `prices.reserve_share` of `prices.reserve`. At most three.
std::vector<std::string_view> longer_or_shorter(std::string_view name,
                                                std::span<const std::string_view> names);

class SeasonNames {
  public:
    // `givens`: every name that a season could set here, as it would write it.
    SeasonNames(Resolution& r, std::vector<std::string_view> givens);

    void add(const ast::Word& name) { unknown_.push_back(name); }

    // L807 for each that is near a given, or is one but for a prefix too many or too few; the
    // others are listed in the sheet's JobInfo.
    void report();

  private:
    std::vector<std::string_view> near(std::string_view name) const;
    bool is_prefix(std::string_view head) const;
    void report_slip(const ast::Word& name, const std::vector<std::string_view>& near);

    Resolution& r_;
    std::vector<std::string_view> givens_;
    std::vector<ast::Word> unknown_;
};

} // namespace acre::lang::resolving
