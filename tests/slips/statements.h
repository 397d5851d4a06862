// Texts of the notation as a search for words sees them: statements, numbers with their units, and
// which file rests on which.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "tests/slips/stage.h"

namespace acre::tests {

extern const std::string number_pattern; // digits with commas and a point

// The text with what stands in quotes and comments blotted out, byte for byte.
std::string blotted(const std::string& text);

// Where the statement begins that a place belongs to: a line whose first word begins one.
std::size_t statement_at(const std::string& text, std::size_t at);
// All of it, with the lines that go on.
std::string statement_text(const std::string& text, std::size_t begin);
// "given area", "set site.miles", "margin".
std::string name_of_statement(const std::string& text, std::size_t begin);

// A number with its unit as it is written: "$4.35" with "/gal", "60" with " ac".
struct Literal {
    double value = 0;
    std::string unit;
};
double value_of(std::string digits);
std::optional<std::pair<Literal, Literal>> within_of(const std::string& statement);

// Whole files, read once.
class WholeFiles {
  public:
    WholeFiles(Stages& stages, std::string base, const std::vector<std::string>& names);
    const std::string& base() const { return base_; }
    const std::map<std::string, std::string>& texts() const { return texts_; }

    // The statement of a given, found by the name that a season or a job sets: "crawler.tip".
    std::string given(const std::string& name, const std::string& model) const;
    std::string model_of(const std::string& job) const;
    // Whether the job's price rests on the file: the model it names and all that it uses.
    bool reads(const std::string& job, const std::string& file) const;

  private:
    std::string base_;
    std::map<std::string, std::string> texts_;
};

} // namespace acre::tests
