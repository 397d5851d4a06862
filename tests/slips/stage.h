// Where slips are tried: copies of working files, command lines run in process, and the answers as
// data.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "tests/support/scratch_folder.h"

namespace acre::tests {

// An error or a warning as JSON tells it.
struct Told {
    std::string code, title, text; // text: with labels and notes
    std::string path;
    std::size_t line = 0;
    struct Help {
        std::string text;
        bool edits = false;
        std::string path, replacement;
        std::size_t begin = 0, end = 0; // bytes
    };
    std::vector<Help> helps;
    bool error = false;
};

struct Answer {
    int code = 0;
    std::string out, err;
    std::vector<Told> told;
    std::string price;                // text of the total; empty: none
    std::vector<std::string> amounts; // of the items

    bool priced() const { return code == 0 && !price.empty(); }
    // The first of this code ("?": any) whose text holds all of `says`.
    const Told* find(const std::string& code, bool error,
                     const std::vector<std::string>& says = {}) const;
};

// "price first.job --set wage='$38/h'" into words, quotes as a shell takes them.
std::vector<std::string> words_of(const std::string& line);

// A copy of a base: a folder of tests/slips/bases; "shipped": the models and examples of the
// repository; "errors": tests/golden/errors. The program runs in it.
class Stage {
  public:
    explicit Stage(const std::string& base);

    std::string text(const std::string& file) const;
    void write(const std::string& file, const std::string& text); // until restore()
    bool edit(const Told::Help& help); // false: the place is not in a file of the stage
    void restore();

    // As words (`json` false) or as JSON.
    Answer run(const std::string& line, bool json, const std::string& input = {});
    const std::string& job() const { return job_; }

  private:
    ScratchFolder scratch_;
    std::string job_;
    std::map<std::string, std::optional<std::string>> changed_; // as it was; nothing: not there
};

// One stage a base, made when it is first asked for.
class Stages {
  public:
    Stage& operator[](const std::string& base);

  private:
    std::map<std::string, std::unique_ptr<Stage>> stages_;
};

} // namespace acre::tests
