// The engine behind one call, for who has no files and no command line: a page. A question comes as
// JSON, the answer is the JSON of the command of that name (cli/README.md). Texts come with the
// first question and stay; jobs that were made are kept until a text changes, and where only
// givens move, the plan of the job as written is read with other numbers.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/module/texts.h"
#include "engine/driver.h"
#include "engine/job/used_texts.h"
#include "lang/kept_trees.h"

namespace acre::cli {

inline constexpr std::size_t max_question_bytes = 16U << 20U;

// Which job a question is about.
struct JobAsked {
    std::size_t job = 0; // of the page's
    std::string option, season;
    std::vector<std::pair<std::string, std::string>> sets; // as `--set` takes them
    bool malformed = false; // its `sets` are no list of a name and a value each
};

class Session {
  public:
    using Passed = std::function<void(std::uint64_t trials)>;
    explicit Session(Passed passed = {}) : passed_(std::move(passed)) {}

    // Never throws: what goes wrong is an answer too (acrewright.failure/1).
    std::string answer(std::string_view question);

    // For the questions (cli/module/questions.h).
    void take(PageTexts texts);
    bool change_text(const std::string& name, std::string text); // false: there is no such text
    const PageTexts& texts() const { return texts_; }
    const Passed& passed() const { return passed_; }

    // As it is written, with the sets told as set by hand; kept.
    lang::Outcome<engine::Job> open(const JobAsked& asked);
    // The same figures, sooner; who set a given is told as in the texts.
    lang::Outcome<engine::Job> move(const JobAsked& asked);
    lang::Outcome<lang::Request> request_of(const JobAsked& asked);

  private:
    lang::Outcome<engine::Job> make(const JobAsked& asked);

    Passed passed_;
    PageTexts texts_;
    std::unique_ptr<lang::KeptTrees> trees_ = std::make_unique<lang::KeptTrees>();
    std::map<std::string, lang::Outcome<engine::Job>> kept_; // by what was asked
};

} // namespace acre::cli
