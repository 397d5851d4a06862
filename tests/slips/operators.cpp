#include "tests/slips/operators.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>
#include <utility>

#include "tests/slips/rules.h"

namespace acre::tests {
namespace {

namespace fs = std::filesystem;

constexpr std::uint64_t seed = 2027;

std::uint64_t hash(const std::string& text) { // FNV-1a
    std::uint64_t value = 14695981039346656037ULL ^ seed;
    for (const char c : text)
        value = (value ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    return value ^ (value >> 29);
}

std::vector<std::string> shipped_files() {
    std::vector<std::string> names;
    for (const char* folder : {"models", "examples"})
        for (const auto& entry : fs::directory_iterator(fs::path(ACREWRIGHT_ROOT) / folder)) {
            const std::string end = entry.path().extension();
            if (end == ".rate" || end == ".job" || end == ".season")
                names.push_back(std::string(folder) + "/" + entry.path().filename().string());
        }
    std::sort(names.begin(), names.end());
    return names;
}

using Words = std::multiset<std::pair<std::string, std::string>>; // code and title
Words words_of(const Answer& answer, bool errors) {
    Words out;
    for (const Told& told : answer.told)
        if (told.error == errors)
            out.emplace(told.code, told.title);
    return out;
}
bool adds(const Words& now, const Words& before) {
    return !std::includes(before.begin(), before.end(), now.begin(), now.end());
}

std::string prices(const Answer& answer) {
    std::string text = answer.price;
    for (const std::string& amount : answer.amounts)
        text += " " + amount;
    return text;
}

const Answer& before(Stage& stage, const std::string& base, const std::string& line) {
    static std::map<std::string, Answer> known;
    const auto [at, added] = known.try_emplace(base + " " + line);
    if (added)
        at->second = stage.run(line, true);
    return at->second;
}

// Empty: the error is gone and no other came.
std::string wrong_errors(const Told& told, const Answer& refused, const Answer& now) {
    const Words errors = words_of(now, true);
    const Words known = words_of(refused, true);
    const std::pair<std::string, std::string> mended(told.code, told.title);
    if (errors.count(mended) >= known.count(mended))
        return "the error stays";
    for (const auto& error : errors)
        if (errors.count(error) > known.count(error))
            return "a new error: " + error.first + " " + error.second;
    return "";
}

// What its first edit does: no error that was not there, and no other price without a word.
std::optional<std::string> try_mend(Stage& stage, const std::string& line, const Answer& right,
                                    const Answer& refused) {
    for (const Told& told : refused.told) {
        const auto help = std::find_if(told.helps.begin(), told.helps.end(),
                                       [](const Told::Help& one) { return one.edits; });
        if (!told.error || help == told.helps.end())
            continue;
        if (!stage.edit(*help))
            continue;
        const Answer now = stage.run(line, true);
        const std::string what = told.code + " \"" + help->text + "\": ";
        if (const std::string fault = wrong_errors(told, refused, now); !fault.empty())
            return what + fault;
        if (now.priced() && prices(now) != prices(right) &&
            !adds(words_of(now, false), words_of(right, false)))
            return what + "another price, " + now.price + " for " + right.price;
        return "";
    }
    return std::nullopt;
}

} // namespace

std::vector<Mutant> chosen_mutants(Stages& stages) {
    std::vector<Mutant> all;
    for (const WholeFiles& files :
         {WholeFiles(stages, "newcomer", {"2027.season", "first.job", "ripping.rate"}),
          WholeFiles(stages, "shipped", shipped_files())})
        for (const auto& [file, text] : files.texts())
            if (file != "examples/2027-autumn.season") // as 2027.season, for quotes again
                make_mutants(files, file, all);
    std::map<std::string, std::vector<Mutant>> by_rule;
    for (Mutant& mutant : all)
        by_rule[mutant.rule].push_back(std::move(mutant));
    constexpr std::size_t most = 45; // of a rule
    std::vector<Mutant> chosen;
    for (auto& [rule, mutants] : by_rule) {
        std::sort(mutants.begin(), mutants.end(), [](const Mutant& a, const Mutant& b) {
            return std::pair(hash(a.name), a.name) < std::pair(hash(b.name), b.name);
        });
        mutants.resize(std::min(mutants.size(), most));
        chosen.insert(chosen.end(), mutants.begin(), mutants.end());
    }
    return chosen;
}

Verdict judge(const Mutant& mutant, Stages& stages) {
    Stage& stage = stages[mutant.base];
    std::vector<std::reference_wrapper<const Answer>> right;
    for (const std::string& line : mutant.runs)
        right.emplace_back(before(stage, mutant.base, line));
    std::string text = stage.text(mutant.file);
    text.replace(mutant.begin, mutant.end - mutant.begin, mutant.replacement);
    stage.write(mutant.file, text);
    Verdict verdict;
    verdict.counts = false;
    for (std::size_t i = 0; i < mutant.runs.size() && !verdict.counts; ++i) {
        const Answer& was = right[i];
        if (!was.priced())
            continue; // an option that its job refuses
        const Answer now = stage.run(mutant.runs[i], true);
        verdict.counts = now.code != 0 || !mutant.mends_only;
        if (!verdict.counts)
            break;
        if (now.code != 0) {
            if (words_of(now, true).empty())
                verdict.silent = "no answer and no code";
            else
                verdict.mended = try_mend(stage, mutant.runs[i], was, now);
        } else if (!adds(words_of(now, false), words_of(was, false))) {
            if (prices(now) == prices(was))
                verdict.counts = false;
            else
                verdict.silent = mutant.runs[i] + ": " + was.price + " becomes " + now.price;
        }
    }
    stage.restore();
    return verdict;
}

std::vector<TriedEdit> golden_edits(Stages& stages) {
    std::vector<std::string> files;
    for (const auto& entry :
         fs::directory_iterator(fs::path(ACREWRIGHT_ROOT) / "tests/golden/errors")) {
        const std::string end = entry.path().extension();
        if (end == ".rate" || end == ".job" || end == ".season")
            files.push_back(entry.path().filename());
    }
    std::sort(files.begin(), files.end());
    std::vector<TriedEdit> tried;
    Stage& stage = stages["errors"];
    for (const std::string& file : files) {
        const Answer was = stage.run("check " + file, true);
        for (const Told& told : was.told)
            for (const Told::Help& help : told.helps) {
                if (!help.edits || !stage.edit(help))
                    continue;
                const Answer now = stage.run("check " + file, true);
                stage.restore();
                tried.push_back({"edit of " + file + ": " + help.text,
                                 told.error ? wrong_errors(told, was, now) : ""});
            }
    }
    return tried;
}

} // namespace acre::tests
