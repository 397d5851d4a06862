// No wrong price without a word: slips made by hand, class by class, and the list of those that are
// not caught yet, which may only shrink.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <set>

#include "tests/slips/operators.h"
#include "tests/slips/slip.h"

namespace slips_test {

using namespace acre::tests;

namespace {

// How many of each class were tried, and how many came out as they should.
class Tally {
  public:
    // `fault` empty: caught.
    void count(const std::string& kind, const std::string& name, const std::string& fault) {
        auto& [tried, caught] = of_kind_[kind];
        ++tried;
        caught += fault.empty() ? 1 : 0;
        const bool listed = listed_.contains(name);
        seen_.insert(name);
        CHECK_MESSAGE((fault.empty() || listed), name << " is not caught: " << fault);
        CHECK_MESSAGE((!fault.empty() || !listed), name << " is caught: take it off not_yet.txt");
        if (tells_ && !fault.empty())
            std::cout << name << "\t" << fault << "\n";
    }

    void finish(bool (*is_mine)(const std::string& name)) const {
        for (const std::string& name : listed_)
            CHECK_MESSAGE((!is_mine(name) || seen_.contains(name)),
                          name << " is no slip: take it off not_yet.txt");
        if (tells_)
            for (const auto& [kind, counts] : of_kind_)
                std::cout << "# " << kind << "\t" << counts.first << "\t" << counts.second << "\n";
    }

  private:
    std::map<std::string, std::pair<int, int>> of_kind_; // tried, caught
    const std::set<std::string> listed_ = [] {
        const std::vector<std::string> names = not_yet();
        return std::set<std::string>(names.begin(), names.end());
    }();
    std::set<std::string> seen_;
    // ACREWRIGHT_SLIPS=1 prints what is not caught and why, and the counts.
    const bool tells_ = std::getenv("ACREWRIGHT_SLIPS") != nullptr;
};

bool is_by_hand(const std::string& name) {
    return name.size() > 2 && name[0] >= '0' && name[0] <= '9';
}
bool is_golden(const std::string& name) {
    return name.starts_with("edit of ");
}
bool is_by_operator(const std::string& name) {
    return !is_by_hand(name) && !is_golden(name);
}

} // namespace

TEST_CASE("the bases price as they should") {
    Stages stages;
    CHECK(stages["newcomer"].run("price first.job", true).price == "$20,693.50");
    CHECK(stages["shipped"].run("price examples/01-first-price.job", true).price == "$106,712.00");
    const Answer blocks = stages["blocks"].run("price two.job", true);
    CHECK(blocks.priced());
    CHECK(blocks.told.empty());
}

TEST_CASE("words are read as a shell reads them") {
    CHECK(words_of("price a.job --set 'wage=$38/h' \"b c\"") ==
          std::vector<std::string>{"price", "a.job", "--set", "wage=$38/h", "b c"});
}

TEST_CASE("slips made by hand are refused with the right mend, or shown") {
    const char* only = std::getenv("ACREWRIGHT_ONLY"); // part of a name, while one is at work on it
    Stages stages;
    Tally tally;
    std::map<std::string, int> of_kind;
    std::set<std::string> names;
    for (const Slip& slip : all_slips()) {
        const std::string name = slip.kind + "/" + slip.name;
        CAPTURE(slip.place);
        CHECK_MESSAGE(names.insert(name).second, name << " is there twice");
        ++of_kind[slip.kind];
        if (only == nullptr || name.find(only) != std::string::npos)
            tally.count(slip.kind, name, judge(slip, stages));
    }
    CHECK(of_kind.size() == 15);
    for (const auto& [kind, count] : of_kind)
        CHECK_MESSAGE(count >= 10, kind << " has only " << count);
    if (only == nullptr)
        tally.finish(is_by_hand);
}

TEST_CASE("every edit that is offered for the smallest text of an error mends it") {
    Stages stages;
    Tally tally;
    const std::vector<TriedEdit> tried = golden_edits(stages);
    CHECK(tried.size() >= 20);
    for (const TriedEdit& edit : tried)
        tally.count("edits of golden errors", edit.name, edit.fault);
    tally.finish(is_golden);
}

TEST_CASE("slips by rule over the models, seasons and jobs are refused or shown") {
    const char* only = std::getenv("ACREWRIGHT_ONLY");
    Stages stages;
    Tally tally;
    const std::vector<Mutant> mutants = chosen_mutants(stages);
    CHECK(mutants.size() >= 300);
    for (const Mutant& mutant : mutants) {
        if (only != nullptr && mutant.name.find(only) == std::string::npos)
            continue;
        const Verdict verdict = judge(mutant, stages);
        if (verdict.counts)
            tally.count("rule " + mutant.rule, mutant.name, verdict.silent);
        if (verdict.mended)
            tally.count("mends of " + mutant.rule, "mend of " + mutant.name, *verdict.mended);
    }
    if (only == nullptr)
        tally.finish(is_by_operator);
}

} // namespace slips_test
