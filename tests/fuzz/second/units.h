// The units of the second reader: a table of its own, in SI, from the definitions and not from the
// program's catalog; and a reader of unit texts of its own.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "tests/fuzz/second/value.h"

namespace acre::fuzz::second {

// "mi/h", "$/(ac.ft)", "ft^2", "1": one of it, in base units. None: not known here.
class Units {
  public:
    void add_noun(std::string_view name); // known by its plural with an s, too
    void add(std::string_view name, const Value& one);
    std::optional<Value> read(std::string_view text) const;

  private:
    std::optional<Value> named(std::string_view name) const;
    std::map<std::string, Value, std::less<>> own_;
    mutable std::map<std::string, std::optional<Value>, std::less<>> read_; // texts so far

    friend class UnitText;
};

} // namespace acre::fuzz::second
