// Syntax trees to one flat sheet: instances of used models, names to ids, layers of values in
// order, entries laid out, costs and prices written out as plain lines.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/ast.h"

namespace acre::lang {

// Places of errors that were told, by the name of a file and the byte in it. A given that is set by
// a statement with one of them has no value: the others can still be judged.
using Withheld = std::vector<std::pair<std::string, std::uint32_t>>;

// Trees that stay where they are, perhaps shared with other compilations.
class Modules {
  public:
    struct Iterator {
        const std::shared_ptr<const ast::Module>* at;

        const ast::Module& operator*() const { return **at; }
        Iterator& operator++() {
            ++at;
            return *this;
        }
        friend bool operator==(const Iterator&, const Iterator&) = default;
    };
    void push_back(std::shared_ptr<const ast::Module> module) { all_.push_back(std::move(module)); }
    const ast::Module& operator[](std::size_t i) const { return *all_[i]; }
    std::size_t size() const { return all_.size(); }
    Iterator begin() const { return {all_.data()}; }
    Iterator end() const { return {all_.data() + all_.size()}; }

  private:
    std::vector<std::shared_ptr<const ast::Module>> all_;
};

// All the texts of one compilation, parsed. uses[i] are the modules that the Use statements of
// modules[i] name, in order.
struct Program {
    Modules modules;
    std::vector<std::vector<std::uint32_t>> uses;
    std::uint32_t model = none;        // the job's model
    std::uint32_t season = none;       // or none
    std::vector<std::uint32_t> values; // files of values that the job takes, in its order
    std::uint32_t job = none;          // or none: a model by itself
    std::uint32_t firm = none;         // or none: dollars
    std::uint32_t command_line = none; // or none: `set` statements of the command line
    // Values from a field layout (area, travel, …), as a text of `set` statements; between job and
    // block.
    std::uint32_t field = none;
    std::uint32_t tried = none; // or none: one `set` whose value is a formula that is tried out
    std::string option;         // title of the option chosen; empty: the job as it stands
    // False: functions that nothing calls stay without formulas, unless the model itself writes
    // them. Enough for a price.
    bool every_function = true;
    Withheld withheld;
    std::vector<std::string> as_modeled;       // givens that keep what the models say
    std::uint32_t notation = current_notation; // the version whose rules hold
};

// The line of a formula that is tried out; no name that a text can give.
inline constexpr std::string_view tried_line = "the formula";

// Reports N2xx, I60x and U314. Always returns a sheet; what could not be resolved is a Missing
// node.
Sheet resolve(const Program& program, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang
